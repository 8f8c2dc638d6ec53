import { billOf, type Need } from '../../laying/bill.ts'
import type { CutPlan } from '../../laying/cutting/cut-plan.ts'
import { type SearchEffort, workFor } from '../../laying/cutting/effort.ts'
import type { Work } from '../../laying/cutting/problem.ts'
import { type Gap, type GrowingRail, gapsIn, type LayingConditions } from '../../laying/gaps.ts'
import type { JoinedEnds } from '../../laying/joins.ts'
import { tiesToAddAtJoints } from '../../laying/joint-ties.ts'
import { type JointKind, jointsOf, type RailJoint, TAKES_JOINER } from '../../laying/joints.ts'
import { withGaps } from '../../laying/shortened-pieces.ts'
import { tiesUnder } from '../../laying/ties.ts'
import { minorUnitsOf } from '../../measure/money.ts'
import { sum } from '../../measure/sum.ts'
import { liveFrogs } from '../bill/frogs.ts'
import { panelNeeds, partNeeds, railNeeds, type TrackNeeds } from '../bill/needs.ts'
import { frogSwitchNeeds, longTieNeeds, longTiesOn, throwNeeds, turnoutNeeds } from '../bill/turnouts.ts'
import type { Plan } from '../plan.ts'
import type { CoverableElements } from '../ready-made/coverable.ts'
import {
  type Choice,
  type Coverage,
  type CoveredStretch,
  type CoverOnce,
  coverageOf,
  coveringOnce,
  jointsToTie,
  stationsCovered,
  tiesCovered,
} from '../ready-made/coverage.ts'
import { boughtTurnouts, endsOfStretches } from '../track/bought-turnouts.ts'
import { builtStretches } from '../track/built-rails.ts'
import { expansionThere, growingRails, layingConditions, mostLostMm, openedRuns } from '../track/expansion.ts'
import { joinedEndsOfNew, type TrackToJoin, transitionJoints } from '../track/joins.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import { type BuiltTurnouts, joinersInBuilt, NOTHING_BUILT } from './built-turnouts.ts'
import { type Division, divideRails } from './division.ts'
import type { SprungIn } from './sprung-in.ts'

/** Placed new track, before its materials are chosen. */
export interface Site {
  readonly plan: Plan
  readonly joins: readonly TrackToJoin[]
  readonly laid: readonly LaidTrack[]
  readonly joined: readonly JoinedEnds[]
  /** Where turnouts lie, bought ones first. */
  readonly turnouts: readonly CoveredStretch[]
  readonly rails: readonly GrowingRail[]
  readonly weather: LayingConditions | null
  /** The name of the rail on the bill, and its weight. */
  readonly rail: { readonly name: string; readonly massPerMetreKg: number | null }
  /** What of the track is sprung in rather than bent. */
  readonly sprungIn: SprungIn
  readonly built: BuiltTurnouts
}

/** New track made of loose rail and ready-made pieces: its pieces, joints, and everything counted for it. */
export interface LaidOut {
  readonly divided: Division
  readonly covered: Coverage
  /** Pieces with the gaps taken off. */
  readonly cuts: CutPlan
  readonly joints: readonly RailJoint[]
  readonly gaps: readonly Gap[] | null
  /** Joints by track. */
  readonly ofTrack: readonly RailJoint[][]
  readonly needs: readonly TrackNeeds[]
  /** Rail, ready-made pieces, joiners, ties and fasteners. */
  readonly lines: readonly Need[]
}

export type LaidOutOrNot =
  | { readonly ok: true; readonly laidOut: LaidOut }
  /** Null: too few ready-made pieces, or it costs more than it may. */
  | { readonly ok: false; readonly short: { readonly missingMm: number; readonly trimmed: boolean } | null }

export function siteOf(
  plan: Plan,
  joins: readonly TrackToJoin[],
  rail: { readonly name: string; readonly massPerMetreKg: number | null },
  sprungIn: SprungIn,
  built: BuiltTurnouts = NOTHING_BUILT,
): Site {
  const laid = joins.map(({ track }) => track)
  const joined = joinedEndsOfNew(joins)
  const turnouts = [...boughtTurnouts(laid, plan), ...builtStretches(laid, plan)]
  const rails = growingRails(laid, joined, turnouts, (track, end) =>
    expansionThere(plan.tracks[joins[track]!.index]!, end, plan.metal),
  )
  return { plan, joins, laid, joined, turnouts, rails, weather: layingConditions(plan), rail, sprungIn, built }
}

/**
 * Lays out the track in loose rail and, where chosen, in ready-made pieces.
 *
 * @param cover how stretches are made of pieces; given where many choices share most of them
 * @param mostCents what it may cost at most, in the smallest unit of the currency; known only where all rail has a price
 */
export function layOut(
  site: Site,
  elements: CoverableElements,
  choice: Choice,
  effort: SearchEffort,
  work: Work = workFor(effort),
  cover: CoverOnce = coveringOnce(effort),
  mostCents = Number.POSITIVE_INFINITY,
): LaidOutOrNot {
  const { plan, joins, laid, joined, turnouts, rails, weather, built } = site
  const { sticks, kerf: kerfMm, minimumPiece: minimumPieceMm } = plan.supplies
  const longestMm = Math.max(...sticks.map(({ length: lengthMm }) => lengthMm))
  const ends = mergedLists(endsOfChosen(elements, choice, laid.length), endsOfStretches(turnouts, laid.length))
  const atEnds = () => jointsOf(laid, joined, null, ends)
  const opened = weather && openedRuns(weather, atEnds(), rails, longestMm)
  const chosen = coverageOf(choice, elements, laid, plan, opened, cover, work)
  if (!chosen) return { ok: false, short: null }
  const covered = { ...chosen, stretches: [...chosen.stretches, ...turnouts] }

  const meetAt = laid.map((_, index) => stationsCovered(covered, index))
  const fixed = covered.stretches.length === 0 ? atEnds() : jointsOf(laid, joined, null, mergedLists(ends, meetAt))
  const lostMm = mostLostMm(weather, fixed, rails, longestMm)
  const toDivide = { kerf: kerfMm, minimumPiece: longerPiece(minimumPieceMm, lostMm, longestMm) }
  const transitionsIn = (all: readonly RailJoint[]) =>
    joins.map((join, place) => {
      const ofTrack = all.filter(({ track }) => track === place)
      return transitionJoints(ofTrack, join, plan)
    })
  const joinersIncluded = sum(covered.used.map(({ panel }) => plan.supplies.panels[panel]!.joiners))
  const frogsAt = (all: readonly RailJoint[]) => liveFrogs(laid, plan, byTrack(all, laid.length))
  const atFrogs = sum(frogsAt(fixed).map(({ joinersReplaced }) => joinersReplaced))
  const plainJoiners = joinersIn(fixed) + built.joiners - atFrogs - sum(transitionsIn(fixed)) - joinersIncluded
  const counted = (joints: readonly RailJoint[], piecesOfBuilt: readonly number[]) => {
    const ofTrack = byTrack(joints, laid.length)
    const frogs = frogsAt(joints)
    const transitions = transitionsIn(joints)
    const needs = laid.map((track, index): TrackNeeds => {
      const taken = trackNeeds(track, index, joined[index]!, ofTrack[index]!, covered, plan)
      return {
        ...taken,
        transitions: transitions[index]!,
        longTies: longTiesOn(track, plan),
        joinersInTurnouts: joinersInBuilt(built, index, piecesOfBuilt),
        liveFrogs: frogs[index]!,
      }
    })
    const lines = [
      ...panelNeeds(covered, plan.supplies.panels, laid),
      ...turnoutNeeds(laid, plan),
      ...partNeeds(needs, plan, joinersIncluded),
      ...longTieNeeds(laid, plan),
      ...throwNeeds(laid, plan),
      ...frogSwitchNeeds(needs, plan),
    ]
    return { ofTrack, needs, lines }
  }
  // However the rails are cut, they have these joints and perhaps more.
  const besideRail = () =>
    counted(
      fixed,
      built.rails.map(() => 1),
    ).lines.filter(({ item }) => item !== 'joiner')
  const divided = divideRails(plan, laid, toDivide, plainJoiners, {
    opened,
    covered,
    effort,
    work,
    sprungIn: site.sprungIn,
    others: built.runs,
    mostCents: Number.isFinite(mostCents)
      ? mostCents - minorUnitsOf(billOf(besideRail(), plan.supplies).total)
      : mostCents,
  })
  if (!divided.ok) return { ok: false, short: divided.missingMm > 0 ? divided : null }

  const whole = divided.plan
  const joints = jointsOf(laid, joined, whole, mergedLists(ends, meetAt))
  const gaps = weather && gapsIn(joints, rails, weather)
  const open = gaps && [...joints.map((joint, index) => ({ ...joint, offMm: gaps[index]!.offMm })), ...built.open]
  const ofBuilt = built.rails.map(({ line }) => ({ lengthMm: line.lengthMm, closed: false }))
  const cuts = open
    ? withGaps(whole, open, [...rails, ...ofBuilt], { kerf: kerfMm, minimumPiece: minimumPieceMm })
    : whole
  const { ofTrack, needs, lines: others } = counted(joints, whole.piecesPerRun.slice(2 * laid.length))
  const lines = [...railNeeds(cuts.sticks, namesOfRuns(laid, built), sticks, site.rail), ...others]
  return { ok: true, laidOut: { divided, covered, cuts, joints, gaps, ofTrack, needs, lines } }
}

function byTrack(joints: readonly RailJoint[], tracks: number): RailJoint[][] {
  return Array.from({ length: tracks }, (_, index) => joints.filter(({ track }) => track === index))
}

/** The track that each run of the cut plan belongs to, by name. */
function namesOfRuns(laid: readonly LaidTrack[], { rails }: BuiltTurnouts): string[] {
  return [...laid.flatMap(({ name }) => [name, name]), ...rails.map(({ track }) => laid[track]!.name)]
}

/** Stations by track at which the chosen ready-made stretches begin and end. */
function endsOfChosen({ coverable }: CoverableElements, choice: Choice, tracks: number): number[][] {
  const ends = Array.from({ length: tracks }, (): number[] => [])
  for (const [index, { track, parts }] of coverable.entries())
    if (choice[index] !== null) ends[track]!.push(...parts.flatMap(({ fromMm, toMm }) => [fromMm, toMm]))
  return ends
}

function mergedLists(a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number[][] {
  return a.map((list, index) => [...list, ...b[index]!])
}

function joinersIn(joints: readonly { readonly kind: JointKind }[]): number {
  return joints.filter(({ kind }) => TAKES_JOINER.has(kind)).length
}

/** The minimum piece for the cut plan, so that pieces are still long enough without their gaps; at most a stick. */
function longerPiece(minimumPieceMm: number, lostMm: number, longestMm: number): number {
  return Math.max(minimumPieceMm, Math.min(minimumPieceMm + lostMm, longestMm))
}

/** The ties and joiners of a track. */
function trackNeeds(
  { name, lengthMm, closed }: LaidTrack,
  index: number,
  joined: JoinedEnds,
  joints: readonly RailJoint[],
  covered: Coverage,
  { supplies }: Plan,
): Omit<TrackNeeds, 'transitions' | 'longTies' | 'joinersInTurnouts' | 'liveFrogs'> {
  const sharedEnds = joined.existing.length + joined.ofPlan.length
  const row = tiesUnder(lengthMm, supplies.ties.spacing, closed, sharedEnds)
  const shares = (end: 'start' | 'end') =>
    joined.existing.includes(end) || joined.ofPlan.some((join) => join.end === end)
  const inRow = {
    ...{ lengthMm, spacingMm: row.tieSpacingMm, closed },
    ...{ sharedStart: shares('start'), sharedEnd: shares('end') },
  }
  const tiesOf = (turnouts: boolean) => {
    const stretches = covered.stretches.filter(({ turnout = false }) => turnout === turnouts)
    return tiesCovered({ ...covered, stretches }, index, inRow)
  }
  const [tiesIncluded, tiesOfTurnouts] = [tiesOf(false), tiesOf(true)]
  const stations = jointsToTie(joints, covered, index).map(({ stationMm }) => stationMm)
  const jointTies = supplies.ties.jointTies
    ? tiesToAddAtJoints({ lengthMm, spacingMm: row.tieSpacingMm, closed }, stations)
    : 0
  return { name, lengthMm, closed, joined, joints, ...row, jointTies, tiesIncluded, tiesOfTurnouts }
}
