import { billOf, type Need } from '../../laying/bill.ts'
import type { CutPlan } from '../../laying/cutting/cut-plan.ts'
import { type SearchEffort, workFor } from '../../laying/cutting/effort.ts'
import type { Work } from '../../laying/cutting/problem.ts'
import { type Gap, gapsIn } from '../../laying/gaps.ts'
import { jointsOf, type RailJoint } from '../../laying/joints.ts'
import { withGaps } from '../../laying/shortened-pieces.ts'
import { minorUnitsOf } from '../../measure/money.ts'
import { railNeeds, type TrackNeeds } from '../bill/needs.ts'
import type { CoverableElements } from '../ready-made/coverable.ts'
import {
  type Choice,
  type Coverage,
  type CoverOnce,
  coverageOf,
  coveringOnce,
  stationsCovered,
} from '../ready-made/coverage.ts'
import { endsOfStretches } from '../track/bought-turnouts.ts'
import { mostLostMm, openedRuns } from '../track/expansion.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { BuiltTurnouts } from './built-turnouts.ts'
import { Counting } from './counted.ts'
import { type Division, divideRails } from './division.ts'
import type { Site } from './site.ts'

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
  const { plan, laid, joined, turnouts, rails, weather, built } = site
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
  const counting = new Counting(site, covered)
  // However the rails are cut, they have these joints and perhaps more.
  const besideRail = () => {
    const onePiece = built.rails.map(() => 1)
    return counting.of(fixed, onePiece).lines.filter(({ item }) => item !== 'joiner')
  }
  const divided = divideRails(plan, laid, toDivide, counting.plainJoiners(fixed), {
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
  const { ofTrack, needs, lines: others } = counting.of(joints, whole.piecesPerRun.slice(2 * laid.length))
  const lines = [...railNeeds(cuts.sticks, namesOfRuns(laid, built), sticks, site.rail), ...others]
  return { ok: true, laidOut: { divided, covered, cuts, joints, gaps, ofTrack, needs, lines } }
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

/** The minimum piece for the cut plan, so that pieces are still long enough without their gaps; at most a stick. */
function longerPiece(minimumPieceMm: number, lostMm: number, longestMm: number): number {
  return Math.max(minimumPieceMm, Math.min(minimumPieceMm + lostMm, longestMm))
}
