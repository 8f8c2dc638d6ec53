import type { Spot } from './view.ts'

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

const CELL = 4

/** The occupied parts of a drawing, on a grid of small squares; labels are put where it is free. */
export class OccupiedSpace {
  private readonly columns: number
  private readonly rows: number
  private readonly occupied: Uint8Array

  constructor(width: number, height: number) {
    this.columns = Math.ceil(width / CELL)
    this.rows = Math.ceil(height / CELL)
    this.occupied = new Uint8Array(this.columns * this.rows)
  }

  occupy(box: Box): void {
    this.eachCell(box, (cell) => {
      this.occupied[cell] = 1
      return true
    })
  }

  /** Marks a line of this thickness, so that no label covers the track. */
  occupyLine(spots: readonly Spot[], thickness: number): void {
    for (const [index, to] of spots.entries()) {
      const from = spots[index - 1] ?? to
      const steps = Math.min(5000, Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / CELL)))
      for (let step = 1; step <= steps; step++) {
        const x = from.x + ((to.x - from.x) * step) / steps
        const y = from.y + ((to.y - from.y) * step) / steps
        this.occupy({ x: x - thickness / 2, y: y - thickness / 2, width: thickness, height: thickness })
      }
    }
  }

  /** Whether a box is inside the drawing and unoccupied. */
  isFree(box: Box): boolean {
    if (box.x < 2 || box.y < 2) return false
    if (box.x + box.width > this.columns * CELL - 2 || box.y + box.height > this.rows * CELL - 2) return false
    return this.eachCell(box, (cell) => this.occupied[cell] === 0)
  }

  /** Visits the grid squares under a box until a visit returns false. */
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

/** A spot on a line that a label belongs to, and the direction (a unit vector) in which the label is moved away. */
export interface Anchor {
  readonly spot: Spot
  readonly aside: Spot
}

export interface PlacedLabel {
  readonly box: Box
  readonly anchor: Anchor
}

/**
 * Finds the first free place, trying each anchor at each distance, nearest first, and marks it as occupied. Null if none
 * is free: it is better to omit a label than to cover something.
 */
export function placeLabel(
  occupied: OccupiedSpace,
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
      if (!occupied.isFree(box)) continue
      occupied.occupy(box)
      return { box, anchor: { spot, aside } }
    }
  return null
}

/** How far to move the middle of a box along `aside` so that the box has the given distance from the spot. */
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

/** An upper estimate of the width of a text, since system fonts differ: names such as “W4” are wide and set in bold. */
export function textWidth(text: string, fontSize: number): number {
  return [...text].reduce((width, letter) => width + (WIDE.has(letter) ? 1.1 : 0.61) * fontSize, 0)
}

const WIDE: ReadonlySet<string> = new Set('MW')
