import { toDegrees } from '../measure/angle.ts'
import { type Answer, component, length, nullable, number, text } from '../plan/fields/answer.ts'
import type { OverCrossing } from './over-crossings.ts'

export const OVER_CROSSING = component('OverCrossing', 'A place where one track passes over another, or over itself.', {
  over: text({ says: 'The upper track.', title: 'Track above' }),
  overAtMm: length({ says: 'The station on the upper track.', title: 'At' }),
  under: text({ says: 'The lower track.', title: 'Track below' }),
  underAtMm: length({ says: 'The station on the lower track.', title: 'At, below' }),
  xMm: length({ title: 'x' }),
  yMm: length({ title: 'y' }),
  angleDeg: number({ says: 'Between the two tracks, degrees, up to a right angle.', title: 'Angle, degrees' }),
  apartMm: length({ says: 'From the lower rails to the upper ones, mm.' }),
  clearMm: length({
    says: 'From the lower rails to the underside of the bridge, mm: less the upper rail, ties and deck.',
    title: 'Clear height',
  }),
  neededMm: length({ says: 'The clear height that is needed, mm.', title: 'Needed' }),
  squareSpanMm: nullable(
    length({
      says: 'Clear span square to the lower track, mm: the room that its cars take there, with nothing to spare. Null without cars, and where the tracks cross at less than 3°.',
      title: 'Clear span, square',
    }),
  ),
  abutmentFromMm: nullable(
    length({
      says: 'The station on the upper track up to which an abutment may reach, measured along its centre line; a wide one that stands askew has to keep further off. Null with squareSpanMm.',
      title: 'Abutment up to',
    }),
  ),
  abutmentToMm: nullable(length({ says: 'The station from which the other may begin.', title: 'Abutment from' })),
})

export type OverCrossingAnswer = Answer<typeof OVER_CROSSING>

/** What of an estimate there is only where a track passes over another. */
export interface OverCrossingAnswers {
  readonly overCrossings?: OverCrossingAnswer[]
}

export function overCrossingAnswers(
  bridges: readonly OverCrossing[],
  tracks: readonly { readonly name: string }[],
  neededMm: number,
): OverCrossingAnswers {
  if (bridges.length === 0) return {}
  return {
    overCrossings: bridges.map(({ upper, lower, pose, angleRad, apartMm, clearMm, span }) => ({
      over: tracks[upper.track]!.name,
      overAtMm: upper.atMm,
      under: tracks[lower.track]!.name,
      underAtMm: lower.atMm,
      xMm: pose.xMm,
      yMm: pose.yMm,
      angleDeg: toDegrees(angleRad),
      apartMm,
      clearMm,
      neededMm,
      squareSpanMm: span?.squareMm ?? null,
      abutmentFromMm: span?.fromMm ?? null,
      abutmentToMm: span?.toMm ?? null,
    })),
  }
}
