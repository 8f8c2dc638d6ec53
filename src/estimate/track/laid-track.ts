import { toRadians } from '../../measure/angle.ts'
import type { NetworkCrossing } from '../../network/track.ts'
import { joinsAt, type WholeTrack } from '../../plan/rows/track.ts'
import type { LegPlace } from '../../plan/rows/turnouts.ts'
import type { HeldEnd } from '../../track/closure.ts'
import { elevationOn, type GradeStretch, gradesOn, type Profile, profileOf } from '../../track/grade.ts'
import { placeElements } from '../../track/place.ts'
import { layRail, type RailLine, signedRailOffsetMm } from '../../track/rails.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import type { GroundStation } from '../earthworks/cut-and-fill.ts'
import type { Plan } from '../plan.ts'
import { type LaidTurnout, laidCrossings, laidTurnouts } from './turnouts-of-plan.ts'

/** A placed track: its elements, its grades and its two rails. */
export interface LaidTrack {
  readonly name: string
  readonly label: string | null
  readonly closed: boolean
  readonly state: WholeTrack['state']
  readonly joinsExisting: { readonly start: boolean; readonly end: boolean }
  readonly breaks: WholeTrack['breaks']
  readonly keepOut: WholeTrack['keepOut']
  readonly lengthMm: number
  readonly placed: readonly PlacedElement[]
  readonly start: Pose
  /** As the plan gives it. */
  readonly startHeadingDeg: number
  readonly end: Pose
  /** Where the end must be, if the plan says so. */
  readonly heldAt: HeldEnd | null
  /** The track whose start the end must meet. */
  readonly before: string | null
  readonly startElevationMm: number
  readonly endElevationMm: number
  readonly profile: Profile
  readonly grades: readonly GradeStretch[]
  readonly gradeLimits: WholeTrack['limits']
  readonly levelsAtMm: readonly number[]
  readonly ground: readonly GroundStation[]
  /** Length of a grade that does not rule; null: of every length. */
  readonly shortGradeMm: number | null
  readonly rails: { readonly left: RailLine; readonly right: RailLine }
  readonly turnouts: readonly LaidTurnout[]
  readonly crossings: readonly NetworkCrossing[]
  /** The ends of turnouts at which it starts and ends. */
  readonly legs: { readonly start: LegPlace | null; readonly end: LegPlace | null }
}

export function layTrack(
  track: WholeTrack,
  plan: Pick<Plan, 'gauge' | 'section' | 'standards' | 'levelsAt' | 'special'>,
): LaidTrack {
  const { x: xMm, y: yMm, heading: headingDeg } = track.start
  const start: Pose = { xMm, yMm, headingRad: toRadians(headingDeg) }
  const placed = placeElements(start, track.elements, track.closed, plan.special)
  const last = placed.at(-1)!
  const lengthMm = last.toMm
  const profile = profileOf(track.gradeLine, track.start.elevation)
  const grades = gradesOn(profile, lengthMm)
  const rail = (side: 'left' | 'right') =>
    layRail(placed, grades, signedRailOffsetMm(side, plan.gauge, plan.section.headWidthMm))
  return {
    name: track.name,
    label: track.label,
    closed: track.closed,
    state: track.state,
    joinsExisting: { start: joinsAt(track, 'start'), end: joinsAt(track, 'end') },
    breaks: track.breaks,
    keepOut: track.keepOut,
    lengthMm,
    placed,
    start,
    startHeadingDeg: headingDeg,
    end: last.end,
    heldAt: heldEnd(track, last.end, elevationOn(profile, 0)),
    before: track.end?.before ?? null,
    startElevationMm: elevationOn(profile, 0),
    endElevationMm: elevationOn(profile, lengthMm),
    profile,
    gradeLimits: track.limits,
    levelsAtMm: [...track.levelsAt, ...plan.levelsAt.filter((atMm) => atMm <= lengthMm)],
    ground: track.ground.map(({ at: atMm, elevation: elevationMm }) => ({ atMm, elevationMm })),
    shortGradeMm: plan.standards.shortGradeLength,
    grades,
    rails: { left: rail('left'), right: rail('right') },
    turnouts: laidTurnouts(track, placed, plan.special),
    crossings: laidCrossings(track, placed),
    legs: { start: track.start.from, end: track.end?.to ?? null },
  }
}

function heldEnd({ closed, start, end }: WholeTrack, ends: Pose, startElevationMm: number): HeldEnd | null {
  if (closed) {
    const { x: xMm, y: yMm, heading } = start
    const pose = { xMm, yMm, headingRad: toRadians(heading) }
    return { pose, hasHeading: true, elevationMm: startElevationMm, called: 'the start' }
  }
  const at = end?.at
  if (!at) return null
  const { x: xMm, y: yMm, heading, elevation: elevationMm } = at
  return {
    pose: { xMm, yMm, headingRad: heading === null ? ends.headingRad : toRadians(heading) },
    hasHeading: heading !== null,
    elevationMm,
    called: end.to ? legCalled(end.to) : end.before === null ? 'its place' : `the start of ${end.before}`,
    ...(end.to && { atLeg: true }),
  }
}

function legCalled({ turnout, leg }: LegPlace): string {
  return leg === 'points' ? `the points of ${turnout}` : `the ${leg} leg of ${turnout}`
}
