import type { Fault } from '../../measure/fault.ts'
import { plainDecimal } from '../../measure/plain-decimal.ts'
import { type DecimalSign, decimalSignOf, withPoint } from './decimal-signs.ts'
import { ANGLE_UNITS, COLUMN_NAMES, headerOf, LENGTH_UNITS, LENGTHS } from './header.ts'
import { MOST_COLUMNS, MOST_ROWS, type Sheet, type SheetCell, type SheetFault, sheetFault } from './sheet.ts'

/** A track that stood in a table. */
export interface TrackRows {
  /** As they would stand in a plan; what could not be read of a row is left out of it. */
  readonly elements: readonly Record<string, unknown>[]
  /** What is wrong with the table itself. */
  readonly faults: readonly SheetFault[]
  /** A fault of an element, told where it stands in the table; null where that is told already. */
  readonly inTable: (element: number, field: string | null, fault: Fault) => SheetFault | null
}

interface ColumnRead {
  readonly name: string
  readonly index: number
  readonly unit: string | null
}

/** What people call the kinds of elements, beside the names they have in a plan. */
const KINDS: Readonly<Record<string, string>> = { straight: 'tangent', curve: 'arc' }

/**
 * Reads a track of rows: a header with `kind` and any of `length`, `radius`, `diameter`, `angle`, `turn` and `label` in any
 * order, then a row for each element. A header may carry the unit of its column: `length (ft)`; a cell may carry its own. A
 * number without either is millimetres, an angle degrees. Blank rows, and columns without a header and without content, are
 * passed over.
 */
export function trackRows(sheet: Sheet): TrackRows {
  const headerRow = sheet.findIndex((row) => row.some((cell) => cell !== null))
  if (headerRow < 0) return refused(sheetFault(0, null, 'missing', 'the table is empty', HEADER_HINT))
  if (sheet.length > MOST_ROWS)
    return refused(sheetFault(MOST_ROWS, null, 'too-many', `${MOST_ROWS} rows are the most`))
  const { columns, faults } = readHeader(sheet, headerRow)
  if (faults.length > 0) return refused(...faults)
  const rows = sheet
    .map((cells, row) => ({ cells, row }))
    .slice(headerRow + 1)
    .filter(({ cells }) => cells.some((cell) => cell !== null))
  if (rows.length === 0)
    return refused(
      sheetFault(headerRow + 1, null, 'too-few', 'there is no row below the header', 'write a row for each element'),
    )

  const sign = decimalSignOf(
    rows.map(({ cells }) => columns.filter(({ name }) => isMeasure(name)).map(({ index }) => cells[index] ?? null)),
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
    inTable: (element, field, { code, detail, hint }) => {
      if (field !== null && bad.has(`${element} ${field}`)) return null
      const column = columns.find(({ name }) => name === field)
      const row = rows[element]!.row
      const what = column || field === null ? detail : `${field}: ${detail}`
      return sheetFault(row, column?.index ?? null, code, what, hint)
    },
  }
}

const HEADER_HINT = 'the first row names the columns: kind, length, radius or diameter, angle, turn, label'

function readHeader(sheet: Sheet, headerRow: number): { columns: ColumnRead[]; faults: SheetFault[] } {
  const columns: ColumnRead[] = []
  const faults: SheetFault[] = []
  const cells = sheet[headerRow]!
  const width = Math.max(...sheet.map((row) => row.length))
  if (width > MOST_COLUMNS)
    return {
      columns,
      faults: [sheetFault(headerRow, MOST_COLUMNS, 'too-many', `${MOST_COLUMNS} columns are the most`)],
    }
  for (let index = 0; index < width; index++) {
    const cell = cells[index] ?? null
    const fault = (code: string, detail: string, hint: string) =>
      faults.push(sheetFault(headerRow, index, code, detail, hint))
    if (cell === null) {
      const used = sheet.findIndex((row) => (row[index] ?? null) !== null)
      if (used >= 0) fault('missing', `the column has no name, and row ${used + 1} has something in it`, HEADER_HINT)
      continue
    }
    const { name, unit } = headerOf(String(cell))
    if (!COLUMN_NAMES.has(name))
      fault('unknown-field', `"${String(cell).slice(0, 40)}" is not the name of a column here`, HEADER_HINT)
    else if (columns.some((column) => column.name === name))
      fault('contradictory', `there are two columns ${name}`, 'keep one of them')
    else if (unit !== null && !unitFits(name, unit))
      fault(
        'unknown-value',
        `${name} cannot be in "${unit}"`,
        LENGTHS.has(name) ? 'use mm, cm, m, ft or in' : name === 'angle' ? 'angles are in deg' : 'it has no unit',
      )
    else columns.push({ name, index, unit })
  }
  if (faults.length === 0 && !columns.some(({ name }) => name === 'kind'))
    faults.push(sheetFault(headerRow, null, 'missing', 'there is no column kind', HEADER_HINT))
  return { columns, faults }
}

function unitFits(name: string, unit: string): boolean {
  return LENGTHS.has(name) ? unit in LENGTH_UNITS : name === 'angle' && ANGLE_UNITS.has(unit)
}

function isMeasure(name: string): boolean {
  return LENGTHS.has(name) || name === 'angle'
}

type Value = { readonly value: unknown } | { readonly fault: [code: string, detail: string, hint: string] }

function cellValue(cell: SheetCell, { name, unit }: ColumnRead, sign: DecimalSign): Value {
  if (cell === null) return { value: undefined }
  if (typeof cell === 'object')
    return {
      fault: [
        'wrong-type',
        'the spreadsheet has made a date of what was typed',
        'give the cell the format of text before you type 1-3/4',
      ],
    }
  if (typeof cell === 'boolean') return { fault: ['wrong-type', 'there is true or false', `write the ${name}`] }
  if (name === 'label') return { value: String(cell) }
  if (name === 'kind' || name === 'turn') {
    const word = String(cell).toLowerCase()
    return { value: name === 'kind' ? (KINDS[word] ?? word) : word }
  }
  if (typeof cell === 'number') return measure(cell, name, unit)
  const text = withPoint(cell, sign)
  if (text === null)
    return {
      fault: [
        'bad-number',
        `"${cell.slice(0, 40)}" can be read in two ways: with a decimal sign, or as thousands`,
        'write numbers with a decimal point and without signs between thousands',
      ],
    }
  const bare = name === 'angle' ? text.replace(/\s*(°|deg|degrees?)$/i, '') : text
  return /^-?(?:\d+(?:\.\d+)?|\.\d+)$/.test(bare) ? measure(Number(bare), name, unit) : { value: text }
}

function measure(value: number, name: string, unit: string | null): Value {
  const written = LENGTHS.has(name) && unit !== null ? LENGTH_UNITS[unit]! : 'mm'
  return { value: name === 'angle' || written === 'mm' ? value : `${plainDecimal(value)} ${written}` }
}

function refused(...faults: SheetFault[]): TrackRows {
  return { elements: [], faults, inTable: () => null }
}
