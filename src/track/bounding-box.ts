import { poseAlong } from './clothoid.ts'
import type { PlacedElement } from './types.ts'

/** A rectangle on the sheet, its sides along x and y. */
export interface BoundingBox {
  readonly minXMm: number
  readonly maxXMm: number
  readonly minYMm: number
  readonly maxYMm: number
}

/**
 * A rectangle around an element: around points h = L/n apart on it, n ≥ 4 a turn, wider by K·h²/8 on each side, K its
 * largest curvature: no curve of curvature ≤ K leaves a chord of that length by more. From one turn on, the points of
 * an arc are those of one turn. Checked in tests/track/meeting.test.ts.
 */
export function boundingBox(
  element: Pick<PlacedElement, 'start' | 'startCurvature' | 'endCurvature' | 'lengthMm'>,
): BoundingBox {
  const { start, startCurvature, endCurvature, lengthMm } = element
  const curvature = Math.max(Math.abs(startCurvature), Math.abs(endCurvature))
  const isArc = startCurvature === endCurvature && curvature > 0
  const reachMm = isArc ? Math.min(lengthMm, (2 * Math.PI) / curvature) : lengthMm
  const chords = Math.min(MOST_CHORDS, Math.max(1, Math.ceil((CHORDS_PER_TURN * curvature * reachMm) / (2 * Math.PI))))
  const marginMm = (curvature * (reachMm / chords) ** 2) / 8
  const box = { minXMm: start.xMm, maxXMm: start.xMm, minYMm: start.yMm, maxYMm: start.yMm }
  for (let chord = 1; chord <= chords; chord++) {
    const { xMm, yMm } = poseAlong(start, startCurvature, endCurvature, lengthMm, (reachMm * chord) / chords)
    box.minXMm = Math.min(box.minXMm, xMm)
    box.maxXMm = Math.max(box.maxXMm, xMm)
    box.minYMm = Math.min(box.minYMm, yMm)
    box.maxYMm = Math.max(box.maxYMm, yMm)
  }
  return {
    minXMm: box.minXMm - marginMm,
    maxXMm: box.maxXMm + marginMm,
    minYMm: box.minYMm - marginMm,
    maxYMm: box.maxYMm + marginMm,
  }
}

const CHORDS_PER_TURN = 16

const MOST_CHORDS = 1024
