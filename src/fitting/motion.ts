import { poseAlong } from '../track/clothoid.ts'
import type { Pose, Shape } from '../track/types.ts'

/*
 * An element moves whatever follows it: it turns it by its angle and shifts it by its chord. Such motions are written as
 * the pose at the end of the element when it starts at the origin along +x.
 */

export const NOWHERE: Pose = { xMm: 0, yMm: 0, headingRad: 0 }

export function motionOf({ startCurvature, endCurvature, lengthMm, turnedRad }: MovingShape): Pose {
  return { ...poseAlong(NOWHERE, startCurvature, endCurvature, lengthMm, lengthMm), headingRad: turnedRad }
}

export type MovingShape = Pick<Shape, 'startCurvature' | 'endCurvature' | 'lengthMm' | 'turnedRad'>

/** First one motion, then another that starts where the first ends. */
export function followedBy(first: Pose, second: Pose): Pose {
  const [cos, sin] = [Math.cos(first.headingRad), Math.sin(first.headingRad)]
  return {
    xMm: first.xMm + second.xMm * cos - second.yMm * sin,
    yMm: first.yMm + second.xMm * sin + second.yMm * cos,
    headingRad: first.headingRad + second.headingRad,
  }
}

/** The motion back: `followedBy(motion, back(motion))` leads nowhere. */
export function back({ xMm, yMm, headingRad }: Pose): Pose {
  const [cos, sin] = [Math.cos(headingRad), Math.sin(headingRad)]
  return { xMm: -(xMm * cos + yMm * sin), yMm: xMm * sin - yMm * cos, headingRad: -headingRad }
}

/** The motions before each of these, and behind the last. */
export function motionsBefore(motions: readonly Pose[]): Pose[] {
  const before = [NOWHERE]
  for (const motion of motions) before.push(followedBy(before.at(-1)!, motion))
  return before
}

/** An angle in (−π, π]. */
export function withinHalfTurn(rad: number): number {
  const within = rad - 2 * Math.PI * Math.round(rad / (2 * Math.PI))
  return within <= -Math.PI ? within + 2 * Math.PI : within
}
