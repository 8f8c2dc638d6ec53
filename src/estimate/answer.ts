import { BEND } from '../bending/bends.ts'
import { CALIBRATION_ANSWER, EASEMENT_FORMING } from '../bending/forming/types.ts'
import { PLAN_FINDING } from '../checking/finding.ts'
import { BILL } from '../laying/bill.ts'
import { CUTTING } from '../laying/cutting.ts'
import { ENVELOPE } from '../network/envelope-answer.ts'
import { OVER_CROSSING } from '../network/over-crossing-answer.ts'
import { FOULING_POINT, STANDING } from '../network/standing-answer.ts'
import { WAY } from '../network/ways-answer.ts'
import {
  type Answer,
  component,
  type Declared,
  flag,
  list,
  nullable,
  type OptionalAnswer,
  optional,
  part,
  text,
} from '../plan/fields/answer.ts'
import { ASSUMPTION } from '../plan/fields/assumption.ts'
import { POWER, RAIL_SUMMARY, ROADBED } from './bill/answer.ts'
import { PEGGED_PLACE, PLACED_PEG } from './pegs/answer.ts'
import { READY_MADE } from './ready-made/answer.ts'
import { EXTENT, TRACK } from './track/answer.ts'
import { EXPANSION, JOINT } from './track/joints-answer.ts'
import { TIE_LEVELS } from './track/tie-levels.ts'
import { TRAIN_ANSWER } from './trains/answer.ts'

export type { Bend, Ordinates } from '../bending/bends.ts'
export type { CalibrationAnswer, EasementForming } from '../bending/forming/types.ts'
export type { Finding, PlanFinding } from '../checking/finding.ts'
export type { Bill, BillLine } from '../laying/bill.ts'
export type { BendMark, CutPiece, CutStick, Cutting } from '../laying/cutting.ts'
export type { JointKind } from '../laying/joints.ts'
export type { FoulingPointAnswer, StandingAnswer } from '../network/standing-answer.ts'
export type { FeedAnswer, PowerAnswer, RailSummary, RoadbedAnswer, SectionPropertiesAnswer } from './bill/answer.ts'
export type { EarthStretch, EarthworksAnswer } from './earthworks/answer.ts'
export type { CoveredStretchAnswer, ReadyMadeAnswer, UsedPanelAnswer } from './ready-made/answer.ts'
export type { ElementAnswer, PoseAnswer, TrackAnswer } from './track/answer.ts'
export type { ExpansionAnswer, JointAnswer } from './track/joints-answer.ts'
export type { EffectiveGradeAnswer, HaulAnswer, TrainAnswer } from './trains/answer.ts'

export const ESTIMATE = component('Estimate', 'The estimate of a plan.', {
  title: nullable(text()),
  rail: RAIL_SUMMARY,
  tracks: list(TRACK),
  extent: EXTENT,
  bends: list(BEND),
  easements: list(EASEMENT_FORMING, 'Both rails of each easement.'),
  calibration: nullable(CALIBRATION_ANSWER, 'What the test bends of the plan determine; null if it has none.'),
  cutting: CUTTING,
  readyMade: nullable(READY_MADE, 'Null if the plan lists no ready-made track.'),
  joints: list(JOINT, 'All joints, by track, station and rail.'),
  expansion: nullable(EXPANSION, 'Null if the plan has no climate.'),
  bill: BILL,
  roadbed: nullable(ROADBED, 'Null if the plan has no roadbed.'),
  power: nullable(
    POWER,
    'Null if the trains take no power from the rails, or the resistivity of the metal is unknown.',
  ),
  ways: list(
    WAY,
    'Every way a train can take through the tracks without reversing, once; a track that joins no other is a way by itself.',
  ),
  standing: optional(list(STANDING, 'Only if the plan has cars or standards.trackSpacing: where cars stand clear.')),
  foulingPoints: optional(list(FOULING_POINT, 'With standing: where cars stand clear of each turnout and crossing.')),
  overCrossings: optional(list(OVER_CROSSING, 'Only if a track passes over another, or over itself.')),
  trains: optional(
    list(
      TRAIN_ANSWER,
      'Only if trains say what they weigh and what drives them: what their engines take up the grades.',
    ),
  ),
  envelope: optional(
    list(ENVELOPE, 'Only if fields names it, and the plan has cars: how far they reach along every track.'),
  ),
  pegs: optional(list(PLACED_PEG, 'Only if the plan has pegs: where they are.')),
  pegOuts: optional(list(PEGGED_PLACE, 'With pegs: places of every track that is not to be lifted, from two of them.')),
  tieLevels: optional(
    part(TIE_LEVELS, 'Only if fields names it: the elevation of every tie, and how far it is above the ground.'),
  ),
  waysComplete: flag('False if there are more ways than are listed: more than 500, or too many to look for.'),
  findings: list(PLAN_FINDING),
  assumptions: list(ASSUMPTION),
  cautions: list(text()),
})

export type Estimate = Answer<typeof ESTIMATE>

/** A part of an estimate, by its name at the top of the answer. */
export type EstimatePart = keyof typeof ESTIMATE.fields

export const ESTIMATE_PARTS = Object.keys(ESTIMATE.fields) as readonly EstimatePart[]

/** What an estimate has if nothing else is asked for. */
export const PARTS_OF_WHOLE = ESTIMATE_PARTS.filter((part) => part !== 'envelope' && part !== 'tieLevels')

/** What is shown of a plan whose ground is known. */
export const PARTS_ON_GROUND: readonly EstimatePart[] = [...PARTS_OF_WHOLE, 'tieLevels']

type Fields = typeof ESTIMATE.fields
type OptionalParts = {
  readonly [P in EstimatePart]: Fields[P] extends OptionalAnswer<infer D> ? OptionalAnswer<D> : OptionalPart<Fields[P]>
}
type OptionalPart<F> = F extends Declared ? OptionalAnswer<F> : never

export const PARTIAL_ESTIMATE = component(
  'PartialEstimate',
  'The parts of an estimate that the request names in fields.',
  Object.fromEntries(
    Object.entries(ESTIMATE.fields).map(([name, field]) => [name, field.is === 'optional' ? field : optional(field)]),
  ) as OptionalParts,
)

/** These parts alone, in the order of an estimate. */
export function partsOf(estimate: Estimate, parts: readonly EstimatePart[]): Partial<Estimate> {
  const wanted = new Set<string>(parts)
  return Object.fromEntries(Object.entries(estimate).filter(([name]) => wanted.has(name)))
}
