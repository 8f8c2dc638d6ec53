import { withYield } from '../metal.ts'
import { setCurvature } from '../moment-curvature.ts'
import { rootBetween } from '../numeric/root.ts'
import { onePassDepthMm } from '../roller/model-for.ts'
import { type Rail, type ReadBend, restingRadiusOfReading } from './test-bend.ts'

/** How far each reading may be off, either way. */
export interface Resolution {
  /** Of a radius, at least. */
  readonly radiusMm: number
  /** Of an ordinate. */
  readonly readingMm: number
  /** The chord that radii were read over: nearly straight ones are only as accurate as their ordinate. */
  readonly chordMm: number
  /** Of the bender's depth. */
  readonly depthMm: number
}

export const DEFAULT_RESOLUTION: Resolution = { radiusMm: 5, readingMm: 0.5, chordMm: 500, depthMm: 0.05 }

/** The yield that explains one test bend; null where none does. */
export interface YieldReading {
  readonly yieldMpa: number | null
  /** The same with every reading off by its resolution in the worse direction; null: not bounded on that side. */
  readonly lowMpa: number | null
  readonly highMpa: number | null
  /** Percent of yield per percent of resting radius; null without a yield. */
  readonly sensitivity: number | null
}

/**
 * Effective yield of a test bend: the yield at which the section, bent to the formed radius, comes to rest at the
 * resting one (or, for a pass through a bender, at which `onePassDepthMm` is the depth for it), all else of the
 * metal as named. The set falls as the yield rises, so there is at most one.
 *
 * The band: the yield rises with the resting radius and the depth and falls with the formed radius, so its edges are
 * the yields of the readings' corners. Range: a sound test bend (see `readTestBend`), yields from a thousandth of the
 * named metal's to a tenth of E. Checked by simulated bends in tests/bending/calibration/effective-yield.test.ts.
 */
export function readYield(bend: ReadBend, rail: Rail, resolution: Resolution): YieldReading {
  const yieldMpa = solve(bend, rail, rail.metal.yieldMpa, WITHIN)
  if (yieldMpa === null) return NO_YIELD
  return {
    yieldMpa,
    lowMpa: solve(shifted(bend, rail, resolution, -1), rail, yieldMpa, BAND_WITHIN),
    highMpa: solve(shifted(bend, rail, resolution, 1), rail, yieldMpa, BAND_WITHIN),
    sensitivity: sensitivity(bend, rail, yieldMpa),
  }
}

/** Of a bend that no yield explains, or that is not asked for one. */
export const NO_YIELD: YieldReading = { yieldMpa: null, lowMpa: null, highMpa: null, sensitivity: null }

const LEAST_SHARE = 1e-3
const GREATEST_STRAIN = 0.1

/** Of ln(yield). */
const WITHIN = 1e-9
const BAND_WITHIN = 1e-6
const FIRST_STEP = 0.2

/** The yield that explains a bend, looked for from one that is likely; each value takes much work. */
function solve(bend: ReadBend, rail: Rail, likelyMpa: number, within: number): number | null {
  const { excess, least, greatest } = yieldEquation(bend, rail)
  const likely = Math.min(greatest, Math.max(least, Math.log(likelyMpa)))
  const atLikely = excess(likely)
  if (Number.isNaN(atLikely)) return null
  const way = atLikely < 0 ? 1 : -1
  let from = likely
  for (let step = FIRST_STEP; ; step *= 2) {
    const to = Math.min(greatest, Math.max(least, from + way * step))
    if (excess(to) * way > 0) return Math.exp(rootBetween(excess, from, to, within))
    if (to === least || to === greatest) return null
    from = to
  }
}

/** Whether some yield explains a bend; much cheaper than calculating it. */
export function hasYield(bend: ReadBend, rail: Rail): boolean {
  return isSolvable(yieldEquation(bend, rail))
}

interface YieldEquation {
  /** Of ln(yield): negative where it is too low, positive where it is too high; NaN for a bend no yield explains. */
  readonly excess: (logYield: number) => number
  readonly least: number
  readonly greatest: number
}

function isSolvable({ excess, least, greatest }: YieldEquation): boolean {
  return excess(least) < 0 && excess(greatest) > 0
}

function yieldEquation(bend: ReadBend, { section, metal, bender }: Rail): YieldEquation {
  const { restingRadiusMm } = bend
  const ofYield =
    bend.kind === 'radii'
      ? (yieldMpa: number) =>
          1 - restingRadiusMm * setCurvature(section, withYield(metal, yieldMpa), 1 / bend.formedRadiusMm)
      : (yieldMpa: number) => {
          const candidate = withYield(metal, yieldMpa)
          return onePassDepthMm(section, candidate, bender!, 1 / restingRadiusMm) / bend.depthMm - 1
        }
  const isBent = Number.isFinite(restingRadiusMm) && restingRadiusMm > 0
  return {
    excess: (logYield) => (isBent ? ofYield(Math.exp(logYield)) : Number.NaN),
    least: Math.log(metal.yieldMpa * LEAST_SHARE),
    greatest: Math.log(metal.youngsModulusMpa * GREATEST_STRAIN),
  }
}

/** The bend as it would read with every reading off by its resolution towards a lower (−1) or a higher (+1) yield. */
function shifted(bend: ReadBend, rail: Rail, resolution: Resolution, towards: -1 | 1): ReadBend {
  const restingOf = ({ chordMm, ordinateMm }: { chordMm: number; ordinateMm: number }) =>
    restingRadiusOfReading(rail.section, chordMm, Math.max(0, ordinateMm - towards * resolution.readingMm))
  if (bend.kind === 'radii')
    return {
      ...bend,
      formedRadiusMm: Math.max(rail.section.extremeFibreMm, radiusOff(bend.formedRadiusMm, resolution, -towards)),
      restingRadiusMm: bend.readOn ? restingOf(bend.readOn) : radiusOff(bend.restingRadiusMm, resolution, towards),
    }
  return {
    ...bend,
    depthMm: Math.max(0, bend.depthMm + towards * resolution.depthMm),
    restingRadiusMm: restingOf(bend),
  }
}

/**
 * A radius off by its resolution, down (−1) or up (1): by `radiusMm`, or by what an ordinate off by e over a chord C is
 * worth, 1/R ± 8e/C², whichever is larger. Infinite where the ordinate might be zero.
 */
function radiusOff(radiusMm: number, resolution: Resolution, way: number): number {
  const share = (8 * resolution.readingMm * radiusMm) / resolution.chordMm ** 2
  if (way < 0) return Math.min(radiusMm - resolution.radiusMm, radiusMm / (1 + share))
  return share < 1 ? Math.max(radiusMm + resolution.radiusMm, radiusMm / (1 - share)) : Number.POSITIVE_INFINITY
}

/** −(∂e/∂ln R)/(∂e/∂ln yield) where the excess e is zero. */
function sensitivity(bend: ReadBend, rail: Rail, yieldMpa: number): number | null {
  const step = 1e-4
  const at = Math.log(yieldMpa)
  const further = yieldEquation({ ...bend, restingRadiusMm: bend.restingRadiusMm * (1 + step) }, rail)
  const { excess } = yieldEquation(bend, rail)
  const [here, byRadius, byYield] = [excess(at), further.excess(at), excess(at + step)]
  return byYield > here ? (here - byRadius) / (byYield - here) : null
}
