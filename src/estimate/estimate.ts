import type { ChordLeftOut } from '../bending/bends.ts'
import { bendingFindings } from '../checking/bending.ts'
import type { CheckedTrack } from '../checking/checked-track.ts'
import { chordTooLong } from '../checking/chord-too-long.ts'
import { pieceTooShort } from '../checking/piece-too-short.ts'
import { RULES } from '../checking/rules.ts'
import { billOf } from '../laying/bill.ts'
import { cheaperFor } from '../laying/compare-plans.ts'
import { type CutPlan, planCuts } from '../laying/cut-plan.ts'
import { type JoinedEnds, joinedEnds } from '../laying/joins.ts'
import { tiesUnder } from '../laying/ties.ts'
import type { Fault } from '../measure/fault.ts'
import { formatMm } from '../measure/length.ts'
import type { Estimate, Finding, TrackAnswer } from './answer.ts'
import { bendingOf } from './bending.ts'
import { cautionsFor } from './cautions.ts'
import { completePlan } from './complete-plan.ts'
import { cuttingAnswer } from './cutting-answer.ts'
import { type LaidTrack, layTrack } from './laid-track.ts'
import type { Assumption, Plan, PlanInput } from './plan.ts'
import { railSummary } from './rail-summary.ts'
import { runOf } from './runs.ts'
import { trackAnswer } from './track-answer.ts'

/** The two rails of a track in the order in which their runs are counted. */
const SIDES = ['left', 'right'] as const

/**
 * Works out a plan: geometry, rails, ties, joints, bends, cut plan, bill and findings. A pure function: the same plan
 * gives the same answer to the last byte.
 *
 * @param input a plan without faults (see `planFaults`)
 * @returns the estimate, or why none can be made (too little rail on hand and none to buy)
 */
export function estimate(input: PlanInput): { ok: true; estimate: Estimate } | { ok: false; faults: Fault[] } {
  const { plan, assumptions } = completePlan(input)
  const bending = bendingOf(plan)
  if (!bending.ok) return bending
  const laid = plan.tracks.map((track) => layTrack(track, plan))
  const { closureGapMm, closureHeadingDeg } = plan.standards
  const joined = joinedEnds(laid, closureGapMm, closureHeadingDeg)

  const runs = laid.flatMap((track) => SIDES.map((side) => runOf(track, side, plan)))
  const otherJoints = laid.map((track, index) => jointsBesidePieces(track, joined[index]!))
  const rules = { kerfMm: plan.supplies.kerfMm, minimumPieceMm: plan.supplies.minimumPieceMm }
  const better = cheaperFor(plan.supplies, sum(otherJoints))
  const cuts = planCuts(runs, plan.supplies.sticks, rules, better)
  const trimmed = runs.some(({ trimMm }) => trimMm)
  if (!cuts.ok) return { ok: false, faults: [tooLittleRail(cuts.missingMm, trimmed)] }

  const tracks = laid.map((track, index): TrackAnswer => {
    const { piecesPerRun } = cuts.plan
    const joints = piecesPerRun[2 * index]! - 1 + piecesPerRun[2 * index + 1]! - 1 + otherJoints[index]!
    const sharedEnds = joined[index]!.existing.length + joined[index]!.ofPlan.length
    const { ties, tieSpacingMm } = tiesUnder(track.lengthMm, plan.supplies.ties.spacingMm, track.closed, sharedEnds)
    return trackAnswer(track, { ties, tieSpacingMm, joints })
  })
  const { bends, easements, leftOut } = bending.bendsOf(laid, cuts.plan)
  const cutting = cuttingAnswer(cuts.plan, laid, runs)
  const needs = {
    joiners: sum(tracks.map(({ joints }) => joints)),
    ties: sum(tracks.map(({ ties }) => ties)),
    sticks: cutting.sticks,
  }
  const rail = railSummary(plan, sum(runs.map(({ lengthMm }) => lengthMm)))
  return {
    ok: true,
    estimate: {
      title: plan.title,
      rail,
      tracks,
      bends,
      easements,
      calibration: bending.calibration,
      cutting,
      bill: billOf(needs, plan.supplies, `${plan.section.name.toLowerCase()} ${plan.metal.name.toLowerCase()}`),
      findings: bySeverity([
        ...findingsOf(laid, leftOut, cuts.plan, plan),
        ...bendingFindings(bends, bending.calibration, bending.ofMetal),
      ]),
      assumptions: [...assumptions, ...joinAssumptions(laid, joined)],
      cautions: cautionsFor(plan, rail.massKg),
    },
  }
}

/** Two rails close on themselves, or are joined to other track, at each such end. */
function jointsBesidePieces(track: LaidTrack, ends: JoinedEnds): number {
  return 2 * ((track.closed ? 1 : 0) + ends.existing.length + ends.ofPlan.length)
}

function findingsOf(
  laid: readonly LaidTrack[],
  leftOut: readonly ChordLeftOut[][],
  cuts: CutPlan,
  plan: Plan,
): Finding[] {
  return laid.flatMap((track, index) => {
    const checked: CheckedTrack = { ...track, gaugeMm: plan.gaugeMm }
    return [
      ...RULES.flatMap((rule) => rule(checked, plan.standards)),
      ...chordTooLong(track.name, leftOut[index]!),
      ...cuts.shortPieces
        .filter(({ run }) => run >> 1 === index)
        .map(({ run, lengthMm }) => pieceTooShort(track.name, SIDES[run % 2]!, lengthMm, plan.supplies.minimumPieceMm)),
    ]
  })
}

function bySeverity(findings: Finding[]): Finding[] {
  const order = { stop: 0, warn: 1, note: 2 }
  return findings.sort((a, b) => order[a.severity] - order[b.severity])
}

function joinAssumptions(laid: readonly LaidTrack[], joined: readonly JoinedEnds[]): Assumption[] {
  return joined.flatMap(({ existing, ofPlan }, index) => [
    ...existing.map((end) => ({
      field: `/tracks/${index}/joinsExisting/${end}`,
      value: 'one tie fewer, two joints more',
      reason: `the ${end} of ${laid[index]!.name} shares the last tie of the track it joins`,
    })),
    ...ofPlan.map(({ end, otherTrack }) => ({
      field: `/tracks/${index}/${end === 'start' ? 'start' : 'elements'}`,
      value: 'one tie fewer, two joints more',
      reason: `the ${end} of ${laid[index]!.name} runs into ${laid[otherTrack]!.name}: they share a tie and are joined`,
    })),
  ])
}

/** With trim a length may be on sale and yet leave nothing once the ends are cut off. */
function tooLittleRail(missingMm: number, trimmed: boolean): Fault {
  return {
    path: ['supplies', 'sticks'],
    code: 'too-little-rail',
    detail: trimmed
      ? `once bent pieces are trimmed the sticks do not make up the rails: a piece of ${formatMm(missingMm)} cannot be cut`
      : `the sticks on hand do not make up the rails: a piece of ${formatMm(missingMm)} cannot be cut from what is left`,
    hint: trimmed
      ? 'allow a longer length to be bought, or leave the ends untrimmed'
      : 'allow a length to be bought ("buyable": true), or correct what is on hand',
  }
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}
