import type { PlanInput } from '../../../src/plan/rows/plan.ts'
import type { ElementInput, TrackInput } from '../../../src/plan/rows/track.ts'

/*
 * Plans of a garden's size as people send them: tracks with straights and curves, two lengths of stick, some on hand; with
 * a bender whose ends are trimmed, with rules for joints, with both or with neither. Always the same ones.
 */

export interface Asked {
  readonly trim: boolean
  readonly rules: boolean
}

const SOLD_MM = [
  [1524, 1828.8],
  [1000, 1500],
  [914.4, 1828.8],
  [1800, 2400],
] as const

/** Linear congruential, Numerical Recipes. */
function seriesFrom(seed: number): { upTo: (most: number) => number; part: () => number } {
  let state = seed
  const part = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
  return { upTo: (most) => Math.floor(part() * (most + 1)), part }
}

/**
 * One to three tracks of two to nine elements: straights of 0.3 to 5 m, arcs of 1.2 to 4.5 m radius and up to 180°, half of
 * them with easements. A break in every third track. Sticks cost about the same by length. Stagger 300 mm and a stretch
 * without joints in each track; a bender's span of 80 to 140 mm.
 */
export function gardenLines(count: number, { trim, rules }: Asked, seed = 4_711): PlanInput[] {
  const { upTo, part } = seriesFrom(seed)
  return Array.from({ length: count }, (): PlanInput => {
    const tracks = Array.from({ length: 1 + upTo(2) }, (_, n) => track(`line ${n + 1}`))
    const [shortMm, longMm] = SOLD_MM[upTo(SOLD_MM.length - 1)]!
    const shortCents = 800 + 25 * upTo(39)
    const longCents = 25 * Math.round((shortCents * (longMm / shortMm) * (0.9 + 0.15 * part())) / 25)
    const joinerCents = [50, 90, 110][upTo(2)]!
    const pack = upTo(1) === 0 ? 1 : 10
    const onHand = [upTo(3), upTo(3)]
    const span = 80 + 20 * upTo(3)
    return {
      // Brass would be sprung in, and rail that is sprung in takes no trim.
      rail: trim
        ? { section: '250', material: 'stainless', temper: 'annealed' }
        : { section: '250', material: 'brass', temper: 'half-hard' },
      tracks: tracks.map(({ keepOut, ...rest }) => ({ ...rest, ...(rules && { keepOut: keepOut! }) })),
      supplies: {
        sticks: [
          { length: shortMm, price: money(shortCents), onHand: onHand[0]! },
          { length: longMm, price: money(longCents), onHand: onHand[1]! },
        ],
        joiners: { packSize: pack, pricePerPack: money(joinerCents * pack) },
      },
      ...(rules && { joints: { stagger: 300 } }),
      ...(trim && { bender: { span, outerRollerRadius: 12.7, bearsOn: 'foot', mode: 'rolled', ends: 'trim' } }),
    }
  })

  function track(name: string): TrackInput {
    const elements: ElementInput[] = []
    const wanted = 2 + upTo(7)
    let lengthMm = 0
    const add = (element: ElementInput, mm: number) => {
      elements.push(element)
      lengthMm += mm
    }
    while (elements.length < wanted) {
      const straightMm = Math.round(300 + part() * part() * 4700)
      add({ kind: 'tangent', length: straightMm }, straightMm)
      const radius = Math.round(1200 + part() * 3300)
      const angle = Math.round(15 + part() * 165)
      const easementMm = upTo(1) === 0 ? 0 : 300 + 100 * upTo(3)
      const turn = upTo(1) === 0 ? 'left' : 'right'
      if (easementMm > 0) add({ kind: 'easement', length: easementMm }, easementMm)
      add({ kind: 'arc', radius, angle, turn }, (radius * angle * Math.PI) / 180)
      if (easementMm > 0) add({ kind: 'easement', length: easementMm }, easementMm)
    }
    if (upTo(1) === 0) add({ kind: 'tangent', length: 1000 }, 1000)
    const from = Math.round(part() * (lengthMm - 900))
    const at = Math.round(lengthMm * (0.3 + 0.4 * part()))
    const divided = upTo(2) === 0
    return {
      name,
      elements,
      keepOut: [{ from, to: from + 300 + Math.round(600 * part()) }],
      ...(divided && { breaks: [{ at, kind: 'turnout' }] }),
    }
  }
}

function money(cents: number): string {
  return (cents / 100).toFixed(2)
}
