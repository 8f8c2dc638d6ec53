import type { Metal } from '../../../src/bending/metal.ts'
import type { RollerBender } from '../../../src/bending/roller/roller-bender.ts'
import type { SectionProperties } from '../../../src/bending/section-properties.ts'
import { lawOf, pressedAlong, rolledThrough } from '../../bending/roller/simulated-rail.ts'
import type { Setting } from './read-sheets.ts'

const STRESSES = 20_000

/**
 * M(κ) = Σ 2h/κ²·∫ s·ε dε, ε from 0 to κ·b, b the half width: plane sections, s(ε) by ε = s/E + 0.002·(s/sy)^n, summed up
 * numerically over the stress.
 */
export function momentLaw(section: SectionProperties, metal: Metal) {
  if (metal.hardening.model !== 'ramberg-osgood') throw new Error('only for Ramberg–Osgood metals')
  const { n } = metal.hardening
  const strainAt = (s: number) => s / metal.youngsModulusMpa + 0.002 * (s / metal.yieldMpa) ** n
  const most = 2.5 * metal.yieldMpa
  const [strains, sums] = [[0], [0]]
  for (let row = 1; row <= STRESSES; row++) {
    const s = (most * row) / STRESSES
    const [from, to] = [strains.at(-1)!, strainAt(s)]
    strains.push(to)
    sums.push(sums.at(-1)! + (s - most / STRESSES / 2) * ((from + to) / 2) * (to - from))
  }
  const sumTo = (strain: number) => {
    let [low, high] = [0, STRESSES]
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if (strains[middle]! <= strain) low = middle
      else high = middle
    }
    const share = (strain - strains[low]!) / (strains[high]! - strains[low]!)
    return sums[low]! + (sums[high]! - sums[low]!) * share
  }
  return (k: number) =>
    k === 0
      ? 0
      : section.rectangles.reduce(
          (sum, { widthMm, heightMm }) => sum + (2 * heightMm * sumTo((k * widthMm) / 2)) / k ** 2,
          0,
        )
}

/** A bench with one rail and one bender; what has been bent before is remembered. */
export class SimulatedBench {
  private readonly section: SectionProperties
  private readonly roller: RollerBender | null
  private readonly law: ReturnType<typeof lawOf>
  private readonly moment: (k: number) => number
  private readonly known = new Map<string, number>()

  constructor(section: SectionProperties, metal: Metal, roller: RollerBender | null) {
    this.section = section
    this.roller = roller
    this.moment = momentLaw(section, metal)
    this.law = lawOf(section, metal, 1 / 60, this.moment)
  }

  /** Curvature, per mm, that rail keeps. */
  bent(setting: Exclude<Setting, { by: 'spring-in' }>): number {
    if (setting.by === 'hand') {
      const k = 1 / setting.loadedRadiusMm
      return k - this.moment(k) / this.law.stiffness
    }
    return this.pressedOrRolled(setting.depthsMm, setting.pressMm)
  }

  pressedOrRolled(depthsMm: readonly number[], pressMm: number | null): number {
    const key = JSON.stringify([depthsMm, pressMm])
    const known = this.known.get(key) ?? this.worked(depthsMm, pressMm)
    this.known.set(key, known)
    return known
  }

  private worked(depthsMm: readonly number[], pressMm: number | null): number {
    const { section, roller, law } = this
    if (!roller) throw new Error('there is no bender')
    if (roller.mode === 'rolled') return rolledThrough(section, roller, law, depthsMm).at(-1)!
    if (pressMm === null) throw new Error('the card does not say how far apart to press')
    const along = pressedAlong(section, roller, law, depthsMm, pressMm, PRESSES)
    return along.reduce((sum, each) => sum + each, 0) / along.length
  }
}

const PRESSES = 10
