import type { Estimate } from '../estimate/answer.ts'
import { ELEMENTS_SHEET } from './rows-in/sheet.ts'
import { type LengthsIn, type Table, tableOf } from './table.ts'
import { bendFormRows, FORM_COLUMNS, MEASURE_COLUMNS, measureRows } from './tables/bends.ts'
import { billFoot, billRows, SHEET_BILL_COLUMNS } from './tables/bill.ts'
import { CUT_COLUMNS, MARK_COLUMNS, markRows, pieceRows } from './tables/cutting.ts'
import { EARTHWORK_COLUMNS, earthworkRows } from './tables/earthworks.ts'
import { elementRows, RAIL_COLUMNS, SHEET_ELEMENT_COLUMNS } from './tables/elements.ts'
import { FINDING_COLUMNS } from './tables/findings.ts'
import { JOINT_COLUMNS } from './tables/joints.ts'
import { OVER_CROSSING_COLUMNS, overCrossingRows } from './tables/over-crossings.ts'
import { READY_MADE_COLUMNS, readyMadeRows } from './tables/ready-made.ts'
import { STANDING_COLUMNS, standingRows } from './tables/standing.ts'
import { TRAIN_COLUMNS, trainRows } from './tables/trains.ts'
import { TURNOUT_COLUMNS, turnoutRows } from './tables/turnouts.ts'
import { WAY_COLUMNS, wayRows } from './tables/ways.ts'

/**
 * The sheets of a workbook, for people: the list first, what is wide in two, and nothing empty. The columns of the first
 * ones are those of the tables of the same name.
 */
export function workbookTables(estimate: Estimate, lengthsIn: LengthsIn): Table[] {
  const elements = elementRows(estimate)
  const bill = tableOf('bill', 'Shopping list', SHEET_BILL_COLUMNS, billRows(estimate), lengthsIn)
  const sheets = [
    { ...bill, foot: billFoot(estimate, bill.columns) },
    tableOf('cut-list', 'Cut list', CUT_COLUMNS, pieceRows(estimate), lengthsIn),
    tableOf('bend-marks', 'Bend marks', MARK_COLUMNS, markRows(estimate), lengthsIn),
    tableOf('bends-form', 'Bends, form', FORM_COLUMNS, bendFormRows(estimate), lengthsIn),
    tableOf('bends-measure', 'Bends, measure', MEASURE_COLUMNS, measureRows(estimate), lengthsIn),
    tableOf('ready-made', 'Ready-made track', READY_MADE_COLUMNS, readyMadeRows(estimate), lengthsIn),
    tableOf('turnouts', 'Turnouts', TURNOUT_COLUMNS, turnoutRows(estimate), lengthsIn),
    tableOf('standing', 'Standing room', STANDING_COLUMNS, standingRows(estimate), lengthsIn),
    tableOf('earthworks', 'Earthworks', EARTHWORK_COLUMNS, earthworkRows(estimate), lengthsIn),
    tableOf('over-crossings', 'Over-crossings', OVER_CROSSING_COLUMNS, overCrossingRows(estimate), lengthsIn),
    tableOf('trains', 'Trains', TRAIN_COLUMNS, trainRows(estimate), lengthsIn),
    tableOf('joints', 'Joints', JOINT_COLUMNS, estimate.joints, lengthsIn),
    tableOf('elements', ELEMENTS_SHEET, SHEET_ELEMENT_COLUMNS, elements, lengthsIn),
    tableOf('rails', 'Rails and ends', RAIL_COLUMNS, elements, lengthsIn),
    tableOf('ways', 'Ways', WAY_COLUMNS, hasTurnouts(estimate) ? wayRows(estimate) : [], lengthsIn),
    tableOf('findings', 'Findings', FINDING_COLUMNS, estimate.findings, lengthsIn),
  ]
  return sheets.filter(({ rows }) => rows.length > 0).map(withoutEmptyColumns)
}

/** Without turnouts every track is a way. */
function hasTurnouts({ tracks }: Estimate): boolean {
  return tracks.some(({ elements }) => elements.some(({ turnout }) => turnout))
}

function withoutEmptyColumns(table: Table): Table {
  const { columns, rows, foot = [] } = table
  const kept = columns.flatMap((_, index) => (rows.some((row) => row[index] !== null) ? [index] : []))
  const pick = <T>(cells: readonly T[]) => kept.map((index) => cells[index]!)
  return { ...table, columns: pick(columns), rows: rows.map(pick), foot: foot.map(pick) }
}
