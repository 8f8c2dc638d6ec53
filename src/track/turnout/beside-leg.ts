import type { Leg, LegPiece } from './types.ts'

interface Place {
  readonly xMm: number
  readonly yMm: number
}

/** A place by a leg: the station on its centre line square to it, and how far it lies to the left of that. */
export interface BesideLeg {
  readonly stationMm: number
  readonly leftMm: number
}

/**
 * The station of a leg beside a place of the turnout's sheet.
 *
 * straight s = (P − A)·t, left (P − A)·n; arc, C = A + n/κ: s = θ/κ, left (1 − |P − C|·|κ|)/κ
 *
 * A, t, n where the piece begins, its direction and the normal to the left of it; κ its curvature, 1/mm, θ the angle at
 * C from A to P. Of several pieces the one whose stretch the place lies beside, or comes nearest to it. Closed form;
 * checked in tests/track/turnout/rails.test.ts.
 */
export function besideLeg({ pieces }: Leg, place: Place): BesideLeg {
  let fromMm = 0
  let best: (BesideLeg & { readonly missMm: number }) | null = null
  for (const piece of pieces) {
    const { alongMm, leftMm } = besidePiece(piece, place)
    const withinMm = Math.min(Math.max(alongMm, 0), piece.lengthMm)
    const missMm = Math.abs(alongMm - withinMm)
    if (!best || missMm < best.missMm) best = { stationMm: fromMm + withinMm, leftMm, missMm }
    fromMm += piece.lengthMm
  }
  return { stationMm: best!.stationMm, leftMm: best!.leftMm }
}

function besidePiece({ start, startCurvature: k }: LegPiece, { xMm, yMm }: Place) {
  const [cos, sin] = [Math.cos(start.headingRad), Math.sin(start.headingRad)]
  const [dx, dy] = [xMm - start.xMm, yMm - start.yMm]
  const aheadMm = dx * cos + dy * sin
  const leftMm = dy * cos - dx * sin
  if (k === 0) return { alongMm: aheadMm, leftMm }
  // From the centre, in units of the radius, along the radius to the start of the piece and square to it.
  const [out, along] = [1 - k * leftMm, k * aheadMm]
  return { alongMm: Math.atan2(along, out) / k, leftMm: (1 - Math.hypot(out, along)) / k }
}
