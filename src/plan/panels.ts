import { toRadians } from '../measure/angle.ts'
import { exceeds } from '../measure/counting.ts'
import type { PanelInput } from './rows/supplies.ts'

/** The size of a piece of ready-made track: its length, or the radius of its centre line and its angle. */
export type PanelSize = { readonly length: number } | { readonly radius: number; readonly angle: number }

/** The curve of its centre line; null for a straight piece. */
export function panelCurve(panel: PanelSize): { radiusMm: number; angleRad: number } | null {
  return 'radius' in panel ? { radiusMm: panel.radius, angleRad: toRadians(panel.angle) } : null
}

/** Along its centre line. */
export function panelLengthMm(panel: PanelSize): number {
  const curve = panelCurve(panel)
  return 'length' in panel ? panel.length : curve!.radiusMm * curve!.angleRad
}

/** Pieces fit a radius within this. */
const SAME_RADIUS_MM = 1e-3

/** Null: straight. */
export function sameRadius(a: number | null, b: number | null): boolean {
  return a === null || b === null ? a === b : Math.abs(a - b) <= SAME_RADIUS_MM
}

/** Of the same kind and as long: nothing would tell them apart but the price. */
export function isTwin(a: PanelInput, b: PanelInput): boolean {
  if ((a.ties ?? 0) > 0 !== (b.ties ?? 0) > 0) return false
  const [radiusA = null, radiusB = null] = [a, b].map((panel) => panelCurve(panel)?.radiusMm)
  return sameRadius(radiusA, radiusB) && !exceeds(Math.abs(panelLengthMm(a) - panelLengthMm(b)), 0)
}
