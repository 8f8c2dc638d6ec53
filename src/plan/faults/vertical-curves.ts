import { exceeds } from '../../measure/counting.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import type { TrackDraft } from '../reading/draft.ts'
import type { GradePoint } from '../rows/track.ts'
import { lengthOf } from './breaks.ts'

/**
 * A vertical curve takes half its length of each of the two grades it joins: it needs a grade before it, must end before the
 * next one begins, and be on the track.
 *
 * @param points in order
 */
export function verticalCurveFaults(points: readonly GradePoint[], track: TrackDraft, at: Fault['path']): Fault[] {
  const lengthMm = lengthOf(track) ?? Number.POSITIVE_INFINITY
  return points.flatMap((point, index): Fault[] => {
    const { verticalCurve: curveMm } = point
    if (curveMm === undefined) return []
    const refused = (detail: string, hint: string): Fault[] => [
      { path: [...at, 'gradeLine', index, 'verticalCurve'], code: 'contradictory', detail, hint },
    ]
    if (point.at === 0)
      return refused(
        'no grade leads to the start of the track, so no vertical curve can be centred there',
        'leave it out, or begin the track earlier',
      )
    const before = points[index - 1]
    const fromMm = before ? before.at + (before.verticalCurve ?? 0) / 2 : 0
    const [beginsMm, endsMm] = [point.at - curveMm / 2, point.at + curveMm / 2]
    const room = `a vertical curve of ${formatMm(curveMm, 3)} reaches from ${formatMm(beginsMm, 3)} to ${formatMm(endsMm, 3)}`
    if (exceeds(fromMm, beginsMm))
      return refused(
        before?.verticalCurve
          ? `${room}, but the one before it ends at ${formatMm(fromMm, 3)}`
          : `${room}, beyond the ${before ? 'point before it' : 'start of the track'} at ${formatMm(fromMm, 3)}`,
        `give at most ${formatMm(2 * Math.max(0, point.at - fromMm), 3)}`,
      )
    const toMm = Math.min(points[index + 1]?.at ?? lengthMm, lengthMm)
    if (exceeds(endsMm, toMm))
      return refused(
        `${room}, beyond the ${toMm === lengthMm ? 'end of the track' : 'next point'} at ${formatMm(toMm, 3)}`,
        `give at most ${formatMm(2 * Math.max(0, toMm - point.at), 3)}`,
      )
    return []
  })
}

/** Stations at which levels are wanted have to be on the track. */
export function levelFaults(track: TrackDraft, at: Fault['path']): Fault[] {
  const lengthMm = lengthOf(track)
  if (lengthMm === null) return []
  return (track.levelsAt ?? []).flatMap((stationMm, index): Fault[] =>
    stationMm === null || !exceeds(stationMm, lengthMm)
      ? []
      : [
          {
            path: [...at, 'levelsAt', index],
            code: 'out-of-range',
            detail: `station ${formatMm(stationMm, 3)} lies beyond the end of the track at ${formatMm(lengthMm, 3)}`,
            hint: 'stations are measured along the centre line from the start of the track',
          },
        ],
  )
}
