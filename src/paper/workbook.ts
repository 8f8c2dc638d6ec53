import { type Cell as BookCell, type CellStyle, type WriteSheet, writeXlsx } from 'hucre/xlsx'
import type { Cell, Column, ColumnKind, Table } from './table.ts'

/** Characters that XML 1.0 does not have. */
const NOT_IN_XML = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu

/** Excel holds no longer text in a cell. */
const LONGEST_TEXT = 32_767

/** What a reader of a workbook takes for a character by its number: `_x000D_`. */
const CHARACTER_BY_NUMBER = /_(?=x[\dA-Fa-f]{4}_)/g

/** Keeps a cell a text when somebody enters it anew. */
const TEXT: CellStyle = { numFmt: '@' }

/** The same workbook always has the same bytes. */
const WRITTEN = new Date(0)

const HEADER: CellStyle = { font: { bold: true }, alignment: { wrapText: true, vertical: 'top' } }

/**
 * A workbook with a sheet for each table: numbers as numbers, texts as texts whatever they begin with, the header in bold
 * and frozen. Characters that a workbook cannot hold are left out of texts, lines end as they do in a cell, and texts end at
 * what a cell can hold.
 */
export async function workbookOf(tables: readonly Table[]): Promise<Uint8Array<ArrayBuffer>> {
  const bytes = await writeXlsx({
    properties: { creator: 'Longchord', created: WRITTEN, modified: WRITTEN },
    sheets: tables.map(sheetOf),
  })
  return new Uint8Array(bytes)
}

function sheetOf({ title, columns, rows }: Table): WriteSheet {
  const cells = new Map<string, Partial<BookCell>>()
  for (const [index, column] of columns.entries())
    cells.set(`0,${index}`, { type: 'string', value: column.title, style: HEADER })
  for (const [row, values] of rows.entries())
    for (const [index, value] of values.entries())
      if (value !== null) cells.set(`${row + 1},${index}`, cellOf(value, columns[index]!.kind))
  return {
    name: title,
    columns: columns.map((column, index) => ({ width: widthOf(column, rows, index) })),
    freezePane: { rows: 1 },
    cells,
  }
}

function cellOf(value: NonNullable<Cell>, kind: ColumnKind): Partial<BookCell> {
  if (kind === 'money') return { type: 'number', value: Number(value), style: { numFmt: '0.00' } }
  if (typeof value === 'number') return { type: 'number', value: value === 0 ? 0 : value, style: styleOf(value) }
  return textCell(value)
}

function textCell(text: string): Partial<BookCell> {
  const held = text.replace(/\r\n?/g, '\n').slice(0, LONGEST_TEXT).replace(NOT_IN_XML, '')
  const written = held.replace(CHARACTER_BY_NUMBER, '_x005F_')
  // The library writes an error for a text such as #N/A, unless it is a rich one.
  if (written.startsWith('#')) return { type: 'richText', value: written, richText: [{ text: written }], style: TEXT }
  return { type: 'string', value: written, style: TEXT }
}

/**
 * Measures are shown to thousandths and kept in full. Whole ones have no format: one that leaves out zeros behind the point
 * leaves the point.
 */
function styleOf(value: number): CellStyle {
  return Number.isInteger(value) ? {} : { numFmt: '0.0##' }
}

/** In characters: what the longest of the first rows needs, within reason. */
function widthOf({ title, kind }: Column, rows: Table['rows'], index: number): number {
  if (kind !== 'text') return Math.max(9, Math.min(14, title.length))
  const longest = rows
    .slice(0, 200)
    .reduce((most, row) => Math.max(most, String(row[index] ?? '').length), title.length)
  return Math.max(8, Math.min(60, longest + 2))
}
