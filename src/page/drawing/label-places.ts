import type { Spot } from './view.ts'

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

const CELL = 4

/** What of a drawing is taken already, on a grid of small squares; labels go where it is still free. */
export class TakenSpace {
  private readonly columns: number
  private readonly rows: number
  private readonly taken: Uint8Array

  constructor(width: number, height: number) {
    this.columns = Math.ceil(width / CELL)
    this.rows = Math.ceil(height / CELL)
    this.taken = new Uint8Array(this.columns * this.rows)
  }

  take(box: Box): void {
    this.eachCell(box, (cell) => {
      this.taken[cell] = 1
      return true
    })
  }

  /** A line as thick as given, so that no label stands on the track. */
  takeLine(spots: readonly Spot[], thickness: number): void {
    for (const [index, to] of spots.entries()) {
      const from = spots[index - 1] ?? to
      const steps = Math.min(5000, Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / CELL)))
      for (let step = 1; step <= steps; step++) {
        const x = from.x + ((to.x - from.x) * step) / steps
        const y = from.y + ((to.y - from.y) * step) / steps
        this.take({ x: x - thickness / 2, y: y - thickness / 2, width: thickness, height: thickness })
      }
    }
  }

  /** Inside the drawing, and nothing there yet. */
  isFree(box: Box): boolean {
    if (box.x < 2 || box.y < 2) return false
    if (box.x + box.width > this.columns * CELL - 2 || box.y + box.height > this.rows * CELL - 2) return false
    return this.eachCell(box, (cell) => this.taken[cell] === 0)
  }

  /** Visits the grid's squares under a box until one visit says no. */
  private eachCell(box: Box, visit: (cell: number) => boolean): boolean {
    const left = Math.max(0, Math.floor(box.x / CELL))
    const right = Math.min(this.columns - 1, Math.floor((box.x + box.width) / CELL))
    const top = Math.max(0, Math.floor(box.y / CELL))
    const bottom = Math.min(this.rows - 1, Math.floor((box.y + box.height) / CELL))
    for (let row = top; row <= bottom; row++)
      for (let column = left; column <= right; column++) if (!visit(row * this.columns + column)) return false
    return true
  }
}

/** A spot on a line that a label may belong to, and the direction, a unit vector, in which it steps aside. */
export interface Anchor {
  readonly spot: Spot
  readonly aside: Spot
}

export interface PlacedLabel {
  readonly box: Box
  readonly anchor: Anchor
}

/**
 * The first place that is free, trying each anchor in turn at each distance from it, nearest first; it is then taken.
 * Null where nothing is free: a label that would cover something is better left out.
 */
export function placeLabel(
  taken: TakenSpace,
  size: { readonly width: number; readonly height: number },
  anchors: readonly Anchor[],
  distances: readonly number[],
): PlacedLabel | null {
  for (const distance of distances)
    for (const { spot, aside } of anchors) {
      const reach = reachFor(aside, size, distance)
      const box = {
        x: spot.x + aside.x * reach - size.width / 2,
        y: spot.y + aside.y * reach - size.height / 2,
        ...size,
      }
      if (!taken.isFree(box)) continue
      taken.take(box)
      return { box, anchor: { spot, aside } }
    }
  return null
}

/** How far the middle of a box must go along `aside` for the box to stand off the spot by the distance. */
function reachFor(aside: Spot, size: { readonly width: number; readonly height: number }, distance: number): number {
  const clearance = (reach: number) =>
    Math.hypot(
      Math.max(0, Math.abs(aside.x) * reach - size.width / 2),
      Math.max(0, Math.abs(aside.y) * reach - size.height / 2),
    )
  let [low, high] = [0, distance + size.width + size.height]
  for (let halving = 0; halving < 14; halving++) {
    const middle = (low + high) / 2
    if (clearance(middle) < distance) low = middle
    else high = middle
  }
  return high
}

/** A safe guess of how wide a text is drawn: system fonts differ. */
export function textWidth(text: string, fontSize: number): number {
  return [...text].length * fontSize * 0.61
}
