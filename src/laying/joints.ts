import { exceeds, LENGTH_SLACK_MM } from '../measure/counting.ts'
import { firstIndexWhere } from '../measure/search.ts'
import type { Break, BreakKind } from '../plan/rows/track.ts'
import { type RailLine, railDistanceAt, stationAtRailDistance } from '../track/rails.ts'
import type { CutPlan } from './cutting/cut-plan.ts'
import type { JoinedEnds } from './joins.ts'

/**
 * What holds two rail ends together: a joiner between pieces of one rail (`joiner`), where a loop closes (`closing`),
 * where other track is joined (`join`), or what a break of the track requires.
 */
export const JOINT_KINDS = ['joiner', 'closing', 'join', 'turnout', 'insulated', 'bridge-end', 'expansion'] as const

export type JointKind = (typeof JOINT_KINDS)[number]

export const SIDES = ['left', 'right'] as const
export type Side = (typeof SIDES)[number]

/** A place where two rail ends meet. */
export interface RailJoint {
  /** Index of the track. */
  readonly track: number
  readonly rail: Side
  /** Along the rail from its own start; a loop closes at 0. */
  readonly atMm: number
  /** The station on the centre line beside it. */
  readonly stationMm: number
  readonly kind: JointKind
}

/** What the calculation of joints needs of a track. */
export interface JointedTrack {
  readonly closed: boolean
  readonly lengthMm: number
  readonly rails: Readonly<Record<Side, RailLine>>
  /** Ascending. */
  readonly breaks: readonly Break[]
}

export const KIND_OF_BREAK: Readonly<Record<BreakKind, JointKind>> = {
  turnout: 'turnout',
  insulated: 'insulated',
  'bridge-end': 'bridge-end',
  'expansion-joint': 'expansion',
}

/** A plain joiner goes into each joint of these kinds. */
export const TAKES_JOINER: ReadonlySet<JointKind> = new Set(['joiner', 'closing', 'join', 'bridge-end'])

/** Where a track's breaks are on one of its rails, ascending. */
export function breaksAlong({ rails, breaks }: Pick<JointedTrack, 'rails' | 'breaks'>, side: Side) {
  return breaks.map(({ at: atMm, kind }) => ({ stationMm: atMm, atMm: railDistanceAt(rails[side], atMm), kind }))
}

/**
 * Every joint of a plan by track, station and rail: where pieces meet, where a loop closes, where other track is
 * joined. A break decides the kind of joint in its place; at an end that joins nothing there is none.
 *
 * Their number on a track is Σ over its two rails of (pieces − 1), + 2 if closed, + 2 for each end that joins other
 * track.
 *
 * @param cuts by rail (see `alongRails`); null for the joints that exist however the rails are cut
 * @param meetAt stations by track at which rails always end: where ready-made pieces do
 */
export function jointsOf(
  tracks: readonly JointedTrack[],
  joined: readonly JoinedEnds[],
  cuts: Pick<CutPlan, 'sticks'> | null,
  meetAt: readonly (readonly number[])[] = [],
): RailJoint[] {
  const meetings = cuts && pieceStarts(cuts, 2 * tracks.length)
  return tracks.flatMap((track, index) => {
    const { existing, ofPlan, legs = [] } = joined[index]!
    const joinedAt = new Set([...existing, ...ofPlan.map(({ end }) => end), ...legs])
    const ofTrack = SIDES.flatMap((rail, side): RailJoint[] => {
      const line = track.rails[rail]
      const breaks = breaksAlong(track, rail)
      const at = (atMm: number, otherwise: JointKind): RailJoint => {
        const broken = breakAt(breaks, atMm)
        return {
          track: index,
          rail,
          atMm,
          stationMm: broken?.stationMm ?? stationAtRailDistance(line, atMm),
          kind: broken ? KIND_OF_BREAK[broken.kind] : otherwise,
        }
      }
      const inside = (mm: number) => exceeds(mm, 0) && exceeds(line.lengthMm, mm)
      const cut = meetings ? meetings[2 * index + side]! : breaks.map(({ atMm }) => atMm)
      const fixed = (meetAt[index] ?? []).map((station) => railDistanceAt(line, station))
      const places = fixed.length > 0 ? distinctPlaces([...cut, ...fixed]) : cut
      const joints = places.filter(inside).map((mm) => at(mm, 'joiner'))
      if (track.closed) joints.push(at(0, 'closing'))
      if (joinedAt.has('start')) joints.push(at(0, 'join'))
      if (joinedAt.has('end')) joints.push({ ...at(line.lengthMm, 'join'), stationMm: track.lengthMm })
      return joints
    })
    return ofTrack.sort((a, b) => a.stationMm - b.stationMm || SIDES.indexOf(a.rail) - SIDES.indexOf(b.rail))
  })
}

/** Breaks at an end that joins nothing; a turnout is allowed there. */
export function breaksAtFreeEnds(
  { closed, lengthMm, breaks }: JointedTrack,
  { existing, ofPlan, legs = [] }: JoinedEnds,
): Break[] {
  if (closed) return []
  const joins = (end: 'start' | 'end') =>
    existing.includes(end) || legs.includes(end) || ofPlan.some((join) => join.end === end)
  return breaks.filter(({ at: atMm, kind }) => {
    if (kind === 'turnout') return false
    if (!exceeds(atMm, 0)) return !joins('start')
    return !exceeds(lengthMm, atMm) && !joins('end')
  })
}

/** Where pieces begin, by rail, ascending; those of rails beyond are left out, as of turnouts. */
function pieceStarts(cuts: Pick<CutPlan, 'sticks'>, rails: number): number[][] {
  const starts = Array.from({ length: rails }, (): number[] => [])
  for (const { pieces } of cuts.sticks) for (const { run, fromMm } of pieces) starts[run]?.push(fromMm)
  return starts.map((places) => places.sort((a, b) => a - b))
}

/** Ascending. */
export function distinctPlaces(places: readonly number[]): number[] {
  const sorted = places.toSorted((a, b) => a - b)
  return sorted.filter((mm, index) => index === 0 || exceeds(mm, sorted[index - 1]!))
}

function breakAt(breaks: ReturnType<typeof breaksAlong>, atMm: number) {
  const next = breaks[firstIndexWhere(breaks.length, (index) => breaks[index]!.atMm >= atMm - LENGTH_SLACK_MM)]
  return next && !exceeds(next.atMm, atMm) ? next : null
}
