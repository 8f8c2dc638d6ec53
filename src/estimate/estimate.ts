import type { Fault } from '../measure/fault.ts'
import { faultsInUnits } from '../measure/in-units.ts'
import { envelopeAnswer } from '../network/envelope-answer.ts'
import { networkOf } from '../network/network.ts'
import { type OverCrossingAnswers, overCrossingAnswers } from '../network/over-crossing-answer.ts'
import { type StandingAnswers, standingAnswers } from '../network/standing-answer.ts'
import { NO_WAYS, type WaysAnswer, waysAnswer } from '../network/ways-answer.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import { extentOf } from '../track/extent.ts'
import { type Estimate, type EstimatePart, PARTS_OF_WHOLE, type TrackAnswer } from './answer.ts'
import { type BendsOfPlan, bendingOf } from './bending.ts'
import { cautionsFor } from './cautions.ts'
import { cuttingAnswer } from './cutting/cutting-answer.ts'
import type { LaidOut } from './cutting/lay-out.ts'
import type { EarthworksAnswer } from './earthworks/answer.ts'
import { deepestMm, earthworksOfAll, formationOf } from './earthworks/earthworks.ts'
import { notEnoughRail } from './faults/not-enough-rail.ts'
import { type PegAnswers, pegAnswers } from './pegs/pegged-places.ts'
import { pegAssumptions } from './pegs/placed-pegs.ts'
import { preparePlan } from './plan.ts'
import { chooseReadyMade } from './ready-made/choose-ready-made.ts'
import { elementsCovered, readyMadeAnswer } from './ready-made/ready-made-answer.ts'
import { withoutRemedies, withRemedies } from './remedies/remedies.ts'
import { inUnitsOfPlan } from './sentences.ts'
import { laidAssumptions } from './stages/assume.ts'
import { billAll } from './stages/bill-all.ts'
import { check } from './stages/check.ts'
import { type Laid, layTracks } from './stages/lay-tracks.ts'
import { bendsOfBuilt } from './track/bends-of-built.ts'
import { clearanceMm, crossingsOfPlan } from './track/crossings-of-plan.ts'
import { expansionAnswer, jointAnswers } from './track/expansion.ts'
import type { LaidTrack } from './track/laid-track.ts'
import { roomOfPlan } from './track/room-of-plan.ts'
import { standingOfPlan } from './track/standing-of-plan.ts'
import { tieLevels } from './track/tie-levels.ts'
import { type TrackCounts, trackAnswer } from './track/track-answer.ts'
import { type EffectiveGradeOf, effectiveGrades } from './trains/effective-grade.ts'
import { type TrainAnswers, trainAnswers } from './trains/trains-answer.ts'
import { trainsOfPlan } from './trains/trains-of-plan.ts'

export interface EstimateWanted {
  /** Those that will be read; others may be left empty, if that saves work. All but what only `fields` asks for when left out. */
  readonly parts?: readonly EstimatePart[] | undefined
  /** The same plan as it was sent; without it no remedies are looked for. */
  readonly sent?: unknown
}

/**
 * Works out a plan, stage by stage: its defaults are filled in, its tracks laid, covered with ready-made pieces and cut,
 * its rails bent, everything billed, and all of it checked. A pure function: the same plan gives the same answer to the
 * last byte.
 *
 * @param input a plan without faults (see `planFaults`)
 * @returns the estimate, or why none can be made (too little rail on hand and none to buy)
 */
export function estimate(
  input: PlanInput,
  { parts = PARTS_OF_WHOLE, sent }: EstimateWanted = {},
): { ok: true; estimate: Estimate } | { ok: false; faults: Fault[] } {
  const wanted = (...any: EstimatePart[]) => any.some((part) => parts.includes(part))
  const completed = preparePlan(input)
  const bending = bendingOf(completed.plan)
  if (!bending.ok) return { ok: false, faults: faultsInUnits(bending.faults, input.units) }

  const laid = layTracks(completed.plan, bending.ofPlan)
  const { plan, site } = laid
  const chosen = chooseReadyMade(site)
  if (!chosen.ok) return { ok: false, faults: faultsInUnits([notEnoughRail(chosen.short)], input.units) }
  const { laidOut } = chosen

  const bent = wanted('bends', 'easements', 'findings', 'cautions')
    ? bending.bendsOf(site.laid, laidOut.divided.plan, elementsCovered(laidOut.covered))
    : NOTHING_BENT
  const ofTurnouts = bent === NOTHING_BENT ? [] : bendsOfBuilt(site.built.rails, site.laid, bending.ofPlan)
  const expansion = wanted('expansion', 'findings') ? expansionAnswer(plan, site.laid) : null
  const joints = wanted('joints', 'findings') ? jointAnswers(laidOut.joints, laidOut.gaps, site.laid) : []
  const billed = billAll(laid, laidOut)
  const ways = wanted('ways', 'waysComplete') ? waysOf(laid) : NO_WAYS
  const standing = wanted('standing', 'foulingPoints') ? standingOf(laid) : {}
  const earthworks = wanted('tracks', 'cautions') ? earthworksOfAll(laid.drawn, plan) : []
  const over = wanted('overCrossings') ? overCrossingsOf(laid) : {}
  const trains: TrainAnswers = wanted('trains') ? trainAnswers(laid.drawn, laid.plan) : {}
  const pegs: PegAnswers = wanted('pegs', 'pegOuts') ? pegAnswers(laid.drawn, input.pegs ?? []) : {}
  const effective = wanted('tracks') ? effectiveGrades(laid.drawn, laid.plan) : []
  const checked = () => {
    const findings = check({ laid, laidOut, bending, bent, expansion, joints, billed })
    return sent === undefined ? withoutRemedies(findings) : withRemedies(findings, input, plan, sent, findAll)
  }

  return {
    ok: true,
    estimate: inUnitsOfPlan(
      {
        title: plan.title,
        rail: laid.rail,
        tracks: wanted('tracks') ? tracksOf(laid, laidOut, earthworks, effective) : [],
        extent: extentOf(laid.drawn.flatMap(({ placed }) => placed))!,
        bends: [...bent.bends, ...ofTurnouts],
        easements: bent.easements,
        calibration: bending.calibration,
        cutting: cuttingAnswer(laidOut.cuts, site.laid, laidOut.divided, plan.supplies.currency, {
          withSticks: wanted('cutting'),
          built: site.built.rails,
        }),
        readyMade: readyMadeAnswer(chosen, site.laid, plan),
        joints,
        expansion,
        bill: billed.bill,
        roadbed: billed.roadbed,
        power: billed.power,
        ways: ways.ways,
        ...standing,
        ...over,
        ...trains,
        ...pegs,
        ...(wanted('envelope') && envelopeOf(laid)),
        ...(wanted('tieLevels') && { tieLevels: tieLevels(laid.drawn, plan) }),
        waysComplete: ways.complete,
        findings: wanted('findings') ? checked() : [],
        assumptions: [
          ...completed.assumptions,
          ...laidAssumptions(laid, completed.plan),
          ...(formationOf(plan)?.assumptions ?? []),
          ...trainsOfPlan(plan).assumptions,
          ...pegAssumptions(input.pegs ?? []),
        ],
        cautions: cautionsFor(
          plan,
          laid.rail.massKg,
          plan.climate !== null && plan.joints.held,
          bent.bends.some(({ readyMade, forming }) => !readyMade && forming.method === 'spring-in'),
          deepestMm(earthworks),
          trainsOfPlan(plan).trains.map(({ drive }) => drive),
        ),
      },
      input,
    ),
  }
}

function findAll(input: PlanInput): Estimate['findings'] | null {
  const worked = estimate(input, { parts: ['findings'] })
  return worked.ok ? worked.estimate.findings : null
}

const NOTHING_BENT: BendsOfPlan = { bends: [], easements: [], leftOut: [] }

function waysOf({ plan: { standards, fleet }, drawn }: Laid): WaysAnswer {
  return waysAnswer(networkOf(drawn, standards), standards.minimumTangentBetweenReverseCurves, fleet.cars)
}

function standingOf({ plan, drawn }: Laid): StandingAnswers {
  const found = standingOfPlan(drawn, plan)
  return found ? standingAnswers(found.network, found.room, found.stock) : {}
}

function envelopeOf({ plan, drawn }: Laid): Pick<Estimate, 'envelope'> {
  return plan.cars.length === 0 ? {} : { envelope: envelopeAnswer(roomOfPlan(drawn, plan).lines, drawn) }
}

function overCrossingsOf({ plan, drawn }: Laid): OverCrossingAnswers {
  return overCrossingAnswers(crossingsOfPlan(drawn, plan).bridges, drawn, clearanceMm(plan))
}

/** Every track of the plan; only what is new takes ties and joints. */
function tracksOf(
  { plan, drawn, site: { laid } }: Laid,
  { needs, ofTrack }: LaidOut,
  earthworks: readonly (EarthworksAnswer | null)[],
  effective: readonly EffectiveGradeOf[],
): TrackAnswer[] {
  return drawn.map((track, at) => {
    const ofGround = earthworks[at] && { earthworks: earthworks[at] }
    const answer = (of: LaidTrack, counts: TrackCounts) => ({
      ...trackAnswer(of, plan.tracks[at]!.elements, counts, plan),
      ...ofGround,
      ...effective[at],
    })
    const index = laid.indexOf(track)
    if (index < 0) return answer(track, { ties: 0, tieSpacingMm: plan.supplies.ties.spacing, jointTies: 0, joints: 0 })
    const { ties, tieSpacingMm, jointTies } = needs[index]!
    return answer(track, { ties, tieSpacingMm, jointTies, joints: ofTrack[index]!.length })
  })
}
