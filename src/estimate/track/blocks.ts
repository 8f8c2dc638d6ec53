import type { RailJoint } from '../../laying/joints.ts'
import type { TrackBlock } from '../bill/power.ts'
import type { LaidTrack } from './laid-track.ts'

/**
 * The stretches of a track that are fed separately: from one pair of insulated joints to the next. A loop with such
 * joints is fed from the first pair on, past its start; one without is fed all round.
 *
 * @param joints of both rails of the track, by station
 */
export function blocksOf(
  { name, lengthMm, closed }: Pick<LaidTrack, 'name' | 'lengthMm' | 'closed'>,
  joints: readonly Pick<RailJoint, 'stationMm' | 'kind'>[],
): TrackBlock[] {
  const insulated = [...new Set(joints.filter(({ kind }) => kind === 'insulated').map(({ stationMm }) => stationMm))]
  const first = insulated[0]
  const block = (fromMm: number, toMm: number): TrackBlock => {
    const within = joints.filter(({ stationMm, kind }) => {
      if (kind === 'insulated') return false
      return (stationMm >= fromMm && stationMm <= toMm) || (closed && stationMm + lengthMm <= toMm)
    })
    return { track: name, fromMm, toMm, lengthMm: toMm - fromMm, closed: false, joints: within.length }
  }
  if (closed && first === undefined) return [{ ...block(0, lengthMm), closed: true }]
  const inside = insulated.filter((mm) => closed || (mm > 0 && mm < lengthMm))
  const ends = closed ? [...inside, first! + lengthMm] : [0, ...inside, lengthMm]
  return ends.slice(1).map((toMm, index) => block(ends[index]!, toMm))
}
