import type { Patch } from '../../../fitting/json-patch.ts'
import { leastAlong } from '../../../fitting/least-along.ts'
import { readable } from '../../../plan/reading/schema.ts'
import { listAt } from '../../../plan/reading/value-at.ts'
import type { PlanInput } from '../../../plan/rows/plan.ts'
import { ELEMENT, type ElementAsSent, type ElementInput } from '../../../plan/rows/track.ts'
import { poseReversed } from '../../../track/turnout/leg.ts'
import type { Pose } from '../../../track/types.ts'
import { type Plan, preparePlan } from '../../plan.ts'
import { type ConnectOption, type Legs, lengthOfWay, shortestMm, shortestWays } from '../connect.ts'
import { type FittedPlace, fittedElements, inPlaceOf } from '../fitted-patch.ts'
import { poseOf } from '../places.ts'
import { type TrackToFit, trackToFit } from '../track-to-fit.ts'
import { freeTurnouts, type NoSite, sitesAt, type TurnoutSite } from './turnout-sites.ts'

/** A turnout that is put into a straight of another track. */
export interface PutIn {
  readonly name: string
  readonly site: TurnoutSite
  /** From the start of the straight. */
  readonly atMm: number
}

/** A connection with turnouts at one end of it or at both. */
export interface WithTurnouts {
  readonly track: number
  readonly putIn: readonly PutIn[]
  /** Where its elements come to be. */
  readonly path: readonly { readonly track: number; readonly element: number }[]
  readonly lengthMm: number
  /** On the plan as it was sent. */
  readonly patch: Patch
}

export type TurnoutEnds =
  | { readonly ok: true; readonly found: readonly WithTurnouts[] }
  | { readonly ok: false; readonly at: FittedPlace | null; readonly why: NoSite | 'no-path' }

/** Choices of straights and kinds of turnout that are looked at for one connection; of these, so many ways are answered. */
const MOST_PAIRS = 24
const WAYS_OF_EACH = 2
/** Paths are as long as each other within this; of those the one nearest to the ends as given is meant, by a weight too small to count otherwise. */
const SAME_MM = 0.01
const PULL = 1e-8

/**
 * Connections whose ends lie on straights of other tracks, with turnouts that are on hand put in there: of each choice of
 * straight and kind the places from which the path is shortest, in whole millimetres along the straights. Tracks that have
 * something open themselves are left alone.
 * Checked in tests/estimate/turnout-ends.test.ts against a look at every place.
 *
 * @param input the plan, fitted
 */
export function turnoutEnds(input: PlanInput, sent: unknown): TurnoutEnds {
  const { plan } = preparePlan(input)
  const open = fittedElements(sent, input)
  const isOpen = new Set(open.map(({ track }) => track))
  const hosts = [...plan.tracks.keys()].filter((track) => !isOpen.has(track) && plan.tracks[track]!.state !== 'lifted')
  const free = freeTurnouts(plan)
  const found: WithTurnouts[] = []
  let refused: Extract<TurnoutEnds, { ok: false }> = { ok: false, at: null, why: 'none-near' }
  for (const place of open) {
    if (place.open !== 'path' || place.element !== place.sentAt) continue
    const ends = endsOf(place.track, hosts, free, plan)
    if (typeof ends === 'string') {
      refused = { ok: false, at: place, why: ends }
      continue
    }
    const here = pairsOf(ends, free).flatMap((pair) => waysWith(pair, place, plan, sent))
    if (here.length === 0) refused = { ok: false, at: place, why: 'no-path' }
    found.push(...here)
  }
  return found.length === 0 ? refused : { ok: true, found: found.toSorted((a, b) => a.lengthMm - b.lengthMm) }
}

/** At each end of a connection the places for a turnout; null alone for an end that stays. */
interface Ends {
  readonly start: readonly (TurnoutSite | null)[]
  readonly end: readonly (TurnoutSite | null)[]
}

function endsOf(track: number, hosts: readonly number[], free: ReadonlyMap<string, number>, plan: Plan): Ends | NoSite {
  const { start, end, closed } = plan.tracks[track]!
  const sites = (pose: Pose, isGiven: boolean) =>
    closed || !isGiven
      ? 'none-near'
      : sitesAt(
          pose,
          hosts.filter((host) => host !== track),
          free,
          plan,
        )
  const from = sites(poseOf(start), start.after === null && !start.from)
  const at = end?.at
  const to = at
    ? sites(poseReversed(poseOf({ ...at, heading: at.heading ?? 0 })), end.before === null && !end.to)
    : 'none-near'
  if (from === 'none-near' && to === 'none-near') return 'none-near'
  // An end that lies on a straight is of no use without its turnout.
  for (const each of [from, to]) if (typeof each === 'string' && each !== 'none-near') return each
  return { start: typeof from === 'string' ? [null] : from, end: typeof to === 'string' ? [null] : to }
}

/** Not two in one straight, and not more of a kind than there are. */
function pairsOf({ start, end }: Ends, free: ReadonlyMap<string, number>): [TurnoutSite | null, TurnoutSite | null][] {
  return start
    .flatMap((from) => end.map((to): [TurnoutSite | null, TurnoutSite | null] => [from, to]))
    .filter(([from, to]) => {
      if (!from || !to) return true
      const isSame = from.track === to.track && from.element === to.element
      return !isSame && (from.type !== to.type || free.get(from.type)! > 1)
    })
    .slice(0, MOST_PAIRS)
}

function waysWith(
  [from, to]: [TurnoutSite | null, TurnoutSite | null],
  { track, sentAt }: FittedPlace,
  plan: Plan,
  sent: unknown,
): WithTurnouts[] {
  const sites = [from, to].filter((site) => site !== null)
  const elements = listAt(sent, ['tracks', track, 'elements']).map((each) => readable(ELEMENT, each)!)
  const reverseMm = plan.standards.minimumTangentBetweenReverseCurves ?? 0
  const legs: Legs = { before: from?.leg ?? null, after: to ? seenFromBehind(to.leg) : null }
  const own = ownTrack(track, elements, plan)
  const withTurnoutsAt = (atMm: readonly number[]): TrackToFit => ({
    ...own,
    start: from ? from.legAt(atMm[0]!) : own.start,
    goal: to ? { pose: poseReversed(to.legAt(atMm.at(-1)!)), hasHeading: true } : own.goal,
  })
  const best = leastAlong(
    sites.map(({ mostMm }) => mostMm),
    (atMm) => {
      const placed = withTurnoutsAt(atMm)
      const mm = shortestMm(placed, reverseMm, legs)
      return (
        Math.round(mm / SAME_MM) * SAME_MM +
        PULL * (apart(placed.start, own.start) + apart(placed.goal.pose, own.goal.pose))
      )
    },
  )
  if (!best) return []
  const names = freeNames(plan, sites.length)
  const putIn = sites.map((site, n): PutIn => ({ name: names[n]!, site, atMm: best.atMm[n]! }))
  const ways = shortestWays(withTurnoutsAt(best.atMm), reverseMm, legs, WAYS_OF_EACH)
  return ways.map((way) => withTurnouts(way, putIn, [from, to], track, sentAt))
}

function apart(a: Pose, b: Pose): number {
  return Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm)
}

function ownTrack(index: number, elements: readonly ElementAsSent[], { tracks, special }: Plan): TrackToFit {
  const { start, end } = tracks[index]!
  const at = end!.at!
  const goal = { pose: poseOf({ ...at, heading: at.heading ?? 0 }), hasHeading: true }
  return trackToFit({ index, elements, closed: false, start: poseOf(start), goal }, special)
}

/** What curves to the left on the way out curves to the right on the way in. */
function seenFromBehind({ curvature, ...leg }: NonNullable<Legs['after']>): NonNullable<Legs['after']> {
  return { ...leg, curvature: -curvature }
}

function withTurnouts(
  way: ConnectOption,
  putIn: readonly PutIn[],
  [from, to]: readonly (TurnoutSite | null)[],
  track: number,
  sentAt: number,
): WithTurnouts {
  const legOf = (site: TurnoutSite) => ({
    turnout: putIn.find((each) => each.site === site)!.name,
    leg: 'diverging' as const,
  })
  // Those behind come first, so that they leave the others where they are.
  const inOrder = putIn.toSorted((a, b) => b.site.element - a.site.element)
  return {
    track,
    putIn,
    path: way.pieces.map((_, n) => ({ track, element: sentAt + n })),
    lengthMm: lengthOfWay(way),
    patch: [
      ...inOrder.flatMap(({ site, name, atMm }) => inPlaceOf(site.track, site.element, elementsWith(site, name, atMm))),
      ...(from ? [{ op: 'add' as const, path: `/tracks/${track}/start`, value: { from: legOf(from) } }] : []),
      ...(to ? [{ op: 'add' as const, path: `/tracks/${track}/end`, value: { to: legOf(to) } }] : []),
      ...inPlaceOf(track, sentAt, way.pieces),
    ],
  }
}

/** As small as an element may be. */
const LEAST_MM = 0.001

/** The straight with a turnout in it. */
function elementsWith(
  { type, enters, straightMm, lengthMm, label }: TurnoutSite,
  name: string,
  atMm: number,
): ElementInput[] {
  const straight = (length: number): ElementInput[] =>
    length < LEAST_MM ? [] : [{ kind: 'tangent', length, ...(label !== undefined && { label }) }]
  return [...straight(atMm), { kind: 'turnout', name, type, enters }, ...straight(straightMm - atMm - lengthMm)]
}

function freeNames({ tracks }: Plan, count: number): string[] {
  const used = new Set(tracks.flatMap(({ elements }) => elements.map((each) => ('name' in each ? each.name : null))))
  const names: string[] = []
  for (let n = 1; names.length < count; n++) if (!used.has(`T${n}`)) names.push(`T${n}`)
  return names
}
