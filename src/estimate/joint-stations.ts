import type { CutPlan } from '../laying/cut-plan.ts'
import type { JoinedEnds } from '../laying/joins.ts'
import { stationAtRailDistance } from '../track/rails.ts'
import type { LaidTrack } from './laid-track.ts'

/**
 * Stations on the centre line abreast of a track's joints, of both rails: between pieces, where it closes, and where it
 * joins other track.
 *
 * @param index the track's place in the plan; its runs are 2·index (left) and 2·index + 1 (right)
 */
export function jointStations(track: LaidTrack, index: number, joined: JoinedEnds, cuts: CutPlan): number[] {
  const between = cuts.sticks.flatMap(({ pieces }) =>
    pieces
      .filter(({ run, fromMm }) => run >> 1 === index && fromMm > 0)
      .map(({ run, fromMm }) => stationAtRailDistance(track.rails[run % 2 === 0 ? 'left' : 'right'], fromMm)),
  )
  const ends = [...joined.existing, ...joined.ofPlan.map(({ end }) => end)].map((end) =>
    end === 'start' ? 0 : track.lengthMm,
  )
  return [...between, ...ends, ...(track.closed ? [0] : [])]
}
