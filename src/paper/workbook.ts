import writeExcelFile from 'write-excel-file/node'
import type { Cell, Column, ColumnKind, Table } from './table.ts'

/** Characters that XML 1.0 does not have. */
const NOT_IN_XML = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu

/** Excel holds no longer text in a cell. */
const LONGEST_TEXT = 32_767

/**
 * A workbook with a sheet for each table: numbers as numbers, texts as texts whatever they begin with, the header in bold
 * and frozen. Characters that a workbook cannot hold are left out of texts, and texts end at what a cell can hold.
 */
export function workbookOf(tables: readonly Table[]): Promise<Buffer> {
  return writeExcelFile(
    tables.map(({ title, columns, rows }) => ({
      sheet: title,
      stickyRowsCount: 1,
      columns: columns.map((column, index) => ({ width: widthOf(column, rows, index) })),
      data: [
        columns.map(({ title: header, kind }) => ({
          value: header,
          type: String,
          fontWeight: 'bold' as const,
          wrap: true,
          ...(kind !== 'text' && { align: 'right' as const }),
        })),
        ...rows.map((row) => row.map((value, index) => cellOf(value, columns[index]!.kind))),
      ],
    })),
  ).toBuffer()
}

function cellOf(value: Cell, kind: ColumnKind) {
  if (value === null) return null
  if (kind === 'money') return { value: Number(value), type: Number, format: '0.00' }
  if (typeof value === 'number') return { value: value === 0 ? 0 : value, type: Number, ...formatOf(kind) }
  return { value: value.replace(NOT_IN_XML, '').slice(0, LONGEST_TEXT), type: String }
}

/** Lengths are shown to thousandths and kept in full. */
function formatOf(kind: ColumnKind) {
  return kind === 'length' || kind === 'number' ? { format: '0.###' } : {}
}

/** In characters: what the longest of the first rows needs, within reason. */
function widthOf({ title, kind }: Column, rows: Table['rows'], index: number): number {
  if (kind !== 'text') return Math.max(9, Math.min(14, title.length))
  const longest = rows
    .slice(0, 200)
    .reduce((most, row) => Math.max(most, String(row[index] ?? '').length), title.length)
  return Math.max(8, Math.min(60, longest + 2))
}
