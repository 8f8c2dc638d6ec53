import { formatMm } from '../../measure/length.ts'
import { poseAlong } from '../../track/clothoid.ts'
import type { Leg, LegPiece } from '../../track/turnout/types.ts'
import { arc, straight } from './elements.ts'
import { type FigureElement, type FigureFault, outOfRange } from './figure.ts'

/** A diverging leg brought back parallel to the straight it leaves, all to the left of it, headings from 0 to under 180°. */
export interface BackToParallel {
  readonly elements: readonly FigureElement[]
  /** From the points to where the track is parallel, along the straight. */
  readonly reachMm: number
  /** The same along the track. */
  readonly lengthMm: number
  /** From the points on. */
  readonly pieces: readonly PathPiece[]
}

/** A straight or an arc of a path. */
export type PathPiece = Pick<LegPiece, 'start' | 'startCurvature' | 'lengthMm' | 'end'>

/**
 * Brings the diverging leg of a turnout back parallel to its straight: a straight of length s, then an arc of radius r
 * the other way through the heading A of the leg's end.
 *
 * s = (p − y − r(1 − cos A))/sin A
 *
 * p spacing, y offset of the leg's end. Range: 0 < A < 180°, s ≥ 0. Closed form; checked in
 * tests/fitting/figures/passing-loop.test.ts.
 */
export function backToParallel(
  { pieces, end }: Leg,
  spacingMm: number,
  radiusMm: number,
): { readonly ok: true; readonly path: BackToParallel } | { readonly ok: false; readonly fault: FigureFault } {
  const { headingRad: angleRad, yMm } = end
  const sin = Math.sin(angleRad)
  const versine = 2 * Math.sin(angleRad / 2) ** 2
  const straightMm = (spacingMm - yMm - radiusMm * versine) / sin
  if (straightMm < -1e-9) return { ok: false, fault: tooClose(yMm, radiusMm * versine, spacingMm, versine) }
  const along = Math.max(0, straightMm)
  const atArc = poseAlong(end, 0, 0, along, along)
  const arcMm = radiusMm * angleRad
  const parallel = { ...poseAlong(atArc, -1 / radiusMm, -1 / radiusMm, arcMm, arcMm), headingRad: 0 }
  const path: PathPiece[] = [
    ...pieces,
    { start: end, startCurvature: 0, lengthMm: along, end: atArc },
    { start: atArc, startCurvature: -1 / radiusMm, lengthMm: arcMm, end: parallel },
  ]
  return {
    ok: true,
    path: {
      elements: [...straight(along), ...arc(radiusMm, -angleRad)],
      reachMm: parallel.xMm,
      lengthMm: path.reduce((sum, { lengthMm }) => sum + lengthMm, 0),
      pieces: path,
    },
  }
}

function tooClose(legMm: number, curveMm: number, spacingMm: number, versine: number): FigureFault {
  const sharpest = Math.floor((spacingMm - legMm) / versine)
  return outOfRange(
    'spacing',
    `the turnout leads ${formatMm(legMm)} aside and the curve back ${formatMm(curveMm)}: more than ${formatMm(spacingMm)}`,
    sharpest > 0
      ? `use ${spacingOrMore(legMm + curveMm)}, or a radius of ${formatMm(sharpest)} or less`
      : `use ${spacingOrMore(legMm + curveMm)}, or end the turnout nearer to its points by giving its length`,
  )
}

/** Rounded so that the spacing told can be built. */
export function spacingOrMore(leastMm: number): string {
  return `a spacing of ${formatMm(Math.ceil(leastMm * 10) / 10)} or more`
}

/**
 * How far along a path its centre line comes to be a distance away from the straight it leaves; null where it never is.
 * On an arc: cos(h + k·l) = cos h − k·(d − y).
 *
 * d the distance, mm; h, y heading and offset where the piece begins, k its curvature (1/mm), l length along it. Range:
 * headings from 0 to under 180°, so that the distance only grows. Checked in tests/fitting/figures/passing-loop.test.ts.
 */
export function whereApart(pieces: readonly PathPiece[], distanceMm: number): number | null {
  let fromMm = 0
  for (const { start, startCurvature: k, lengthMm, end } of pieces) {
    // What rounding leaves of the end of an arc that comes parallel is its end.
    if (distanceMm <= end.yMm + 1e-9) {
      if (distanceMm >= end.yMm - 1e-9) return fromMm + lengthMm
      const missing = Math.max(0, distanceMm - start.yMm)
      if (k === 0) return fromMm + missing / Math.sin(start.headingRad)
      const headingRad = Math.acos(Math.max(-1, Math.min(1, Math.cos(start.headingRad) - k * missing)))
      return fromMm + (headingRad - start.headingRad) / k
    }
    fromMm += lengthMm
  }
  return null
}

/** From the points along the diverging leg, and straight on beyond it, to where it is a distance from the straight. */
export function foulingOf({ pieces, lengthMm, end }: Leg, distanceMm: number): number {
  return whereApart(pieces, distanceMm) ?? lengthMm + (distanceMm - end.yMm) / Math.sin(end.headingRad)
}

export function neverClear(foulingMm: number, spacingMm: number): FigureFault {
  return outOfRange(
    'fouling',
    `tracks ${formatMm(spacingMm)} apart never stand clear from ${formatMm(foulingMm)}`,
    `use ${formatMm(spacingMm)} or less, or a larger spacing`,
  )
}
