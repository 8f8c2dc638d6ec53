import type { WriteOptions, WriteSheet } from 'hucre/xlsx'
import type { Cell, Column, Table } from './table.ts'

/** Widths of cells, in characters. */
const NARROWEST = 6
const WIDEST = 50
/** What a cell needs in addition to its text, which may be indented. */
const MARGIN = 3
/** The part of a width that is certain to hold bold letters: its unit is a digit, and they are wider. */
const BOLD = 0.9

/** Height of a line of 10 point text, and the greatest height of a row, in points. */
const LINE_HEIGHT = 13
const HIGHEST = 409

/** Height of a title in 14 points, in points. */
export const TITLE_HEIGHT = 20

/** So many characters fit across an upright page of A4 or letter paper. */
const UPRIGHT = 95

/**
 * On paper: all columns on a page, across it if they need that, with lines between cells, the sheet's name and the page
 * number at the bottom. The paper size is left to the printer.
 */
export function onPaper(widths: readonly number[]): Pick<WriteSheet, 'pageSetup' | 'headerFooter'> {
  const isWide = widths.reduce((sum, width) => sum + width, 0) > UPRIGHT
  return { pageSetup: { ...PAGE, orientation: isWide ? 'landscape' : 'portrait' }, headerFooter: FOOTER }
}

const PAGE: WriteSheet['pageSetup'] = {
  fitToPage: true,
  fitToWidth: 1,
  fitToHeight: 0,
  showGridLines: true,
  margins: { left: 0.4, right: 0.4, top: 0.5, bottom: 0.7, header: 0.3, footer: 0.3 },
}

const FOOTER: WriteSheet['headerFooter'] = { oddFooter: '&L&A&RPage &P of &N' }

/** The defined name that makes a spreadsheet repeat the first rows of a sheet, up to its header, on each page. */
export function headerOnEachPage({ title }: Table, rows: number): NonNullable<WriteOptions['namedRanges']>[number] {
  return { name: '_xlnm.Print_Titles', range: `'${title.replaceAll("'", "''")}'!$1:$${rows}`, scope: title }
}

/** In characters: the width of the longest cell and the longest word of the title; longer texts are wrapped. */
export function widthOf({ title }: Column, rows: Table['rows'], index: number): number {
  const longestWord = title.split(' ').reduce((most, word) => Math.max(most, word.length), 0)
  const longest = rows.reduce((most, row) => Math.max(most, shownLength(row[index]!)), longestWord)
  return Math.max(NARROWEST, Math.min(WIDEST, longest + MARGIN))
}

/** In points: the height that the texts of a row need in columns of these widths; not every program calculates it. */
export function heightOf(row: readonly Cell[], widths: readonly number[]): number {
  const lines = row.map((cell, index) => (typeof cell === 'string' ? linesOf(cell, widths[index]! - MARGIN) : 1))
  return heightOfLines(lines)
}

/** The same for a header, which is bold. */
export function headerHeight(columns: readonly Column[], widths: readonly number[]): number {
  return heightOfLines(columns.map(({ title }, index) => linesOf(title, Math.floor((widths[index]! - 1) * BOLD))))
}

function heightOfLines(lines: readonly number[]): number {
  return Math.min(HIGHEST, LINE_HEIGHT * Math.max(...lines) + 2)
}

/** Numbers are shown to thousandths at most. */
function shownLength(cell: Cell): number {
  if (typeof cell !== 'number') return cell?.length ?? 0
  return Math.min(String(cell).length, cell.toFixed(3).length)
}

function linesOf(text: string, room: number): number {
  return text.split('\n').reduce((lines, line) => lines + wrappedLines(line.split(' '), room), 0)
}

function wrappedLines(words: readonly string[], room: number): number {
  let lines = 1
  let used = 0
  for (const { length } of words) {
    const beside = used === 0 ? length : used + 1 + length
    if (beside <= room) {
      used = beside
      continue
    }
    if (used > 0) lines += 1
    lines += Math.ceil(length / room) - 1
    used = length - room * (Math.ceil(length / room) - 1)
  }
  return lines
}
