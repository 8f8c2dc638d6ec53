import { type Cell as BookCell, type CellStyle, type WriteSheet, writeXlsx } from 'hucre/xlsx'
import { type Origin, originLine } from './origin.ts'
import { headerHeight, headerOnEachPage, heightOf, onPaper, TITLE_HEIGHT, widthOf } from './sheet-layout.ts'
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
/** By the places of the currency. */
const MONEY: readonly CellStyle[] = ['0', '0.0', '0.00', '0.000', '0.0000'].map((numFmt) => ({ ...AS_IT_IS, numFmt }))

/** A measure closer than this to a whole number differs from it only by rounding. */
const NOISE = 1e-5

/** The same workbook always has the same bytes. */
const WRITTEN = new Date(0)

const FONT = { name: 'Arial', size: 10 }
const BOLD = { ...FONT, bold: true }
const TITLE: CellStyle = { font: { ...FONT, size: 14, bold: true } }
const ORIGIN: CellStyle = { font: FONT, numFmt: '@' }
const TEXT_HEADER: CellStyle = { font: BOLD, alignment: { ...TEXT_ALIGNMENT, vertical: 'bottom' } }
const NUMBER_HEADER: CellStyle = {
  font: BOLD,
  alignment: { wrapText: true, horizontal: 'right', vertical: 'bottom' },
}

/**
 * A workbook with a sheet for each table: numbers as numbers, texts as texts whatever they begin with, the header in
 * bold, frozen, and on each page, below its title and where it comes from. Characters that a workbook cannot hold are
 * removed, line ends are those of a cell, and texts are cut at the limit of a cell.
 *
 * @param origin null: there are no rows above the header
 */
export async function workbookOf(
  tables: readonly Table[],
  origin: Origin | null = null,
): Promise<Uint8Array<ArrayBuffer>> {
  const above = origin === null ? 0 : TITLE_ROWS
  const bytes = await writeXlsx({
    properties: { creator: 'Longchord', created: WRITTEN, modified: WRITTEN },
    defaultFont: FONT,
    namedRanges: tables.map((table) => headerOnEachPage(table, above + 1)),
    sheets: tables.map((table) => sheetOf(table, origin)),
  })
  return new Uint8Array(bytes)
}

/** The title and the origin. */
const TITLE_ROWS = 2

function sheetOf({ title, columns, rows, foot = [] }: Table, origin: Origin | null): WriteSheet {
  const widths = columns.map((column, index) => widthOf(column, [...rows, ...foot], index))
  const cells = new Map<string, Partial<BookCell>>()
  const heights = origin === null ? [] : [TITLE_HEIGHT, heightOf([], widths)]
  if (origin !== null) {
    cells.set('0,0', { type: 'string', value: title, style: TITLE })
    cells.set('1,0', { ...textCell(originLine(origin)), style: ORIGIN })
  }
  const header = heights.length
  for (const [index, column] of columns.entries())
    cells.set(`${header},${index}`, { type: 'string', value: column.title, style: headerOf(column.kind) })
  heights.push(headerHeight(columns, widths), ...[...rows, ...foot].map((row) => heightOf(row, widths)))
  for (const [row, values] of [...rows, ...foot].entries())
    for (const [index, value] of values.entries()) {
      if (value === null) continue
      const cell = cellOf(value, columns[index]!.kind)
      const isSum = row >= rows.length
      cells.set(`${header + 1 + row},${index}`, isSum ? { ...cell, style: { ...cell.style, font: BOLD } } : cell)
    }
  return {
    name: title,
    columns: widths.map((width) => ({ width })),
    rowDefs: new Map(heights.map((height, row) => [row, { height }])),
    // One cell across the sheet, so that no lines cross the title on paper.
    merges: columns.length < 2 ? [] : Array.from({ length: header }, (_, row) => across(row, columns.length)),
    freezePane: { rows: header + 1 },
    ...onPaper(widths),
    cells,
  }
}

function across(row: number, columns: number) {
  return { startRow: row, startCol: 0, endRow: row, endCol: columns - 1 }
}

function headerOf(kind: ColumnKind): CellStyle {
  return kind === 'text' ? TEXT_HEADER : NUMBER_HEADER
}

function cellOf(value: NonNullable<Cell>, kind: ColumnKind): Partial<BookCell> {
  if (kind === 'money') return { type: 'number', value: Number(value), style: MONEY[decimalsIn(String(value))]! }
  if (typeof value === 'number') return { type: 'number', value: value === 0 ? 0 : value, style: styleOf(value) }
  return textCell(value)
}

function decimalsIn(money: string): number {
  return money.split('.')[1]?.length ?? 0
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
