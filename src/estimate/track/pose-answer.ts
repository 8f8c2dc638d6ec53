import { headingAfterDeg } from '../../track/closure.ts'
import type { Pose } from '../../track/types.ts'
import type { PoseAnswer } from './answer.ts'
import type { LaidTrack } from './laid-track.ts'

/** A place of a track for the answer. */
export function poseAnswer(
  { xMm, yMm, headingRad }: Pose,
  { start, startHeadingDeg }: Pick<LaidTrack, 'start' | 'startHeadingDeg'>,
): PoseAnswer {
  return { xMm, yMm, headingDeg: headingAfterDeg(startHeadingDeg, headingRad - start.headingRad) }
}
