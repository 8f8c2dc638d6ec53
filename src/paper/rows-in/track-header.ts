import { excerpt } from '../../measure/excerpt.ts'
import type { ColumnRead } from './cell-value.ts'
import { isElementsTable, ownColumn } from './elements-table.ts'
import {
  ANGLE_UNITS,
  ANGLES,
  COLUMN_NAMES,
  headerOf,
  isNotInRows,
  LENGTH_UNITS,
  LENGTHS,
  mayMean,
  TEXTS,
} from './header.ts'
import { type Sheet, type SheetCell, type SheetFault, sheetFault } from './sheet.ts'

export const HEADER_HINT =
  'one row names the columns: kind, length, radius or diameter (or degree and chord), angle, turn, label'

/** The header of a table of a track. */
export interface TrackHeader {
  /** The row it is in, from 0. */
  readonly row: number
  readonly columns: readonly ColumnRead[]
  /** What columns that are not read are called: the sender's own. */
  readonly ignored: readonly string[]
  /** Whether it is the table of elements that this service gives out. */
  readonly isOwn: boolean
  readonly faults: readonly SheetFault[]
}

/** So many rows may stand above the header, such as a title. */
const MOST_TITLES = 30

/**
 * The row that names the columns: the first with a `kind` column, or else the one with the most columns of a track, or
 * the first that is not empty.
 */
function headerRowOf(rows: Sheet['rows']): number {
  const known = rows
    .slice(0, MOST_TITLES + 1)
    .map((row) => row.flatMap((cell) => (typeof cell === 'string' ? headerOf(cell).name : [])))
  const withKind = known.findIndex((names) => names.includes('kind'))
  if (withKind >= 0) return withKind
  const counts = known.map((names) => names.filter((name) => COLUMN_NAMES.has(name)).length)
  const most = Math.max(0, ...counts)
  return most > 0 ? counts.indexOf(most) : rows.findIndex((row) => row.length > 0)
}

/** Finds and reads the header; null where the table is empty. */
export function readHeader(rows: Sheet['rows']): TrackHeader | null {
  const row = headerRowOf(rows)
  if (row < 0) return null
  const cells = rows[row]!
  const names = cells.map(nameIn)
  const isOwn = isElementsTable(names)
  const columns: ColumnRead[] = []
  const ignored: string[] = []
  const faults: SheetFault[] = []
  const below = rows.slice(row)
  const width = Math.max(...below.map((each) => each.length))
  for (let index = 0; index < width; index++) {
    const fault = (...[code, detail, hint]: readonly [string, string, string]) =>
      faults.push(sheetFault(row, index, code, detail, hint))
    if ((cells[index] ?? null) === null) {
      const used = below.findIndex((each) => (each[index] ?? null) !== null)
      if (used >= 0) fault('missing', `the column has no name, but row ${row + used + 1} is not empty`, HEADER_HINT)
      continue
    }
    const read = readColumn(names[index]!, isOwn)
    if (read === 'worked-out') continue
    if ('ignored' in read) ignored.push(read.ignored)
    else if ('fault' in read) fault(...read.fault)
    else if (columns.some(({ name }) => name === read.name))
      fault('contradictory', `there are two ${read.name} columns`, 'keep one of them')
    else columns.push({ ...read, index })
  }
  if (faults.length === 0 && !columns.some(({ name }) => name === 'kind'))
    faults.push(sheetFault(row, null, 'missing', 'there is no kind column', HEADER_HINT))
  return { row, columns, ignored, isOwn, faults }
}

function nameIn(cell: SheetCell): string {
  if (cell === null) return ''
  if (typeof cell !== 'object') return String(cell)
  return 'hides' in cell ? `a ${cell.hides}` : cell.shows
}

type ReadColumn =
  | Omit<ColumnRead, 'index'>
  | 'worked-out'
  | { readonly ignored: string }
  | { readonly fault: readonly [code: string, detail: string, hint: string] }

function readColumn(written: string, isOwn: boolean): ReadColumn {
  const own = isOwn ? ownColumn(written) : undefined
  if (own !== undefined) return own
  const header = headerOf(written)
  const { name, unit } = header
  if (!COLUMN_NAMES.has(name)) return unknownColumn(written, mayMean(header), isNotInRows(header))
  if (unit === null || unitFits(name, unit)) return { name, unit, kind: kindOf(name) }
  const hint = LENGTHS.has(name) ? 'use mm, cm, m, ft or in' : ANGLES.has(name) ? 'angles are in deg' : 'it has no unit'
  return { fault: ['unknown-value', `${name} cannot be in "${excerpt(unit)}"`, hint] }
}

function unknownColumn(written: string, meant: string | null, isOfPlan: boolean): ReadColumn {
  if (meant === null && !isOfPlan) return { ignored: excerpt(written.trim()) }
  const begun = [...LENGTHS].find((name) => written.trim().toLowerCase().startsWith(name))
  const hint =
    meant === null
      ? OF_A_PLAN
      : begun === undefined
        ? `${HEADER_HINT}. If this is ${meant}, call it so; if it is a column of your own, call it something else`
        : `write the unit in brackets, such as ${begun} (ft)`
  return { fault: ['unknown-field', `"${excerpt(written)}" is not a column name`, hint] }
}

const OF_A_PLAN =
  'rows say only the elements of one track; give it where the plan has it. If it is a column of your own, call it something else'

function kindOf(name: string): ColumnRead['kind'] {
  if (LENGTHS.has(name)) return 'length'
  if (ANGLES.has(name)) return 'angle'
  return TEXTS.has(name) ? 'text' : 'word'
}

function unitFits(name: string, unit: string): boolean {
  return LENGTHS.has(name) ? LENGTH_UNITS.has(unit) : ANGLES.has(name) && ANGLE_UNITS.has(unit)
}
