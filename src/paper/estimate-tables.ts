import type { Estimate, EstimatePart } from '../estimate/answer.ts'
import { type LengthsIn, type Table, tableOf } from './table.ts'
import { BEND_COLUMNS, bendRows } from './tables/bends.ts'
import { BILL_COLUMNS, billRows } from './tables/bill.ts'
import { CUT_COLUMNS, MARK_COLUMNS, markRows, pieceRows } from './tables/cutting.ts'
import { EARTHWORK_COLUMNS, earthworkRows } from './tables/earthworks.ts'
import { ELEMENT_COLUMNS, elementRows } from './tables/elements.ts'
import { ENVELOPE_COLUMNS, envelopeRows } from './tables/envelope.ts'
import { FINDING_COLUMNS } from './tables/findings.ts'
import { JOINT_COLUMNS } from './tables/joints.ts'
import { OVER_CROSSING_COLUMNS, overCrossingRows } from './tables/over-crossings.ts'
import { PEG_COLUMNS, pegRows } from './tables/pegs.ts'
import { READY_MADE_COLUMNS, readyMadeRows } from './tables/ready-made.ts'
import { STANDING_COLUMNS, standingRows } from './tables/standing.ts'
import { TIE_LEVEL_COLUMNS, tieLevelRows } from './tables/tie-levels.ts'
import { EFFECTIVE_GRADE_COLUMNS, effectiveGradeRows, TRAIN_COLUMNS, trainRows } from './tables/trains.ts'
import { TURNOUT_COLUMNS, turnoutRows } from './tables/turnouts.ts'
import { WAY_COLUMNS, wayRows } from './tables/ways.ts'

/** The tables of an estimate by their names in addresses, in the order of a workbook's sheets. */
export const ESTIMATE_TABLES = {
  elements: (estimate, lengthsIn) => tableOf('elements', 'Elements', ELEMENT_COLUMNS, elementRows(estimate), lengthsIn),
  bends: (estimate, lengthsIn) => tableOf('bends', 'Bends', BEND_COLUMNS, bendRows(estimate), lengthsIn),
  'cut-list': (estimate, lengthsIn) => tableOf('cut-list', 'Cut list', CUT_COLUMNS, pieceRows(estimate), lengthsIn),
  'bend-marks': (estimate, lengthsIn) =>
    tableOf('bend-marks', 'Bend marks', MARK_COLUMNS, markRows(estimate), lengthsIn),
  'ready-made': (estimate, lengthsIn) =>
    tableOf('ready-made', 'Ready-made track', READY_MADE_COLUMNS, readyMadeRows(estimate), lengthsIn),
  turnouts: (estimate, lengthsIn) => tableOf('turnouts', 'Turnouts', TURNOUT_COLUMNS, turnoutRows(estimate), lengthsIn),
  ways: (estimate, lengthsIn) => tableOf('ways', 'Ways', WAY_COLUMNS, wayRows(estimate), lengthsIn),
  standing: (estimate, lengthsIn) =>
    tableOf('standing', 'Standing room', STANDING_COLUMNS, standingRows(estimate), lengthsIn),
  earthworks: (estimate, lengthsIn) =>
    tableOf('earthworks', 'Earthworks', EARTHWORK_COLUMNS, earthworkRows(estimate), lengthsIn),
  envelope: (estimate, lengthsIn) =>
    tableOf('envelope', 'Room beside the track', ENVELOPE_COLUMNS, envelopeRows(estimate), lengthsIn),
  'over-crossings': (estimate, lengthsIn) =>
    tableOf('over-crossings', 'Over-crossings', OVER_CROSSING_COLUMNS, overCrossingRows(estimate), lengthsIn),
  trains: (estimate, lengthsIn) => tableOf('trains', 'Trains', TRAIN_COLUMNS, trainRows(estimate), lengthsIn),
  'effective-grades': (estimate, lengthsIn) =>
    tableOf('effective-grades', 'Effective grades', EFFECTIVE_GRADE_COLUMNS, effectiveGradeRows(estimate), lengthsIn),
  'tie-levels': (estimate, lengthsIn) =>
    tableOf('tie-levels', 'Tie levels', TIE_LEVEL_COLUMNS, tieLevelRows(estimate), lengthsIn),
  pegs: (estimate, lengthsIn) => tableOf('pegs', 'Pegs', PEG_COLUMNS, pegRows(estimate), lengthsIn),
  joints: (estimate, lengthsIn) => tableOf('joints', 'Joints', JOINT_COLUMNS, estimate.joints, lengthsIn),
  bill: (estimate, lengthsIn) => tableOf('bill', 'Shopping list', BILL_COLUMNS, billRows(estimate), lengthsIn),
  findings: (estimate, lengthsIn) => tableOf('findings', 'Findings', FINDING_COLUMNS, estimate.findings, lengthsIn),
} as const satisfies Record<string, (estimate: Estimate, lengthsIn: LengthsIn) => Table>

export type TableName = keyof typeof ESTIMATE_TABLES

export const TABLE_NAMES = Object.keys(ESTIMATE_TABLES) as readonly TableName[]

/** The parts of an estimate that each table shows. */
export const PARTS_OF_TABLE: Readonly<Record<TableName, readonly EstimatePart[]>> = {
  elements: ['tracks'],
  bends: ['bends'],
  'cut-list': ['cutting'],
  'bend-marks': ['cutting'],
  'ready-made': ['readyMade', 'tracks'],
  turnouts: ['tracks'],
  ways: ['ways'],
  standing: ['standing'],
  earthworks: ['tracks'],
  envelope: ['envelope'],
  'over-crossings': ['overCrossings'],
  trains: ['trains'],
  'effective-grades': ['tracks'],
  'tie-levels': ['tieLevels'],
  pegs: ['pegOuts'],
  joints: ['joints'],
  bill: ['bill'],
  findings: ['findings'],
}
