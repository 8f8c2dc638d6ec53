import type { Point } from '../../track/sample.ts'

/** A place on the drawing: x to the right, y down, in drawing units (one is a pixel at full size). */
export interface Spot {
  readonly x: number
  readonly y: number
}

/** Maps the sheet to the drawing: the same scale in both directions, y inverted. */
export interface View {
  readonly width: number
  readonly height: number
  /** Drawing units per millimetre. */
  readonly scale: number
  spotOf(point: Point): Spot
}

export interface Bounds {
  readonly minXMm: number
  readonly minYMm: number
  readonly maxXMm: number
  readonly maxYMm: number
}

/** The bounding box of some points; null if there are none. */
export function boundsOf(lines: readonly (readonly Point[])[]): Bounds | null {
  let [minXMm, minYMm, maxXMm, maxYMm] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const line of lines)
    for (const { xMm, yMm } of line) {
      minXMm = Math.min(minXMm, xMm)
      maxXMm = Math.max(maxXMm, xMm)
      minYMm = Math.min(minYMm, yMm)
      maxYMm = Math.max(maxYMm, yMm)
    }
  return minXMm <= maxXMm ? { minXMm, minYMm, maxXMm, maxYMm } : null
}

const WIDTH = 880
const LEAST_HEIGHT = 240
const GREATEST_HEIGHT = 700
/** Room around the track for its labels, and below it for the scale bar. */
export const MARGIN = 64
export const FOOT = 52

/** The largest view that shows all of the bounds with room for labels; the width is fixed, the height depends on the track. */
export function viewOf(bounds: Bounds): View {
  const wideMm = Math.max(bounds.maxXMm - bounds.minXMm, Number.MIN_VALUE)
  const highMm = Math.max(bounds.maxYMm - bounds.minYMm, Number.MIN_VALUE)
  const scale = Math.min((WIDTH - 2 * MARGIN) / wideMm, (GREATEST_HEIGHT - 2 * MARGIN - FOOT) / highMm)
  const height = Math.max(LEAST_HEIGHT, Math.ceil(highMm * scale + 2 * MARGIN + FOOT))
  const left = (WIDTH - wideMm * scale) / 2
  const top = (height - FOOT - highMm * scale) / 2
  return {
    width: WIDTH,
    height,
    scale,
    spotOf: ({ xMm, yMm }) => ({
      x: left + (xMm - bounds.minXMm) * scale,
      y: top + (bounds.maxYMm - yMm) * scale,
    }),
  }
}

/** A coordinate rounded to hundredths, which is finer than any screen. */
export function px(value: number): number {
  return Math.round(value * 100) / 100 + 0
}

/** A line through spots as the `d` of a path. */
export function pathThrough(spots: readonly Spot[]): string {
  return spots.map(({ x, y }, index) => `${index === 0 ? 'M' : index === 1 ? 'L' : ' '}${px(x)} ${px(y)}`).join('')
}
