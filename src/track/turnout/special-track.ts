import { toRadians } from '../../measure/angle.ts'
import type { Turnout, TurnoutEnd, TurnoutInput } from '../../plan/rows/turnouts.ts'
import type { Pose, Shape } from '../types.ts'
import { poseReversed, reversed } from './leg.ts'
import { turnoutOf } from './turnout.ts'
import type { Leg, TurnoutGeometry, TurnoutSize } from './types.ts'

/** What it takes to place turnouts and crossings. */
export interface SpecialTrack {
  readonly gaugeMm: number
  /** By the ids of the plan's turnout types. */
  readonly turnouts: ReadonlyMap<string, TurnoutGeometry>
}

/** Of a plan without any. */
export const NO_SPECIAL_TRACK: SpecialTrack = { gaugeMm: 0, turnouts: new Map() }

/** The geometry of kinds of turnout; a kind that contradicts itself is left out. */
export function specialTrackOf(
  types: readonly (TurnoutSize & { readonly id: string })[],
  gaugeMm: number,
): SpecialTrack {
  const turnouts = new Map<string, TurnoutGeometry>()
  for (const type of types) {
    const result = turnoutOf(type, gaugeMm)
    if (result.ok) turnouts.set(type.id, result.turnout)
  }
  return { gaugeMm, turnouts }
}

type Passed = Pick<Turnout | TurnoutInput, 'enters' | 'leaves'>

/** The leg that a track runs along. */
export function legOf({ enters, leaves }: Passed): 'through' | 'diverging' {
  return enters === 'points' ? (leaves ?? 'through') : enters
}

/** The turnout as a track runs through it, its parts end to end. */
export function turnoutShape(geometry: TurnoutGeometry, passed: Passed): Omit<Shape, 'kind' | 'label'> {
  const leg = geometry.legs[legOf(passed)]
  const run = passed.enters === 'points' ? leg : reversed(leg)
  const parts = run.pieces.map((piece, index): Shape => {
    const before = index === 0 ? startOf(leg, passed) : run.pieces[index - 1]!.end.headingRad
    const { lengthMm, startCurvature, endCurvature, turnedRad } = piece
    const bendRad = piece.start.headingRad - before
    return { kind: 'turnout', label: null, lengthMm, startCurvature, endCurvature, turnedRad, bendRad }
  })
  return {
    lengthMm: leg.lengthMm,
    startCurvature: parts[0]!.startCurvature,
    endCurvature: parts.at(-1)!.endCurvature,
    turnedRad: parts.reduce((sum, { turnedRad }) => sum + turnedRad, 0),
    parts,
  }
}

function startOf(leg: Leg, { enters }: Passed): number {
  return enters === 'points' ? 0 : leg.end.headingRad + Math.PI
}

/**
 * How long a crossing is: from one acute frog to the other and a gauge beyond each.
 *
 * L = g·cot(A/2) + 2g, g gauge, A the angle of the two tracks. The first part is the length of the diamond that the gauge
 * lines make, the second our own choice. Checked in tests/track/turnout/special-track.test.ts.
 */
export function crossingLengthMm(gaugeMm: number, angleDeg: number): number {
  return gaugeMm / Math.tan(toRadians(angleDeg) / 2) + 2 * gaugeMm
}

/** Where the three ends of a turnout lie on the sheet, each facing out of it, by where a track enters it. */
export function turnoutEnds(
  geometry: TurnoutGeometry,
  enters: TurnoutEnd,
  entering: Pose,
): Readonly<Record<TurnoutEnd, Pose>> {
  const { through, diverging } = geometry.legs
  const points: Pose = { xMm: 0, yMm: 0, headingRad: -Math.PI }
  const own = { points, through: through.end, diverging: diverging.end }
  // The track enters against the direction in which that end faces.
  const from = poseReversed(own[enters])
  const turn = entering.headingRad - from.headingRad
  const cos = Math.cos(turn)
  const sin = Math.sin(turn)
  const onSheet = ({ xMm, yMm, headingRad }: Pose): Pose => {
    const [dx, dy] = [xMm - from.xMm, yMm - from.yMm]
    return {
      xMm: entering.xMm + dx * cos - dy * sin,
      yMm: entering.yMm + dx * sin + dy * cos,
      headingRad: headingRad + turn,
    }
  }
  return { points: onSheet(points), through: onSheet(own.through), diverging: onSheet(own.diverging) }
}
