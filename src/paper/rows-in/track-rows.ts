import { excerpt } from '../../measure/excerpt.ts'
import type { Fault } from '../../measure/fault.ts'
import { type ColumnRead, cellValue } from './cell-value.ts'
import { decimalSignOf } from './decimal-signs.ts'
import { ANGLE_UNITS, COLUMN_NAMES, headerOf, LENGTH_UNITS, LENGTHS } from './header.ts'
import {
  LONGEST_CELL,
  MOST_COLUMNS,
  type Sheet,
  type SheetCell,
  type SheetFault,
  sheetFault,
  tooManyColumns,
} from './sheet.ts'

/** A track read from a table. */
export interface TrackRows {
  /** As in a plan; values that could not be read are left out. */
  readonly elements: readonly Record<string, unknown>[]
  /** Faults of the table itself. */
  readonly faults: readonly SheetFault[]
  /** A fault of an element at its place in the table; null if it has already been reported. */
  readonly inTable: (element: number, field: string | null, fault: Fault) => SheetFault | null
}

/**
 * Reads a track from rows: a header with `kind` and any of `length`, `radius`, `diameter`, `angle`, `turn` and `label`
 * in any order, then a row for each element. A header may contain the unit of its column: `length (ft)`; a cell may
 * contain its own. A number without a unit is millimetres, an angle degrees. Blank rows, and columns without a header
 * and without content, are skipped.
 */
export function trackRows({ rows: all, usualSign }: Sheet): TrackRows {
  const headerRow = all.findIndex((row) => row.length > 0)
  if (headerRow < 0) return refused(sheetFault(0, null, 'missing', 'the table is empty', HEADER_HINT))
  const wide = all.findIndex((row) => row.length > MOST_COLUMNS)
  if (wide >= 0) return refused(tooManyColumns(wide, all[wide]!.length - 1))
  const { columns, faults } = readHeader(all, headerRow)
  if (faults.length > 0) return refused(...faults)
  const rows = all
    .map((cells, row) => ({ cells, row }))
    .slice(headerRow + 1)
    .filter(({ cells }) => cells.length > 0)
  if (rows.length === 0)
    return refused(
      sheetFault(headerRow + 1, null, 'too-few', 'there is no row below the header', 'write a row for each element'),
    )

  const measures = columns.filter(({ name }) => isMeasure(name))
  const sign = decimalSignOf(
    rows.flatMap(({ cells }) => measures.map(({ index }) => cells[index] ?? null)).filter((cell) => !isLong(cell)),
    usualSign,
  )
  const bad = new Set<string>()
  const found: SheetFault[] = []
  const elements = rows.map(({ cells, row }, element) => {
    const read: Record<string, unknown> = {}
    for (const column of columns) {
      const value = cellValue(cells[column.index] ?? null, column, sign)
      if ('fault' in value) {
        found.push(sheetFault(row, column.index, ...value.fault))
        bad.add(`${element} ${column.name}`)
      } else if (value.value !== undefined) read[column.name] = value.value
    }
    return read
  })
  return {
    elements,
    faults: found,
    inTable: (element, field, fault) => {
      const isReported = (name: string) => bad.has(`${element} ${name}`)
      if (
        field !== null &&
        (isReported(field) || (fault.code === 'missing' && isReported(IN_ITS_PLACE.get(field) ?? '')))
      )
        return null
      const column = columns.find(({ name }) => name === field)
      const { code, detail, hint } = column ? inTableTerms(fault, column, elements[element]!) : fault
      const what = column || field === null ? detail : `${field}: ${detail}`
      return sheetFault(rows[element]!.row, column?.index ?? null, code, what, hint)
    },
  }
}

/** Fields that may be given instead of others: if one could not be read, the other is not reported as missing. */
const IN_ITS_PLACE: ReadonlyMap<string, string> = new Map([
  ['angle', 'length'],
  ['radius', 'diameter'],
])

/** In a table every element has every column, though some cells stay empty. */
function inTableTerms(fault: Fault, { name }: ColumnRead, { kind }: Record<string, unknown>): Omit<Fault, 'path'> {
  const { code, detail } = fault
  if (code === 'unknown-field') return { code, detail: `a ${kind} has no ${name}`, hint: 'leave the cell empty' }
  if (code === 'missing' && name === 'kind')
    return { code, detail, hint: 'fill it in; or if this is not an element, leave the row empty' }
  return fault
}

const HEADER_HINT = 'the first row names the columns: kind, length, radius or diameter, angle, turn, label'

function readHeader(sheet: Sheet['rows'], headerRow: number): { columns: ColumnRead[]; faults: SheetFault[] } {
  const columns: ColumnRead[] = []
  const faults: SheetFault[] = []
  const cells = sheet[headerRow]!
  const width = Math.max(...sheet.map((row) => row.length))
  for (let index = 0; index < width; index++) {
    const cell = cells[index] ?? null
    const fault = (code: string, detail: string, hint: string) =>
      faults.push(sheetFault(headerRow, index, code, detail, hint))
    if (cell === null) {
      const used = sheet.findIndex((row) => (row[index] ?? null) !== null)
      if (used >= 0) fault('missing', `the column has no name, but row ${used + 1} is not empty`, HEADER_HINT)
      continue
    }
    const written = typeof cell === 'object' ? `a ${cell.hides}` : String(cell)
    const { name, unit } = headerOf(written)
    if (!COLUMN_NAMES.has(name)) {
      const meant = [...LENGTHS].find((each) => name.startsWith(each))
      const hint = meant === undefined ? HEADER_HINT : `write the unit in brackets, such as ${meant} (ft)`
      fault('unknown-field', `"${excerpt(written)}" is not a column name`, hint)
    } else if (columns.some((column) => column.name === name))
      fault('contradictory', `there are two ${name} columns`, 'keep one of them')
    else if (unit !== null && !unitFits(name, unit))
      fault(
        'unknown-value',
        `${name} cannot be in "${excerpt(unit)}"`,
        LENGTHS.has(name) ? 'use mm, cm, m, ft or in' : name === 'angle' ? 'angles are in deg' : 'it has no unit',
      )
    else columns.push({ name, index, unit })
  }
  if (faults.length === 0 && !columns.some(({ name }) => name === 'kind'))
    faults.push(sheetFault(headerRow, null, 'missing', 'there is no kind column', HEADER_HINT))
  return { columns, faults }
}

function unitFits(name: string, unit: string): boolean {
  return LENGTHS.has(name) ? LENGTH_UNITS.has(unit) : name === 'angle' && ANGLE_UNITS.has(unit)
}

function isLong(cell: SheetCell): boolean {
  return typeof cell === 'string' && cell.length > LONGEST_CELL
}

function isMeasure(name: string): boolean {
  return LENGTHS.has(name) || name === 'angle'
}

function refused(...faults: SheetFault[]): TrackRows {
  return { elements: [], faults, inTable: () => null }
}
