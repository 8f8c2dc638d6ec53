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
 * The pages of a drawing that have some of its lines on them, whichever way round takes fewer. Pages meet edge to edge.
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
  const [upright, across] = [false, true].map((landscape): Tiling => {
    const { widthMm, heightMm } = room(paper, landscape)
    const tiles = touched(lines, bounds, widthMm * scale, heightMm * scale)
    return { landscape, widthMm, heightMm, tiles }
  }) as [Tiling, Tiling]
  return across.tiles.length < upright.tiles.length ? across : upright
}

/** The tiles of a grid around the middle of a drawing that its lines lead over, in the order of reading. */
function touched(lines: readonly (readonly Point[])[], bounds: Bounds, wideMm: number, highMm: number): Tile[] {
  const columns = Math.max(1, Math.ceil((bounds.maxXMm - bounds.minXMm) / wideMm))
  const rows = Math.max(1, Math.ceil((bounds.maxYMm - bounds.minYMm) / highMm))
  const { minXMm, maxYMm } = aroundMiddle(bounds, columns * wideMm, rows * highMm)
  const found = new Map<string, Tile>()
  for (const line of lines)
    for (const [index, to] of line.entries()) {
      const from = line[index - 1] ?? to
      // Along a line no tile is missed that has more than an eighth of its shorter side of it.
      const steps = Math.max(
        1,
        Math.ceil(Math.hypot(to.xMm - from.xMm, to.yMm - from.yMm) / (Math.min(wideMm, highMm) / 8)),
      )
      for (let step = index === 0 ? steps : 1; step <= steps; step++) {
        const share = step / steps
        const column = Math.min(columns - 1, Math.floor((from.xMm + (to.xMm - from.xMm) * share - minXMm) / wideMm))
        const row = Math.min(rows - 1, Math.floor((maxYMm - from.yMm - (to.yMm - from.yMm) * share) / highMm))
        const key = `${column} ${row}`
        if (found.has(key)) continue
        const left = minXMm + column * wideMm
        const top = maxYMm - row * highMm
        found.set(key, {
          ...{ column, row },
          bounds: { minXMm: left, maxXMm: left + wideMm, minYMm: top - highMm, maxYMm: top },
        })
      }
    }
  return [...found.values()].sort((a, b) => a.row - b.row || a.column - b.column)
}
