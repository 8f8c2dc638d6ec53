import type { Fault } from '../../measure/fault.ts'
import { unprotected } from '../csv.ts'
import { type ColumnRead, cellValue } from './cell-value.ts'
import { decimalSignOf } from './decimal-signs.ts'
import { arcFault, elementOfRow, type OwnTrack, ownTracks } from './own-tracks.ts'
import {
  inSheet,
  LONGEST_CELL,
  MOST_COLUMNS,
  type Sheet,
  type SheetCell,
  type SheetFault,
  sheetFault,
  tooManyColumns,
} from './sheet.ts'
import { HEADER_HINT, readHeader } from './track-header.ts'

/** A track read from a table, or the tracks of this service's own table of elements. */
export interface TrackRows {
  /** As in a plan; values that could not be read are left out. */
  readonly elements: readonly Record<string, unknown>[]
  /** The tracks that the elements belong to, in order; null: one track, of which the table says nothing more. */
  readonly tracks: readonly OwnTrack[] | null
  /** The names of columns that were not read, because they are the sender's own. */
  readonly ignored: readonly string[]
  /** Faults of the table itself. */
  readonly faults: readonly SheetFault[]
  /** A fault of an element at its place in the table; null if it has already been reported. */
  readonly inTable: (element: number, field: string | null, fault: Fault) => SheetFault | null
}

/**
 * Reads a track from rows: a header with `kind` and any of `length`, `radius`, `diameter`, `degree` with
 * `chord`, `angle`, `turn` and `label` in any order, then a row for each element. A header may contain the unit of its column: `length (ft)`; a cell may
 * contain its own. A number without a unit is millimetres, an angle degrees. Rows above the header, blank rows, and
 * columns without a header and without content are skipped, and so are columns of the sender's own.
 */
export function trackRows(sheet: Sheet): TrackRows {
  const { rows: all } = sheet
  const refused = (...faults: SheetFault[]): TrackRows => ({
    ...{ elements: [], tracks: null, ignored: [], inTable: () => null },
    faults: faults.map((fault) => inSheet(fault, sheet)),
  })
  const wide = all.findIndex((row) => row.length > MOST_COLUMNS)
  if (wide >= 0) return refused(tooManyColumns(wide, all[wide]!.length - 1))
  const header = readHeader(all)
  if (header === null) return refused(sheetFault(0, null, 'missing', 'the table is empty', HEADER_HINT))
  const { columns, ignored, isOwn } = header
  if (header.faults.length > 0) return refused(...header.faults)
  const rows = all
    .map((cells, row) => ({ cells, row }))
    .slice(header.row + 1)
    .filter(({ cells }) => cells.length > 0)
  if (rows.length === 0)
    return refused(
      sheetFault(header.row + 1, null, 'too-few', 'there is no row below the header', 'write a row for each element'),
    )

  const measures = columns.filter(({ kind }) => kind === 'length' || kind === 'angle')
  const sign = decimalSignOf(
    rows.flatMap(({ cells }) => measures.map(({ index }) => cells[index] ?? null)).filter((cell) => !isLong(cell)),
    sheet.usualSign,
  )
  const bad = new Set<string>()
  const found: SheetFault[] = []
  const isProtected = isOwn && sheet.name === null
  const read = rows.map(({ cells, row }, element) => {
    const values: Record<string, unknown> = {}
    const fault = (column: ColumnRead, ...why: readonly [code: string, detail: string, hint: string]) => {
      found.push(sheetFault(row, column.index, ...why))
      bad.add(`${element} ${column.name}`)
    }
    for (const column of columns) {
      const cell = cells[column.index] ?? null
      const value = cellValue(isProtected && typeof cell === 'string' ? unprotected(cell) : cell, column, sign)
      if ('fault' in value) fault(column, ...value.fault)
      else if (value.value !== undefined) values[column.name] = value.value
    }
    const wrong = isOwn ? arcFault(values) : null
    if (wrong) fault(columns.find(({ name }) => name === 'length')!, ...wrong)
    return values
  })
  const has = (column: string) => columns.some(({ name }) => name === column)
  const notOurs = isOwn
    ? []
    : [...(has('name') && !read.some(hasName) ? ['name'] : []), ...(has('chord') && !has('degree') ? ['chord'] : [])]
  const elements = isOwn ? read.map(elementOfRow) : read.map((values) => without(values, notOurs))
  return {
    elements,
    tracks: isOwn ? ownTracks(read) : null,
    ignored: [...ignored, ...notOurs],
    faults: found.map((fault) => inSheet(fault, sheet)),
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
      return inSheet(sheetFault(rows[element]!.row, column?.index ?? null, code, what, hint), sheet)
    },
  }
}

/** The values of a row without columns that are the sender's own: names where nothing has one, chords without a degree. */
function without(values: Record<string, unknown>, columns: readonly string[]): Record<string, unknown> {
  return columns.length === 0
    ? values
    : Object.fromEntries(Object.entries(values).filter(([name]) => !columns.includes(name)))
}

/** Only these have names; in a table without them a column of names is the sender's own. */
function hasName({ kind }: Record<string, unknown>): boolean {
  return kind === 'turnout' || kind === 'crossing'
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
  if (code === 'unknown-value' && name === 'type') return { code, detail, hint: KINDS_OF_TURNOUT }
  if (code === 'missing' && name === 'kind')
    return { code, detail, hint: 'fill it in; or if this is not an element, leave the row empty' }
  return fault
}

const KINDS_OF_TURNOUT =
  'a table of elements does not describe kinds of turnout: send the plan as JSON, with turnoutTypes, or paste the rows into a plan on the page that has them'

function isLong(cell: SheetCell): boolean {
  return typeof cell === 'string' && cell.length > LONGEST_CELL
}
