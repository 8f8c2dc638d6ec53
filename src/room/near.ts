import type { BoundingBox } from '../track/bounding-box.ts'
import type { Line } from './line.ts'

/** A stretch of a line near a box. */
export interface NearStretch {
  readonly fromMm: number
  readonly toMm: number
}

/**
 * The stretches of a line, no longer than a step, that may come within a distance of boxes, by box, in order. No place
 * of a stretch is further than half its length from its middle, so what is too far from that is left out, and the rest
 * halved. Each place is looked up once for all boxes.
 */
export function stretchesNear(
  line: Line,
  boxes: readonly BoundingBox[],
  distanceMm: number,
  stepMm: number,
  fromMm = 0,
  toMm = line.lengthMm,
): NearStretch[][] {
  const found: NearStretch[][] = boxes.map(() => [])
  const halve = (start: number, end: number, near: readonly number[]): void => {
    const { xMm, yMm } = line.poseAt((start + end) / 2)
    const reachMm = distanceMm + (end - start) / 2
    const still = near.filter((index) => {
      const { minXMm, maxXMm, minYMm, maxYMm } = boxes[index]!
      const dx = Math.max(minXMm - xMm, 0, xMm - maxXMm)
      const dy = Math.max(minYMm - yMm, 0, yMm - maxYMm)
      return dx * dx + dy * dy <= reachMm * reachMm
    })
    if (still.length === 0) return
    if (end - start <= stepMm) {
      for (const box of still) found[box]!.push({ fromMm: start, toMm: end })
      return
    }
    const middleMm = (start + end) / 2
    halve(start, middleMm, still)
    halve(middleMm, end, still)
  }
  if (boxes.length > 0 && toMm > fromMm)
    halve(
      fromMm,
      toMm,
      boxes.map((_, index) => index),
    )
  return found
}
