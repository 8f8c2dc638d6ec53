import { type Cell as BookCell, type CellStyle, type WriteSheet, writeXlsx } from 'hucre/xlsx'
import { headerHeight, headerOnEachPage, heightOf, ON_PAPER, widthOf } from './sheet-layout.ts'
import type { Cell, ColumnKind, Table } from './table.ts'

/** Characters that XML 1.0 does not have. */
const NOT_IN_XML = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu

/** The longest text in a cell of Excel. */
const LONGEST_TEXT = 32_767

/** What a reader of a workbook takes for an escaped character: `_x000D_`. */
const CHARACTER_BY_NUMBER = /_(?=x[\dA-Fa-f]{4}_)/g

/** Indented, to keep a distance from a number that ends where the text begins. */
const TEXT_ALIGNMENT = { wrapText: true, horizontal: 'left', indent: 1 } as const

/** The format keeps a cell a text when it is entered again. */
const TEXT: CellStyle = { numFmt: '@', alignment: { ...TEXT_ALIGNMENT, vertical: 'top' } }

const AS_IT_IS: CellStyle = { alignment: { vertical: 'top' } }
const WHOLE: CellStyle = { ...AS_IT_IS, numFmt: '0' }
const MEASURE: CellStyle = { ...AS_IT_IS, numFmt: '0.0##' }
const MONEY: CellStyle = { ...AS_IT_IS, numFmt: '0.00' }

/** A measure closer than this to a whole number differs from it only by rounding. */
const NOISE = 1e-5

/** The same workbook always has the same bytes. */
const WRITTEN = new Date(0)

const FONT = { name: 'Arial', size: 10 }
const BOLD = { ...FONT, bold: true }
const TEXT_HEADER: CellStyle = { font: BOLD, alignment: { ...TEXT_ALIGNMENT, vertical: 'bottom' } }
const NUMBER_HEADER: CellStyle = {
  font: BOLD,
  alignment: { wrapText: true, horizontal: 'right', vertical: 'bottom' },
}

/**
 * A workbook with a sheet for each table: numbers as numbers, texts as texts whatever they begin with, the header in
 * bold, frozen, and on each page. Characters that a workbook cannot hold are removed, line ends are those of a cell,
 * and texts are cut at the limit of a cell.
 */
export async function workbookOf(tables: readonly Table[]): Promise<Uint8Array<ArrayBuffer>> {
  const bytes = await writeXlsx({
    properties: { creator: 'Longchord', created: WRITTEN, modified: WRITTEN },
    defaultFont: FONT,
    namedRanges: tables.map(headerOnEachPage),
    sheets: tables.map(sheetOf),
  })
  return new Uint8Array(bytes)
}

function sheetOf({ title, columns, rows }: Table): WriteSheet {
  const widths = columns.map((column, index) => widthOf(column, rows, index))
  const heights = [headerHeight(columns, widths), ...rows.map((row) => heightOf(row, widths))]
  const cells = new Map<string, Partial<BookCell>>()
  for (const [index, column] of columns.entries())
    cells.set(`0,${index}`, { type: 'string', value: column.title, style: headerOf(column.kind) })
  for (const [row, values] of rows.entries())
    for (const [index, value] of values.entries())
      if (value !== null) cells.set(`${row + 1},${index}`, cellOf(value, columns[index]!.kind))
  return {
    name: title,
    columns: widths.map((width) => ({ width })),
    rowDefs: new Map(heights.map((height, row) => [row, { height }])),
    freezePane: { rows: 1 },
    ...ON_PAPER,
    cells,
  }
}

function headerOf(kind: ColumnKind): CellStyle {
  return kind === 'text' ? TEXT_HEADER : NUMBER_HEADER
}

function cellOf(value: NonNullable<Cell>, kind: ColumnKind): Partial<BookCell> {
  if (kind === 'money') return { type: 'number', value: Number(value), style: MONEY }
  if (typeof value === 'number') return { type: 'number', value: value === 0 ? 0 : value, style: styleOf(value) }
  return textCell(value)
}

function textCell(text: string): Partial<BookCell> {
  const held = text.replace(/\r\n?/g, '\n').slice(0, LONGEST_TEXT).replace(NOT_IN_XML, '')
  const written = held.replace(CHARACTER_BY_NUMBER, '_x005F_')
  // The library writes an error for a text such as #N/A, unless it is rich text.
  if (written.startsWith('#')) return { type: 'richText', value: written, richText: [{ text: written }], style: TEXT }
  return { type: 'string', value: written, style: TEXT }
}

/**
 * Measures are shown to thousandths and stored in full. Whole ones have no format: a format without trailing zeros
 * would still show the decimal point.
 */
function styleOf(value: number): CellStyle {
  if (Number.isInteger(value)) return AS_IT_IS
  return Math.abs(value - Math.round(value)) < NOISE ? WHOLE : MEASURE
}
