import { exceeds, LENGTH_SLACK_MM } from '../measure/counting.ts'
import { sum } from '../measure/sum.ts'

/** What a cut takes of the rest after a piece: the kerf, or the rest if that is thinner. */
export function cutMm(restMm: number, kerfMm: number): number {
  return restMm <= LENGTH_SLACK_MM ? restMm : Math.min(kerfMm, restMm)
}

/** What is left of sticks after their pieces are cut, and what of it is long enough to be used again. */
export function leftOverOf(
  sticks: readonly { readonly trimMm: number; readonly kerfMm: number; readonly offcutMm: number }[],
  minimumPieceMm: number,
): { wasteMm: number; reusableMm: number } {
  return {
    wasteMm: sum(sticks.map(({ trimMm, kerfMm, offcutMm }) => trimMm + kerfMm + offcutMm)),
    reusableMm: sum(sticks.map(({ offcutMm }) => (exceeds(minimumPieceMm, offcutMm) ? 0 : offcutMm))),
  }
}
