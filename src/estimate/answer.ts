import { BEND } from '../bending/bends.ts'
import { CALIBRATION_ANSWER, EASEMENT_FORMING } from '../bending/forming/types.ts'
import { FINDING } from '../checking/finding.ts'
import { BILL } from '../laying/bill.ts'
import { CUTTING } from '../laying/cutting.ts'
import { type Answer, component, list, nullable, text } from '../plan/fields/answer.ts'
import { ASSUMPTION } from '../plan/fields/assumption.ts'
import { POWER, RAIL_SUMMARY, ROADBED } from './bill/answer.ts'
import { READY_MADE } from './ready-made/answer.ts'
import { TRACK } from './track/answer.ts'
import { EXPANSION, JOINT } from './track/joints-answer.ts'

export type { Bend, Ordinates } from '../bending/bends.ts'
export type { CalibrationAnswer, EasementForming } from '../bending/forming/types.ts'
export type { Finding } from '../checking/finding.ts'
export type { Bill, BillLine } from '../laying/bill.ts'
export type { BendMark, CutPiece, CutStick, Cutting } from '../laying/cutting.ts'
export type { JointKind } from '../laying/joints.ts'
export type { FeedAnswer, PowerAnswer, RailSummary, RoadbedAnswer, SectionPropertiesAnswer } from './bill/answer.ts'
export type { CoveredStretchAnswer, ReadyMadeAnswer, UsedPanelAnswer } from './ready-made/answer.ts'
export type { ElementAnswer, PoseAnswer, TrackAnswer } from './track/answer.ts'
export type { ExpansionAnswer, JointAnswer } from './track/joints-answer.ts'

export const ESTIMATE = component('Estimate', 'The answer to a plan.', {
  title: nullable(text()),
  rail: RAIL_SUMMARY,
  tracks: list(TRACK),
  bends: list(BEND),
  easements: list(EASEMENT_FORMING, 'Both rails of each.'),
  calibration: nullable(CALIBRATION_ANSWER, "What the plan's own test bends told; null without any."),
  cutting: CUTTING,
  readyMade: nullable(READY_MADE, 'Null where the plan lists no ready-made track.'),
  joints: list(JOINT, 'Every joint, by track, station and rail.'),
  expansion: nullable(EXPANSION, 'Null where the plan says nothing of the weather.'),
  bill: BILL,
  roadbed: nullable(ROADBED, 'Null where the plan asks for none.'),
  power: nullable(POWER, 'Null where no current comes from the rails, or the metal is not known well enough.'),
  findings: list(FINDING),
  assumptions: list(ASSUMPTION),
  cautions: list(text()),
})

export type Estimate = Answer<typeof ESTIMATE>
