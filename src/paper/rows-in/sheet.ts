import type { Fault } from '../../measure/fault.ts'

/** What stands in a cell: a number or a text; null where it is empty. `date`: what a spreadsheet made of it. */
export type SheetCell = number | string | null | { readonly date: Date } | boolean

/** Rows as they stand in the file, the header among them. */
export type Sheet = readonly (readonly SheetCell[])[]

/** A fault in a table: `path` is [row, column] from 0, for programs; row and column as a spreadsheet names them, for people. */
export interface SheetFault extends Fault {
  /** From 1. */
  readonly row: number
  /** A, B, …; null: the whole row. */
  readonly column: string | null
}

export type ReadSheet =
  | { readonly ok: true; readonly sheet: Sheet }
  | { readonly ok: false; readonly faults: readonly SheetFault[] }

/** A, B, … Z, AA, AB, … */
export function columnName(index: number): string {
  const last = String.fromCharCode(65 + (index % 26))
  return index < 26 ? last : columnName(Math.floor(index / 26) - 1) + last
}

export function sheetFault(
  row: number,
  column: number | null,
  code: string,
  detail: string,
  hint?: string | undefined,
): SheetFault {
  const place = column === null ? `row ${row + 1}` : `cell ${columnName(column)}${row + 1}`
  return {
    path: column === null ? [row] : [row, column],
    row: row + 1,
    column: column === null ? null : columnName(column),
    code,
    detail: `${place}: ${detail}`,
    hint,
  }
}

/** More rows than a plan has elements are refused before anything is read. */
export const MOST_ROWS = 6_000
export const MOST_COLUMNS = 100
