import { rootBetween } from '../../bending/numeric/root.ts'
import { poseAlong } from '../../track/clothoid.ts'
import { beside, curvatureOn, elementAt, poseOn } from '../../track/place.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'

/** An easement of a parallel track, in its place. */
interface ParallelEasement {
  readonly start: Pose
  readonly end: Pose
  readonly lengthMm: number
}

/** Lengths at which it is looked for, in lengths of the given easement; it is near √(R′/R) of it. */
const TRIED = [1e-3, 0.25, 0.5, 0.75, 0.9, 1, 1.1, 1.25, 1.5, 2, 3, 4]

/**
 * The easement from the parallel of the curve before one to the parallel of the curve behind it. Its curvatures are
 * κ′ = κ/(1 − κp); its length is that at which it keeps the two curves as far apart as they are: the straight from the
 * centre of the arc, or the two centres from each other. Then it is slid along the curve before it until it fits.
 *
 * κ curvature of the given track at either end, 1/mm, left positive; p spacing to the left, mm. Null where there is none.
 * Solved to rounding; checked in tests/fitting/figures/parallel.test.ts.
 */
export function parallelEasement(given: PlacedElement, spacingMm: number): ParallelEasement | null {
  const before = curveAt(given.start, given.startCurvature, spacingMm)
  const behind = curveAt(given.end, given.endCurvature, spacingMm)
  const endOf = (lengthMm: number) => poseAlong(before.pose, before.curvature, behind.curvature, lengthMm, lengthMm)
  const apartMm = apart(before, behind)
  const excess = (lengthMm: number) => apart(before, { ...behind, pose: endOf(lengthMm) }) - apartMm
  const lengthsMm = TRIED.map((share) => share * given.lengthMm)
  const high = lengthsMm.findIndex((mm, index) => index > 0 && excess(mm) < 0 !== excess(lengthsMm[index - 1]!) < 0)
  if (high < 0) return null
  const lengthMm = rootBetween(excess, lengthsMm[high - 1]!, lengthsMm[high]!)
  const start = slid(before, { ...behind, pose: endOf(lengthMm) }, behind)
  return { start, end: poseAlong(start, before.curvature, behind.curvature, lengthMm, lengthMm), lengthMm }
}

/** A straight or a circle, by a pose on it. */
interface Curve {
  readonly pose: Pose
  readonly curvature: number
}

function curveAt(pose: Pose, curvature: number, spacingMm: number): Curve {
  return { pose: beside(pose, spacingMm), curvature: curvature / (1 - curvature * spacingMm) }
}

function centreOf({ pose, curvature }: Curve): Pose {
  return beside(pose, 1 / curvature)
}

/** How far a place is to the left of a pose, and how far ahead of it. */
function seenFrom({ xMm, yMm, headingRad }: Pose, place: Pose): { leftMm: number; aheadMm: number } {
  const [dx, dy] = [place.xMm - xMm, place.yMm - yMm]
  const [cos, sin] = [Math.cos(headingRad), Math.sin(headingRad)]
  return { leftMm: dy * cos - dx * sin, aheadMm: dx * cos + dy * sin }
}

/** The distance that does not change where one of two curves is slid along itself. */
function apart(one: Curve, other: Curve): number {
  if (one.curvature === 0) return seenFrom(one.pose, centreOf(other)).leftMm
  if (other.curvature === 0) return seenFrom(other.pose, centreOf(one)).leftMm
  const [a, b] = [centreOf(one), centreOf(other)]
  return Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm)
}

/** The pose on the curve before, moved along it as far as what comes behind has to move to its place. */
function slid(before: Curve, found: Curve, wanted: Curve): Pose {
  const { pose } = before
  if (before.curvature === 0) {
    const aheadMm = seenFrom(pose, centreOf(wanted)).aheadMm - seenFrom(pose, centreOf(found)).aheadMm
    return poseAlong(pose, 0, 0, aheadMm, aheadMm)
  }
  const centre = centreOf(before)
  const turnRad =
    wanted.curvature === 0
      ? wanted.pose.headingRad - found.pose.headingRad
      : bearing(centre, centreOf(wanted)) - bearing(centre, centreOf(found))
  const lengthMm = Math.atan2(Math.sin(turnRad), Math.cos(turnRad)) / before.curvature
  return poseAlong(pose, before.curvature, before.curvature, lengthMm, lengthMm)
}

function bearing(from: Pose, to: Pose): number {
  return Math.atan2(to.yMm - from.yMm, to.xMm - from.xMm)
}

const SAMPLES = 32
const STEPS = 8

/**
 * The largest difference between the spacing and the distance of a parallel track's easements from the given track, square
 * to the latter, at 33 places of each.
 */
export function worstError(given: readonly PlacedElement[], made: readonly PlacedElement[], spacingMm: number): number {
  let worstMm = 0
  for (const { index, kind, fromMm, lengthMm } of made) {
    if (kind !== 'easement') continue
    for (let sample = 0; sample <= SAMPLES; sample++) {
      const place = poseOn(made[index]!, fromMm + (lengthMm * sample) / SAMPLES)
      const guessMm = given[index]!.fromMm + (given[index]!.lengthMm * sample) / SAMPLES
      worstMm = Math.max(worstMm, Math.abs(distanceFrom(given, place, guessMm, spacingMm) - spacingMm))
    }
  }
  return worstMm
}

/** By Newton's method for the station whose normal goes through the place. */
function distanceFrom(track: readonly PlacedElement[], place: Pose, guessMm: number, spacingMm: number): number {
  let atMm = guessMm
  for (let step = 0; step < STEPS; step++) {
    const element = elementAt(track, atMm)
    const { aheadMm } = seenFrom(poseOn(element, atMm), place)
    atMm += aheadMm / (1 - curvatureOn(element, atMm) * spacingMm)
  }
  return seenFrom(poseOn(elementAt(track, atMm), atMm), place).leftMm
}
