import type { Side } from '../plan/rows/survey.ts'
import type { Point } from '../track/sample.ts'
import { type Circle, CLEARLY_BETTER, type Crossing, crossingOf, leftOf, touchesByChance } from './circles.ts'
import { farEnd, type Reading } from './net.ts'
import { horizontalMm, misfit } from './taped.ts'

interface Around extends Circle {
  /** The peg or point at its centre. */
  readonly end: number
  readonly reading: Reading
}

/** Two circles that do not meet, by more than their errors explain. */
export interface Misses {
  readonly is: 'missed'
  readonly first: Around
  readonly second: Around
  readonly gapMm: number
  readonly isInside: boolean
  readonly apartMm: number
}

/** Where a point may be, as far as its distances to known places tell. */
export type Candidates =
  | { readonly is: 'placed'; readonly place: Point }
  | {
      readonly is: 'two'
      readonly both: readonly [Point, Point]
      /** The ends of the line that the two places lie beside. */
      readonly ends: readonly [number, number]
      readonly reading: Reading
    }
  | { readonly is: 'other-side'; readonly side: Side }
  | { readonly is: 'too-few' | 'flat'; readonly reason: string }
  | Misses

const TOO_FEW =
  'it takes two distances from places that are known, and a place cannot be known from a point that has none itself'
const FLAT =
  'it lies so nearly in line with the places it was measured from that its distances do not tell where across that line it is: measure from a place to the side'

/**
 * @param index the point
 * @param tapes its distances, which can be reduced to the level
 * @param places those known so far
 */
export function candidatesOf(
  index: number,
  tapes: readonly Reading[],
  places: readonly (Point | null)[],
  elevationsMm: readonly (number | null)[],
  side: Side | undefined,
): Candidates {
  const circles = tapes.flatMap((reading): Around[] => {
    const end = farEnd(reading, index)
    const centre = places[end]
    if (!centre) return []
    return [{ centre, radiusMm: horizontalMm(reading, elevationsMm)!, errorMm: reading.errorMm, end, reading }]
  })
  const first = circles[0]
  const second = circles.find(({ end }) => end !== first!.end)
  if (!first || !second) return { is: 'too-few', reason: TOO_FEW }
  const best = bestCrossing(circles)
  if (!best) return missesOf(circles) ?? { is: 'flat', reason: FLAT }
  const misfits = [best.left, best.right].map((place) =>
    circles.reduce((sum, { centre, reading }) => sum + misfit(reading, centre, place, elevationsMm), 0),
  )
  const difference = misfits[1]! - misfits[0]!
  const fits = difference > 0 ? best.left : best.right
  const isLeft = (place: Point) => leftOf(first.centre, second.centre, place) > 0
  const wanted = side && [best.left, best.right].find((place) => isLeft(place) === (side === 'left'))
  if (Math.abs(difference) > CLEARLY_BETTER)
    return wanted && wanted !== fits ? { is: 'other-side', side } : { is: 'placed', place: fits }
  if (wanted) return { is: 'placed', place: wanted }
  const ends = [first.end, second.end] as const
  return { is: 'two', both: [best.left, best.right], ends, reading: second.reading }
}

/** Of the pairs of circles that cross, not too flatly, the one that does so nearest to a right angle. */
function bestCrossing(circles: readonly Around[]): Extract<Crossing, { meets: true }> | null {
  let best: Extract<Crossing, { meets: true }> | null = null
  for (const [at, first] of circles.entries())
    for (const second of circles.slice(at + 1)) {
      const crossing = crossingOf(first, second)
      if (crossing?.meets && !crossing.flat && crossing.sine > (best?.sine ?? 0)) best = crossing
    }
  return best
}

/** The first two circles that miss each other by more than their errors; null where all of them at least touch. */
function missesOf(circles: readonly Around[]): Misses | null {
  for (const [at, first] of circles.entries())
    for (const second of circles.slice(at + 1)) {
      const crossing = crossingOf(first, second)
      if (!crossing || crossing.meets || touchesByChance(crossing.gapMm, first, second)) continue
      const { gapMm, isInside } = crossing
      const [a, b] = [first.centre, second.centre]
      return { is: 'missed', first, second, gapMm, isInside, apartMm: Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm) }
    }
  return null
}
