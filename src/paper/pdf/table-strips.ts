import { sum } from '../../measure/sum.ts'
import type { Block, Cell, Row, Run } from './blocks.ts'
import { extentOf, type Line, linesOf, type Measure } from './lines.ts'
import type { TypeSize } from './sizes.ts'
import { type Strip, strip } from './strip.ts'

type Table = Block & { readonly is: 'table' }

/** Around the text of a cell, pt. */
const ASIDE = 3
const ABOVE = 1.5

/** A row for each strip. Its head is repeated on each page; no row stands alone at the end of one or the start of the next. */
export function tableStrips(
  pen: Measure,
  { caption, head, body, foot }: Table,
  type: TypeSize,
  widthPt: number,
): Strip[] {
  const rows = [inBold(unspanned(head)), unspanned(body), inBold(unspanned(foot))]
  const widths = columnWidths(pen, rows.flat(), type, widthPt)
  const [heads, bodies, feet] = rows.map((each) => each.map((row) => rowStrip(pen, row, type, widths))) as [
    Strip[],
    Strip[],
    Strip[],
  ]
  const titles = [...captionStrips(pen, caption, type, widthPt), ...heads]
  const all = [...bodies, ...feet].map((row, index) => {
    const last = bodies.length - 1
    const keepNext = index === 0 || index === last - 1 || (index >= last && feet.length > 0)
    return { ...row, again: titles, keepNext: keepNext && index < bodies.length + feet.length - 1 }
  })
  return [...titles.map((title) => ({ ...title, keepNext: true })), ...all].map((each, index) => ({
    ...each,
    abovePt: index === 0 ? type.above : 0,
  }))
}

function captionStrips(pen: Measure, caption: readonly Run[], { size, leading }: TypeSize, widthPt: number): Strip[] {
  if (caption.length === 0) return []
  const runs = caption.map((run) => ({ ...run, bold: true }))
  return linesOf(pen, runs, size, widthPt).map((line) =>
    strip(leading + 2, (on, x, y) => {
      for (const part of line.parts) on.text(part.run, x + part.x, y + size, size)
    }),
  )
}

function inBold(rows: readonly Row[]): Row[] {
  return rows.map((row) => row.map((cell) => ({ ...cell, runs: cell.runs.map((run) => ({ ...run, bold: true })) })))
}

/** Cells that reach over several rows, with an empty cell where they reach to. */
function unspanned(rows: readonly Row[]): Row[] {
  const reaching = new Map<string, number>()
  return rows.map((row, index) => {
    const cells: Cell[] = []
    let column = 0
    const fill = () => {
      for (let wide = reaching.get(`${index} ${column}`); wide; wide = reaching.get(`${index} ${column}`)) {
        cells.push({ runs: [], columns: wide, rows: 1 })
        column += wide
      }
    }
    for (const cell of row) {
      fill()
      for (let below = 1; below < cell.rows; below++) reaching.set(`${index + below} ${column}`, cell.columns)
      cells.push(cell)
      column += cell.columns
    }
    fill()
    return cells
  })
}

/**
 * As wide as the longest line of each column where the page has room for all; otherwise each as wide as its longest word,
 * with what is left shared by what they would like to have more.
 */
function columnWidths(pen: Measure, rows: readonly Row[], { size }: TypeSize, widthPt: number): number[] {
  const least: number[] = []
  const most: number[] = []
  for (const row of rows) {
    let column = 0
    for (const { runs, columns } of row) {
      if (columns === 1) {
        const extent = extentOf(pen, runs, size)
        least[column] = Math.max(least[column] ?? 0, extent.least + 2 * ASIDE)
        most[column] = Math.max(most[column] ?? 0, extent.most + 2 * ASIDE)
      }
      column += columns
    }
    for (let each = 0; each < column; each++) {
      least[each] ??= 0
      most[each] ??= 0
    }
  }
  const total = sum(most)
  if (total <= widthPt) return most
  const needed = sum(least)
  if (needed >= widthPt) return least.map((width) => (width * widthPt) / needed)
  const share = (widthPt - needed) / (total - needed)
  return least.map((width, column) => width + (most[column]! - width) * share)
}

function rowStrip(pen: Measure, row: Row, { size, leading }: TypeSize, widths: readonly number[]): Strip {
  let column = 0
  let left = 0
  const cells = row.map(({ runs, columns }): { x: number; lines: Line[] } => {
    const width = sum(widths.slice(column, column + columns))
    const cell = { x: left + ASIDE, lines: linesOf(pen, runs, size, width - 2 * ASIDE) }
    column += columns
    left += width
    return cell
  })
  const height = Math.max(1, ...cells.map(({ lines }) => lines.length)) * leading + 2 * ABOVE
  return strip(height, (on, x, y) => {
    for (const { x: at, lines } of cells)
      for (const [index, { parts }] of lines.entries())
        for (const part of parts) on.text(part.run, x + at + part.x, y + ABOVE + size * 0.95 + index * leading, size)
    on.line(x, y + height, x + left, y + height)
  })
}
