import type { Bounds } from '../page/drawing/view.ts'
import type { Paper } from '../paper/pdf/blocks.ts'
import { pageSize } from '../paper/pdf/pen.ts'
import { FOOT_PT, MARGIN_PT, POINTS_PER_MM } from '../paper/pdf/sizes.ts'
import type { Point } from '../track/sample.ts'

/** A page's part of a drawing. */
export interface Tile {
  readonly bounds: Bounds
  /** From 0, from the left and from the top. */
  readonly column: number
  readonly row: number
}

export interface Tiling {
  readonly landscape: boolean
  readonly tiles: readonly Tile[]
  /** Of each tile on paper. */
  readonly widthMm: number
  readonly heightMm: number
}

/** The most pages of a drawing; more are refused. */
export const MOST_PAGES = 200

/** What a page has beside the drawing: its heading, and below it the scale. */
const BESIDE_MM = 30

/** The room for a drawing on a page, mm. */
export function roomOn(paper: Paper, landscape: boolean): { widthMm: number; heightMm: number } {
  const { widthPt, heightPt } = pageSize(paper, landscape)
  return {
    widthMm: (widthPt - 2 * MARGIN_PT) / POINTS_PER_MM,
    heightMm: (heightPt - 2 * MARGIN_PT - FOOT_PT) / POINTS_PER_MM - BESIDE_MM,
  }
}

/** White around a drawing, mm on paper: for labels. */
const AROUND_MM = { aside: 5, above: 10 }

/** Whether a drawing fits on a page, and if so on which way round; upright if on both. */
export function fitsUpright(bounds: Bounds, scale: number, paper: Paper): { landscape: boolean } | null {
  for (const landscape of [false, true]) {
    const room = roomOn(paper, landscape)
    const wideMm = (bounds.maxXMm - bounds.minXMm) / scale + 2 * AROUND_MM.aside
    const highMm = (bounds.maxYMm - bounds.minYMm) / scale + 2 * AROUND_MM.above
    if (wideMm <= room.widthMm && highMm <= room.heightMm) return { landscape }
  }
  return null
}

/** The one page of a drawing that fits: only as high as it has to be. */
export function onePage(bounds: Bounds, scale: number, paper: Paper, landscape: boolean): Tiling {
  const { widthMm } = roomOn(paper, landscape)
  const heightMm = (bounds.maxYMm - bounds.minYMm) / scale + 2 * AROUND_MM.above
  const own = aroundMiddle(bounds, widthMm * scale, heightMm * scale)
  return { landscape, widthMm, heightMm, tiles: [{ bounds: own, column: 0, row: 0 }] }
}

function aroundMiddle({ minXMm, maxXMm, minYMm, maxYMm }: Bounds, wideMm: number, highMm: number): Bounds {
  const [x, y] = [(minXMm + maxXMm) / 2, (minYMm + maxYMm) / 2]
  return { minXMm: x - wideMm / 2, maxXMm: x + wideMm / 2, minYMm: y - highMm / 2, maxYMm: y + highMm / 2 }
}

/**
 * The pages of a drawing that have some of its lines on them, whichever way round takes fewer; the grid of pages is moved
 * a little where that saves some. Pages meet edge to edge.
 *
 * @param lines polygons, whose corners may be far apart
 * @param room of a page; by default that of a page with a heading and a scale
 */
export function tilesOf(
  lines: readonly (readonly Point[])[],
  bounds: Bounds,
  scale: number,
  paper: Paper,
  room = roomOn,
): Tiling {
  const all = [false, true].map((landscape): Tiling => {
    const { widthMm, heightMm } = room(paper, landscape)
    const [wideMm, highMm] = [widthMm * scale, heightMm * scale]
    let tiles = touched(lines, gridAround(bounds, wideMm, highMm, 0, 0))
    if (tiles.length <= MOST_PAGES)
      for (const right of SHIFTS)
        for (const down of SHIFTS) {
          const moved = touched(lines, gridAround(bounds, wideMm, highMm, right, down))
          if (moved.length < tiles.length) tiles = moved
        }
    return { landscape, widthMm, heightMm, tiles }
  })
  return all[1]!.tiles.length < all[0]!.tiles.length ? all[1]! : all[0]!
}

/** Shares of a page that the grid is moved by. */
const SHIFTS = [-0.4, -0.2, 0, 0.2, 0.4]

interface Grid {
  readonly minXMm: number
  readonly maxYMm: number
  readonly wideMm: number
  readonly highMm: number
  readonly columns: number
}

/** Pages around the middle of a drawing, moved by these shares of a page. */
function gridAround(bounds: Bounds, wideMm: number, highMm: number, right: number, down: number): Grid {
  const columns = Math.max(1, Math.ceil((bounds.maxXMm - bounds.minXMm) / wideMm))
  const rows = Math.max(1, Math.ceil((bounds.maxYMm - bounds.minYMm) / highMm))
  const { minXMm, maxYMm } = aroundMiddle(bounds, (columns + 2) * wideMm, (rows + 2) * highMm)
  return { minXMm: minXMm + right * wideMm, maxYMm: maxYMm - down * highMm, wideMm, highMm, columns: columns + 2 }
}

/** The pages that lines lead over, in the order of reading. Lines that lead over less than a fortieth of a page's side may be missed. */
function touched(lines: readonly (readonly Point[])[], { minXMm, maxYMm, wideMm, highMm, columns }: Grid): Tile[] {
  const found = new Set<number>()
  const stepMm = Math.min(wideMm, highMm) / STEPS
  for (const line of lines)
    for (const [index, to] of line.entries()) {
      const from = line[index - 1] ?? to
      const steps = Math.max(1, Math.ceil(Math.hypot(to.xMm - from.xMm, to.yMm - from.yMm) / stepMm))
      for (let step = index === 0 ? steps : 1; step <= steps; step++) {
        const share = step / steps
        const column = Math.floor((from.xMm + (to.xMm - from.xMm) * share - minXMm) / wideMm)
        const row = Math.floor((maxYMm - from.yMm - (to.yMm - from.yMm) * share) / highMm)
        found.add(row * columns + column)
      }
    }
  const numbers = [...found].sort((a, b) => a - b)
  const firstColumn = Math.min(...numbers.map((number) => number % columns))
  const firstRow = Math.floor(numbers[0]! / columns)
  return numbers.map((number) => {
    const [column, row] = [number % columns, Math.floor(number / columns)]
    const left = minXMm + column * wideMm
    const top = maxYMm - row * highMm
    return {
      column: column - firstColumn,
      row: row - firstRow,
      bounds: { minXMm: left, maxXMm: left + wideMm, minYMm: top - highMm, maxYMm: top },
    }
  })
}

const STEPS = 40
