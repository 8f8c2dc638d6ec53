import { clearsAt } from '../room/clearing.ts'
import { Line, pieceReversed } from '../room/line.ts'
import { elevationOn, type Profile } from '../track/grade.ts'
import { poseOn } from '../track/place.ts'
import type { Pose } from '../track/types.ts'
import type { PlanCrossing } from './crossings.ts'
import { reachOf, type SweptLine } from './swept-lines.ts'

/** A track at a crossing. */
export interface CrossedTrack {
  /** Index of the track. */
  readonly track: number
  readonly element: number
  readonly atMm: number
}

/** Where one track passes over another. */
export interface OverCrossing {
  readonly upper: CrossedTrack
  readonly lower: CrossedTrack
  /** Of the upper track there. */
  readonly pose: Pose
  /** Between the two tracks, up to a right angle. */
  readonly angleRad: number
  /** From the lower rails to the upper ones. */
  readonly apartMm: number
  /** From the lower rails to the underside of the bridge. */
  readonly clearMm: number
  /** What the cars below need; null where there are none. */
  readonly span: Span | null
}

interface Span {
  /** Square to the lower track, its cars' room. */
  readonly squareMm: number
  /** The stations of the upper track between which its centre line is over it. */
  readonly fromMm: number
  readonly toMm: number
}

/** Tracks that cross at a smaller angle run over each other. */
const LEAST_ANGLE_RAD = 0.05

/**
 * Tracks that pass over one another, in the order of the crossings. The bridge is as thick as the upper rail and its deck
 * are high. The clear span square to the lower track is the room that its cars take there, h₁ + h₂; along the upper track
 * it reaches to where its centre line is clear of them, which on straights is (h₁ + h₂)/sin α, α the angle between the
 * tracks. Checked by hand in tests/estimate/over-crossings.test.ts.
 */
export function overCrossings(
  crossings: readonly PlanCrossing[],
  lines: readonly SweptLine[],
  profiles: readonly Profile[],
  bridgeMm: number,
): OverCrossing[] {
  return crossings.map(({ first, firstMm, second, secondMm, apartMm }) => {
    const one = { track: first.trackIndex, element: first.element.index, atMm: firstMm }
    const other = { track: second.trackIndex, element: second.element.index, atMm: secondMm }
    const isOver = elevationOn(profiles[one.track]!, firstMm) > elevationOn(profiles[other.track]!, secondMm)
    const [upper, lower] = isOver ? [one, other] : [other, one]
    const poses = [poseOn(first.element, firstMm), poseOn(second.element, secondMm)]
    const pose = poses[isOver ? 0 : 1]!
    const angleRad = Math.asin(Math.min(1, Math.abs(Math.sin(poses[0]!.headingRad - poses[1]!.headingRad))))
    const span = angleRad < LEAST_ANGLE_RAD ? null : spanOver(upper, lower, lines)
    return { upper, lower, pose, angleRad, apartMm, clearMm: apartMm - bridgeMm, span }
  })
}

function spanOver(upper: CrossedTrack, lower: CrossedTrack, lines: readonly SweptLine[]): Span | null {
  const [above, below] = [upper, lower].map(({ track }) => lines.find((line) => line.track === track))
  if (!above || !below || below.swept.length === 0) return null
  const belowMm = below.fromMm + lower.atMm
  const under = new Line(below.line.pieces, below.line.closed)
  const room = {
    leastMm: 0,
    at: (line: Line, atMm: number, side: 1 | -1) => (line === under ? reachOf(below, atMm, side) : 0),
  }
  const { line } = above
  const atMm = above.fromMm + upper.atMm
  const back = new Line(line.pieces.map(pieceReversed).reverse())
  const ahead = clearsAt(line, under, atMm, belowMm, room)
  const behind = clearsAt(back, under, line.lengthMm - atMm, belowMm, room)
  if (ahead === null || behind === null) return null
  return {
    squareMm: reachOf(below, belowMm, 1) + reachOf(below, belowMm, -1),
    fromMm: line.lengthMm - behind - above.fromMm,
    toMm: ahead - above.fromMm,
  }
}

const STEP_MM = 10
const CLOSE_ENOUGH_MM = 0.01

/**
 * How far before and beyond a station a track that is raised there (lowered: by less than zero) has another profile: to
 * where a ramp of a grade from the new height meets the old one. Null where it does not before the end of the track.
 */
export function runOutMm(
  profile: Profile,
  { lengthMm, closed }: { readonly lengthMm: number; readonly closed: boolean },
  atMm: number,
  byMm: number,
  grade: number,
): { readonly beforeMm: number | null; readonly afterMm: number | null } {
  const way = Math.sign(byMm)
  const newMm = elevationOn(profile, atMm) + byMm
  const along = (direction: 1 | -1): number | null => {
    const mostMm = closed ? lengthMm / 2 : direction === 1 ? lengthMm - atMm : atMm
    const missing = (mm: number) => {
      const station = atMm + direction * mm
      const on = closed ? station - lengthMm * Math.floor(station / lengthMm) : station
      return way * (newMm - way * grade * mm - elevationOn(profile, on))
    }
    if (missing(mostMm) > 0 && mostMm * grade < Math.abs(byMm)) return null
    for (let mm = STEP_MM; mm - STEP_MM < mostMm; mm += STEP_MM) {
      if (missing(Math.min(mm, mostMm)) > 0) continue
      let [before, after] = [mm - STEP_MM, Math.min(mm, mostMm)]
      while (after - before > CLOSE_ENOUGH_MM) {
        const middle = (before + after) / 2
        if (missing(middle) > 0) before = middle
        else after = middle
      }
      return after
    }
    return null
  }
  return { beforeMm: along(-1), afterMm: along(1) }
}
