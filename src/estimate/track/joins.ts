import type { Join, NearestCurve } from '../../checking/at-joins.ts'
import { nearestCurve } from '../../checking/at-joins.ts'
import { type JoinedEnds, joinedEnds } from '../../laying/joins.ts'
import type { RailJoint } from '../../laying/joints.ts'
import type { Assumption } from '../../plan/fields/complete.ts'
import { type TrackThere, thereAt } from '../../plan/rows/track.ts'
import type { CoupledCar } from '../../room/coupled-cars.ts'
import { couplersReachMm } from '../../room/couplers-on-form.ts'
import { type LinePiece, pieceReversed } from '../../room/line.ts'
import { poseAlong } from '../../track/clothoid.ts'
import { type Pose, partsOf } from '../../track/types.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from './laid-track.ts'

/** The ends of one new track that join others; `otherTrack` is an index of the plan's tracks. */
export interface TrackToJoin {
  readonly track: LaidTrack
  /** Its index in the plan. */
  readonly index: number
  readonly ends: JoinedEnds
}

/**
 * How the new tracks of a plan join existing track and each other. A join of two new tracks belongs to the later one;
 * one with existing track of the plan belongs to the new one. Lifted track joins nothing.
 */
export function joinsOf(drawn: readonly LaidTrack[], { standards }: Pick<Plan, 'standards'>): TrackToJoin[] {
  const inState = (state: LaidTrack['state']) => drawn.flatMap((track, index) => (track.state === state ? [index] : []))
  const order = [...inState('existing'), ...inState('new')]
  const { closureGap: closureGapMm, closureHeading: closureHeadingDeg } = standards
  const ends = joinedEnds(
    order.map((index) => drawn[index]!),
    closureGapMm,
    closureHeadingDeg,
  )
  return order.flatMap((index, place): TrackToJoin[] => {
    const track = drawn[index]!
    const { existing, ofPlan, legs } = ends[place]!
    if (track.state !== 'new') return []
    const toTracks = ofPlan.map(({ end, otherTrack }) => ({ end, otherTrack: order[otherTrack]! }))
    return [{ track, index, ends: { existing, ofPlan: toTracks, legs } }]
  })
}

/** The joined ends of new tracks among themselves: existing track of the plan counts as existing. */
export function joinedEndsOfNew(joins: readonly TrackToJoin[]): JoinedEnds[] {
  const place = new Map(joins.map(({ index }, n) => [index, n]))
  return joins.map(({ ends: { existing, ofPlan, legs } }) => ({
    legs,
    existing: [...existing, ...ofPlan.filter(({ otherTrack }) => !place.has(otherTrack)).map(({ end }) => end)],
    ofPlan: ofPlan.flatMap(({ end, otherTrack }) => {
      const other = place.get(otherTrack)
      return other === undefined ? [] : [{ end, otherTrack: other }]
    }),
  }))
}

/** Joints at which a new track meets another section: one on each rail, unless a break requires something else. */
export function transitionJoints(
  joints: readonly RailJoint[],
  { track, index }: TrackToJoin,
  { tracks, section }: Pick<Plan, 'tracks' | 'section'>,
): number {
  const other = (end: 'start' | 'end') => {
    const there = thereAt(tracks[index]!, end)
    return there !== null && there.section !== section.id
  }
  return joints.filter(
    ({ kind, atMm, rail }) => kind === 'join' && other(atMm < track.rails[rail].lengthMm / 2 ? 'start' : 'end'),
  ).length
}

export function joinAssumptions(joins: readonly TrackToJoin[], drawn: readonly LaidTrack[]): Assumption[] {
  return joins.flatMap(({ track, index, ends: { existing, ofPlan } }) => [
    ...existing.map((end) => ({
      field: `/tracks/${index}/joinsExisting/${end}`,
      value: 'one tie fewer, two joints more',
      reason: `the ${end} of ${track.name} shares the last tie of the track it joins`,
    })),
    ...ofPlan.map(({ end, otherTrack }) => ({
      field: `/tracks/${index}/${end === 'start' ? 'start' : 'elements'}`,
      value: 'one tie fewer, two joints more',
      reason: `the ${end} of ${track.name} runs into ${drawn[otherTrack]!.name}: they share a tie and are joined`,
    })),
  ])
}

/** Where new track meets existing track, for the checks. */
export function joinsToCheck(joins: readonly TrackToJoin[], drawn: readonly LaidTrack[], plan: Plan): Join[] {
  return joins.flatMap(({ track, index, ends: { existing, ofPlan } }) => [
    ...existing.flatMap((end): Join[] => {
      const beyond = thereAt(plan.tracks[index]!, end)
      if (!beyond) return []
      return [
        {
          ...{ track: track.name, end, placed: track.placed },
          there: { material: beyond.material, curve: curveOf(beyond), pieces: piecesBeyond(beyond, plan.fleet.cars) },
        },
      ]
    }),
    ...ofPlan.flatMap(({ end, otherTrack }): Join[] => {
      const other = drawn[otherTrack]!
      if (other.state !== 'existing') return []
      return [
        {
          track: track.name,
          end,
          placed: track.placed,
          there: { material: null, ...thereOn(track, end, other) },
        },
      ]
    }),
  ])
}

function curveOf({ turn }: TrackThere): NearestCurve | null {
  return turn ? { sign: turn === 'left' ? 1 : -1, straightMm: 0, eased: false, element: null } : null
}

/** Of existing track that is no track of the plan only its curve is known: enough of it for two cars. */
function piecesBeyond({ radius, turn }: TrackThere, cars: readonly CoupledCar[]): LinePiece[] {
  if (radius === null || turn === null || cars.length === 0) return []
  const curvature = (turn === 'left' ? 1 : -1) / radius
  const lengthMm = couplersReachMm(cars)
  const start: Pose = { xMm: 0, yMm: 0, headingRad: 0 }
  const end = poseAlong(start, curvature, curvature, lengthMm, lengthMm)
  return [{ lengthMm, startCurvature: curvature, endCurvature: curvature, start, end }]
}

/** Existing track of the plan and its curve nearest to the join, in the direction of the new track. */
function thereOn(track: LaidTrack, end: 'start' | 'end', other: LaidTrack) {
  const here = end === 'start' ? track.start : track.end
  const otherEnd = apartMm(other.start, here) <= apartMm(other.end, here) ? 'start' : 'end'
  const curve = nearestCurve(other.placed, otherEnd)
  // Where two starts or two ends meet, the other track runs in the opposite direction.
  const turnedRound = otherEnd === end
  const pieces: LinePiece[] = other.placed.flatMap(partsOf)
  return {
    curve: curve && { ...curve, sign: turnedRound ? -curve.sign : curve.sign },
    pieces: turnedRound ? pieces.map(pieceReversed).reverse() : pieces,
  }
}

function apartMm(a: Pose, b: Pose): number {
  return Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm)
}
