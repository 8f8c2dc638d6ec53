import type { CutListProblem } from '../../../src/laying/cutting/cut-list.ts'

/*
 * Cut plans of a garden's size, 2 to 40 runs and two lengths of stick, some of them on hand. Always the same ones.
 */

/** Lengths that rail is sold in, two at a time: 5 ft and 6 ft, 1 m and 1.5 m, 3 ft and 6 ft, 1.8 m and 2.4 m. */
const SOLD_MM = [
  [1524, 1829],
  [1000, 1500],
  [914.4, 1828.8],
  [1800, 2400],
] as const
const GAUGE_MM = 45
const RAIL_WIDTH_MM = 3
const MOST_RUNS = 40

/** Whole numbers from 0 up to the one given (linear congruential, Numerical Recipes). */
function seriesFrom(seed: number): { upTo: (most: number) => number; part: () => number } {
  let state = seed
  const part = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 2 ** 32
  }
  return { upTo: (most) => Math.floor(part() * (most + 1)), part }
}

/**
 * Runs as tracks have them: the two rails between the same breaks, alike where it is straight, and otherwise different by
 * the turn times the gauge (six in ten turn, by up to 3 rad); most are short. Sticks cost about the same by length, joiners
 * a tenth of a stick or less.
 */
export function pairedPlans(count: number, seed = 20_261): CutListProblem[] {
  const { upTo, part } = seriesFrom(seed)
  return Array.from({ length: count }, () => {
    const wanted = 2 + upTo(MOST_RUNS - 2)
    const runs: { lengthMm: number }[] = []
    while (runs.length < wanted) {
      const middleMm = 400 + part() * part() * 12_000
      const turnRad = part() < 0.6 ? part() * 3 : 0
      const outsideMm = (turnRad * (GAUGE_MM + RAIL_WIDTH_MM)) / 2
      runs.push({ lengthMm: middleMm + outsideMm })
      if (runs.length < wanted) runs.push({ lengthMm: middleMm - outsideMm })
    }
    const [shortMm, longMm] = SOLD_MM[upTo(SOLD_MM.length - 1)]!
    const shortCents = 800 + 25 * upTo(39)
    const longCents = 25 * Math.round((shortCents * (longMm / shortMm) * (0.9 + 0.15 * part())) / 25)
    return {
      runs,
      sticks: [
        { lengthMm: shortMm, priceCents: shortCents, onHand: upTo(3) },
        { lengthMm: longMm, priceCents: longCents, onHand: upTo(3) },
      ],
      kerfMm: 1,
      minimumPieceMm: 150,
      joinerCents: [50, 90, 110][upTo(2)]!,
      effort: 'quick',
    }
  })
}

/** Runs that have nothing to do with each other, 0.3 to 6 m; prices and joiners at random, which makes it harder. */
export function singlePlans(count: number, seed = 20_260): CutListProblem[] {
  const { upTo } = seriesFrom(seed)
  const quarters = (least: number, most: number) => 25 * (least + upTo(most - least))
  return Array.from({ length: count }, () => ({
    runs: Array.from({ length: 2 + upTo(MOST_RUNS - 2) }, () => ({ lengthMm: (3000 + upTo(57_000)) / 10 })),
    sticks: [
      { lengthMm: 1524, priceCents: quarters(40, 70), onHand: upTo(3) },
      { lengthMm: 1828.8, priceCents: quarters(50, 90), onHand: upTo(2) },
    ],
    kerfMm: 1,
    minimumPieceMm: 150,
    joinerCents: quarters(1, 6),
    effort: 'quick',
  }))
}
