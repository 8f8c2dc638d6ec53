import { excerpt } from '../../measure/excerpt.ts'
import type { Fault } from '../../measure/fault.ts'
import { lettersOf } from '../../measure/letters.ts'

/** The decimal sign of a table's numbers; null: none was seen. */
export type DecimalSign = ',' | '.' | null

/** A number that its format shows as more than the number in the file, such as 600 cm or 12.50%. */
export interface ShownNumber {
  /** As shown: 12.5 where the file has 0.125. */
  readonly number: number
  /** The text behind the number; null where it is not shown as a number with a text behind it. */
  readonly unit: string | null
  readonly shows: string
}

/**
 * The content of a cell: a number or a text; null where it is empty. `hides`: the input is not in the file, because the
 * spreadsheet turned it into a date, or did not calculate its formula.
 */
export type SheetCell = number | string | null | ShownNumber | { readonly hides: 'date' | 'result' } | boolean

export interface Sheet {
  /** As in the file, including the header; no row ends in empty cells, and the last one is not empty. */
  readonly rows: readonly (readonly SheetCell[])[]
  /** The decimal sign to assume if the numbers show none; null: not known. */
  readonly usualSign: DecimalSign
  /** Its name in a workbook; null: it is a table by itself. */
  readonly name: string | null
}

/**
 * A fault in a table: `path` is [row, column] from 0, for programs; row and column are named as in a spreadsheet, for
 * people.
 */
export interface SheetFault extends Fault {
  /** From 1. */
  readonly row: number
  /** A, B, …; null: the whole row. */
  readonly column: string | null
  /** The name of the sheet, in a workbook. */
  readonly sheet?: string
}

export type ReadSheet =
  | { readonly ok: true; readonly sheet: Sheet }
  | { readonly ok: false; readonly faults: readonly SheetFault[] }

export function sheetFault(
  row: number,
  column: number | null,
  code: string,
  detail: string,
  hint?: string | undefined,
): SheetFault {
  const place = column === null ? `row ${row + 1}` : `cell ${lettersOf(column)}${row + 1}`
  return {
    path: column === null ? [row] : [row, column],
    row: row + 1,
    column: column === null ? null : lettersOf(column),
    code,
    detail: `${place}: ${detail}`,
    hint,
  }
}

/** The same fault with the name of its sheet. */
export function inSheet(fault: SheetFault, { name }: Pick<Sheet, 'name'>): SheetFault {
  return name === null ? fault : { ...fault, sheet: name, detail: `sheet "${excerpt(name)}", ${fault.detail}` }
}

/** More rows than a plan may have elements are refused before anything is read. */
export const MOST_ROWS = 6_000

/** A track has seven columns; there may be some without content. */
export const MOST_COLUMNS = 100

/** No value of an element is longer. */
export const LONGEST_CELL = 1_000

export function tooManyRows(row: number): SheetFault {
  const detail = `a table may have at most ${MOST_ROWS} rows`
  return sheetFault(row, null, 'too-many', detail, 'send only the rows of the track')
}

export function tooManyColumns(row: number, column: number): SheetFault {
  const detail = `a table may have at most ${MOST_COLUMNS} columns, and this one is not empty`
  return sheetFault(row, column, 'too-many', detail, 'send only the columns of the track')
}

/** The content of a cell, without surrounding blanks. */
export function cellOf(text: string): string | null {
  return text.trim() || null
}

/** Rows without empty cells at their ends. */
export function trimmed(rows: readonly (readonly SheetCell[])[]): readonly (readonly SheetCell[])[] {
  const filled = (cell: SheetCell | undefined) => cell != null
  const short = rows.map((row) => row.slice(0, row.findLastIndex(filled) + 1))
  return short.slice(0, short.findLastIndex((row) => row.length > 0) + 1)
}

/** A cell of a workbook, which may stand for several rows and columns. */
export interface PlacedCell {
  readonly row: number
  readonly column: number
  readonly rows: number
  readonly columns: number
  readonly value: SheetCell
}

/** A sheet of a workbook from its cells, as far as a track may reach. Empty ones may reach farther, or not be there. */
export function sheetOfCells(cells: Iterable<PlacedCell>, name: string): ReadSheet {
  const found: SheetCell[][] = []
  for (const { row, column, rows, columns, value } of cells) {
    if (value === null) continue
    const [lastRow, lastColumn] = [row + rows - 1, column + columns - 1]
    if (lastRow >= MOST_ROWS) return { ok: false, faults: [inSheet(tooManyRows(lastRow), { name })] }
    if (lastColumn >= MOST_COLUMNS) return { ok: false, faults: [inSheet(tooManyColumns(row, lastColumn), { name })] }
    for (let at = row; at <= lastRow; at++) {
      const cells = found[at] ?? []
      for (let n = column; n <= lastColumn; n++) cells[n] = value
      found[at] = cells
    }
  }
  const whole = Array.from(found, (row) => Array.from(row ?? [], (cell) => cell ?? null))
  return { ok: true, sheet: { rows: trimmed(whole), usualSign: null, name } }
}

/** The sheet that a workbook of this service's own has for elements. */
export const ELEMENTS_SHEET = 'Elements'

/** The sheet to read: the one for elements, or the first that is not hidden. */
export function chosenSheet<S extends { readonly name: string; readonly isHidden: boolean }>(
  sheets: readonly S[],
): S | undefined {
  const visible = sheets.filter(({ isHidden }) => !isHidden)
  return visible.find(({ name }) => name.toLowerCase() === ELEMENTS_SHEET.toLowerCase()) ?? visible[0] ?? sheets[0]
}
