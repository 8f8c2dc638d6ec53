import type { ChordLeftOut } from '../bending/bends.ts'
import { joinFindings } from '../checking/at-joins.ts'
import { bendingFindings } from '../checking/bending.ts'
import { bySeverity } from '../checking/by-severity.ts'
import type { CheckedTrack } from '../checking/checked-track.ts'
import { chordTooLong } from '../checking/chord-too-long.ts'
import { breakAtFreeEnd, expansionFindings } from '../checking/expansion.ts'
import { jointPlaceFindings } from '../checking/joint-places.ts'
import { pieceTooShort } from '../checking/piece-too-short.ts'
import { RULES } from '../checking/rules.ts'
import { billOf } from '../laying/bill.ts'
import type { CutPlan } from '../laying/cutting/cut-plan.ts'
import type { JoinedEnds } from '../laying/joins.ts'
import { breaksAtFreeEnds, SIDES } from '../laying/joints.ts'
import type { Fault } from '../measure/fault.ts'
import { formatMm } from '../measure/length.ts'
import { sum } from '../measure/sum.ts'
import type { Assumption } from '../plan/fields/complete.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { Estimate, Finding, TrackAnswer } from './answer.ts'
import { bendingOf } from './bending.ts'
import { extraNeeds } from './bill/needs.ts'
import { powerOf } from './bill/power.ts'
import { railSummary } from './bill/rail-summary.ts'
import { roadbedOf } from './bill/roadbed.ts'
import { cautionsFor } from './cautions.ts'
import { siteOf } from './cutting/lay-out.ts'
import type { Plan } from './plan.ts'
import { preparePlan } from './plan.ts'
import { chooseReadyMade } from './ready-made/choose-ready-made.ts'
import { looseJoints } from './ready-made/coverage.ts'
import { elementsCovered, readyMadeAnswer } from './ready-made/ready-made-answer.ts'
import { blocksOf } from './track/blocks.ts'
import { expansionAnswer, jointAnswers } from './track/expansion.ts'
import { joinAssumptions, joinsOf, joinsToCheck, type TrackToJoin } from './track/joins.ts'
import { type LaidTrack, layTrack } from './track/laid-track.ts'
import { salvageAssumptions, salvageOf, together, withSalvage } from './track/lifted.ts'
import { trackAnswer } from './track/track-answer.ts'

/**
 * Estimates a plan: geometry, rails, ties, joints, bends, cut plan, bill and findings. A pure function: the same plan
 * always gives the same answer.
 *
 * @param input a plan without faults (see `planFaults`)
 * @returns the estimate, or why there is none (not enough rail on hand and none to buy)
 */
export function estimate(input: PlanInput): { ok: true; estimate: Estimate } | { ok: false; faults: Fault[] } {
  const completed = preparePlan(input)
  const bending = bendingOf(completed.plan)
  if (!bending.ok) return bending
  const drawn = completed.plan.tracks.map((track) => layTrack(track, completed.plan))
  const salvage = together(drawn.map((track) => salvageOf(track, completed.plan)))
  const plan: Plan = { ...completed.plan, supplies: withSalvage(completed.plan.supplies, salvage) }
  const joins = joinsOf(drawn, plan)
  const rail = railSummary(plan, sum(joins.map(({ track: { rails } }) => rails.left.lengthMm + rails.right.lengthMm)))
  const railName = `${plan.section.name.toLowerCase()} ${plan.metal.name.toLowerCase()}`
  const site = siteOf(plan, joins, { name: railName, massPerMetreKg: rail.massPerMetreKg })
  const { laid, joined, weather } = site
  const chosen = chooseReadyMade(site)
  if (!chosen.ok) return { ok: false, faults: [notEnoughRail(chosen.short)] }
  const { divided, covered, cuts, cutting, joints, gaps, ofTrack, needs, lines } = chosen.laidOut

  const tracks = drawn.map((track): TrackAnswer => {
    const index = laid.indexOf(track)
    if (index < 0)
      return trackAnswer(track, { ties: 0, tieSpacingMm: plan.supplies.ties.spacing, jointTies: 0, joints: 0 })
    const { ties, tieSpacingMm, jointTies } = needs[index]!
    return trackAnswer(track, { ties, tieSpacingMm, jointTies, joints: ofTrack[index]!.length })
  })
  const { bends, easements, leftOut } = bending.bendsOf(laid, divided.plan, elementsCovered(covered))
  const expansion = expansionAnswer(plan, laid)
  const jointsAnswered = jointAnswers(joints, gaps, laid)
  const straightTracks = laid.filter(({ placed }) => placed.some(({ kind }) => kind === 'tangent'))
  const roadbed = roadbedOf(plan.roadbed, needs)
  const power = powerOf(
    plan,
    laid.flatMap((track, index) => blocksOf(track, ofTrack[index]!)),
  )
  const bill = billOf([...lines, ...roadbed.needs, ...power.needs, ...extraNeeds(plan.extras, needs)], plan.supplies)
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
      readyMade: readyMadeAnswer(chosen, laid, plan),
      joints: jointsAnswered,
      expansion,
      bill,
      roadbed: roadbed.answer,
      power: power.answer,
      findings: bySeverity([
        ...findingsOf(drawn, laid, leftOut, cuts, plan),
        ...joinFindings(
          joinsToCheck(joins, drawn, plan),
          plan.metal,
          plan.standards.minimumTangentBetweenReverseCurves,
        ),
        ...bendingFindings(
          bends.filter(({ readyMade }) => !readyMade),
          bending.calibration,
          bending.ofMetal,
        ),
        ...expansionFindings(
          expansion,
          jointsAnswered,
          plan.joints.insulatorThickness,
          straightTracks.map(({ name }) => name),
        ),
        ...laid.flatMap((track, index) =>
          jointPlaceFindings(track.name, looseJoints(ofTrack[index]!, covered, index), divided.asked[index]!),
        ),
        ...laid.flatMap((track, index) =>
          breaksAtFreeEnds(track, joined[index]!).map(({ at: atMm, kind }) =>
            breakAtFreeEnd(track.name, atMm, kind.replace('-', ' ')),
          ),
        ),
        ...power.findings,
      ]),
      assumptions: [
        ...completed.assumptions,
        ...joinAssumptions(joins, drawn),
        ...salvageAssumptions(drawn, completed.plan),
        ...unknownRailAssumptions(joins, joined, weather !== null),
      ],
      cautions: cautionsFor(plan, rail.massKg, plan.climate !== null && plan.joints.held),
    },
  }
}

/** Existing track is also checked against the rules; lifted track is not. */
function findingsOf(
  drawn: readonly LaidTrack[],
  laid: readonly LaidTrack[],
  leftOut: readonly ChordLeftOut[][],
  cuts: CutPlan,
  plan: Plan,
): Finding[] {
  return drawn.flatMap((track) => {
    if (track.state === 'lifted') return []
    const index = laid.indexOf(track)
    const checked: CheckedTrack = { ...track, gaugeMm: plan.gauge }
    return [
      ...RULES.flatMap((rule) => rule(checked, plan.standards)),
      ...chordTooLong(track.name, leftOut[index] ?? []),
      ...cuts.shortPieces
        .filter(({ run }) => run >> 1 === index)
        .map(({ run, lengthMm }) => pieceTooShort(track.name, SIDES[run % 2]!, lengthMm, plan.supplies.minimumPiece)),
    ]
  })
}

/** The pieces of existing track are not known. */
function unknownRailAssumptions(
  joins: readonly TrackToJoin[],
  joined: readonly JoinedEnds[],
  inWeather: boolean,
): Assumption[] {
  if (!inWeather) return []
  return joins.flatMap(({ track, index }, place) =>
    joined[place]!.existing.map((end) => ({
      field: `/tracks/${index}/joinsExisting/${end}`,
      value: 'the rail beyond the joint expands as much as the rail on this side',
      reason: `for the gap at the ${end} of ${track.name}: the length of the rail beyond it is not known`,
    })),
  )
}

/** With trim, a length on sale may leave nothing after its ends are cut off. */
function notEnoughRail({ missingMm, trimmed }: { readonly missingMm: number; readonly trimmed: boolean }): Fault {
  return {
    path: ['supplies', 'sticks'],
    code: 'too-little-rail',
    detail: trimmed
      ? `once bent pieces are trimmed the sticks are not enough for the rails: a piece of ${formatMm(missingMm)} cannot be cut`
      : `the sticks on hand are not enough for the rails: a piece of ${formatMm(missingMm)} cannot be cut from what is left`,
    hint: trimmed
      ? 'allow a longer length to be bought, or do not trim the ends'
      : 'allow a length to be bought ("buyable": true), or correct what is on hand',
  }
}
