import type { ChordLeftOut } from '../bending/bends.ts'
import { bendingFindings } from '../checking/bending.ts'
import type { CheckedTrack } from '../checking/checked-track.ts'
import { chordTooLong } from '../checking/chord-too-long.ts'
import { breakJoinsNothing, expansionFindings } from '../checking/expansion.ts'
import { jointPlaceFindings } from '../checking/joint-places.ts'
import { pieceTooShort } from '../checking/piece-too-short.ts'
import { RULES } from '../checking/rules.ts'
import { billOf } from '../laying/bill.ts'
import type { CutPlan } from '../laying/cut-plan.ts'
import { gapsIn } from '../laying/gaps.ts'
import { type JoinedEnds, joinedEnds } from '../laying/joins.ts'
import { idleBreaks, type JointKind, jointsOf, SIDES, TAKES_JOINER } from '../laying/joints.ts'
import { withGaps } from '../laying/shortened-pieces.ts'
import { tiesUnder } from '../laying/ties.ts'
import type { Fault } from '../measure/fault.ts'
import { formatMm } from '../measure/length.ts'
import type { Estimate, Finding, TrackAnswer } from './answer.ts'
import { bendingOf } from './bending.ts'
import { cautionsFor } from './cautions.ts'
import { completePlan } from './complete-plan.ts'
import { cuttingAnswer } from './cutting-answer.ts'
import { divideRails } from './division.ts'
import { expansionAnswer, growingRails, jointAnswers, laidInWeather, mostLostMm } from './expansion.ts'
import { type LaidTrack, layTrack } from './laid-track.ts'
import type { Assumption, Plan, PlanInput } from './plan.ts'
import { railSummary } from './rail-summary.ts'
import { trackAnswer } from './track-answer.ts'

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

  const rails = growingRails(laid, joined)
  const fixed = jointsOf(laid, joined, null)
  const weather = laidInWeather(plan)
  const { sticks, kerfMm, minimumPieceMm } = plan.supplies
  const rules = { kerfMm, minimumPieceMm }
  const longestMm = Math.max(...sticks.map(({ lengthMm }) => lengthMm))
  const lostMm = mostLostMm(weather, fixed, rails, longestMm)
  const toDivide = { kerfMm, minimumPieceMm: longerPiece(minimumPieceMm, lostMm, longestMm) }
  const divided = divideRails(plan, laid, toDivide, joinersIn(fixed), plan.effort)
  if (!divided.ok) return { ok: false, faults: [tooLittleRail(divided.missingMm, divided.trimmed)] }
  const whole = divided.plan
  const joints = jointsOf(laid, joined, whole)
  const gaps = weather && gapsIn(joints, rails, weather)
  const cuts = gaps
    ? withGaps(
        whole,
        joints.map((joint, index) => ({ ...joint, gapMm: gaps[index]!.gapMm })),
        rails,
        rules,
      )
    : whole

  const tracks = laid.map((track, index): TrackAnswer => {
    const { piecesPerRun } = cuts
    const ofTrack = piecesPerRun[2 * index]! - 1 + piecesPerRun[2 * index + 1]! - 1
    const sharedEnds = joined[index]!.existing.length + joined[index]!.ofPlan.length
    const { ties, tieSpacingMm } = tiesUnder(track.lengthMm, plan.supplies.ties.spacingMm, track.closed, sharedEnds)
    return trackAnswer(track, { ties, tieSpacingMm, joints: ofTrack + 2 * ((track.closed ? 1 : 0) + sharedEnds) })
  })
  const { bends, easements, leftOut } = bending.bendsOf(laid, whole)
  const cutting = cuttingAnswer(cuts, laid, divided)
  const needs = {
    joiners: joinersIn(joints),
    insulatedJoiners: joints.filter(({ kind }) => kind === 'insulated').length,
    expansionJoints: joints.filter(({ kind }) => kind === 'expansion').length,
    ties: sum(tracks.map(({ ties }) => ties)),
    sticks: cutting.sticks,
  }
  const expansion = expansionAnswer(plan, laid)
  const jointsAnswered = jointAnswers(joints, gaps, laid)
  const straightTracks = laid.filter(({ placed }) => placed.some(({ kind }) => kind === 'tangent'))
  const rail = railSummary(plan, sum(laid.map(({ rails: { left, right } }) => left.lengthMm + right.lengthMm)))
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
      joints: jointsAnswered,
      expansion,
      bill: billOf(needs, plan.supplies, `${plan.section.name.toLowerCase()} ${plan.metal.name.toLowerCase()}`),
      findings: bySeverity([
        ...findingsOf(laid, leftOut, cuts, plan),
        ...bendingFindings(bends, bending.calibration, bending.ofMetal),
        ...expansionFindings(
          expansion,
          jointsAnswered,
          plan.joints.insulatorThicknessMm,
          straightTracks.map(({ name }) => name),
        ),
        ...laid.flatMap((track, index) =>
          jointPlaceFindings(
            track.name,
            joints.filter((joint) => joint.track === index),
            divided.asked[index]!,
          ),
        ),
        ...laid.flatMap((track, index) =>
          idleBreaks(track, joined[index]!).map(({ atMm, kind }) =>
            breakJoinsNothing(track.name, atMm, kind.replace('-', ' ')),
          ),
        ),
      ]),
      assumptions: [...assumptions, ...joinAssumptions(laid, joined), ...unknownBeyond(laid, joined, weather !== null)],
      cautions: cautionsFor(plan, rail.massKg, plan.climate !== null && plan.joints.held),
    },
  }
}

function joinersIn(joints: readonly { readonly kind: JointKind }[]): number {
  return joints.filter(({ kind }) => TAKES_JOINER.has(kind)).length
}

/** The shortest piece the cut plan makes, so that it is long enough still when gaps are taken off it; a stick at most. */
function longerPiece(minimumPieceMm: number, lostMm: number, longestMm: number): number {
  return Math.max(minimumPieceMm, Math.min(minimumPieceMm + lostMm, longestMm))
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

/** Track that is there already has pieces nobody has told of. */
function unknownBeyond(laid: readonly LaidTrack[], joined: readonly JoinedEnds[], inWeather: boolean): Assumption[] {
  if (!inWeather) return []
  return joined.flatMap(({ existing }, index) =>
    existing.map((end) => ({
      field: `/tracks/${index}/joinsExisting/${end}`,
      value: 'as much rail moves to the joint from the other side',
      reason: `the gap at the ${end} of ${laid[index]!.name}: how long the rail beyond it is is not known`,
    })),
  )
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
