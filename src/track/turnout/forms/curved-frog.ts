import { toRadians } from '../../../measure/angle.ts'
import { givenFrogRad } from '../frog.ts'
import { curvedFrogRad, leadOf } from '../lead.ts'
import { LegBuilder, mirrored } from '../leg.ts'
import type { TurnoutResult, TurnoutSize } from '../types.ts'
import { figuresOf, GAUGES_APART, heelOf, leadFault, legToHeel } from './heel.ts'

/** One radius from the points or the heel through the frog to the end of the leg. */
export function curvedFrog(size: TurnoutSize, gaugeMm: number): TurnoutResult {
  const symmetrical = size.hand === 'wye'
  const heel = heelOf(size)
  const frogRad =
    size.radius == null ? givenFrogRad(size)! : curvedFrogRad({ gaugeMm, radiusMm: size.radius, symmetrical, heel })
  const result = leadOf({ gaugeMm, frogRad, symmetrical, heel, toeLengthMm: 0 })
  if (!result.ok) return { ok: false, faults: [leadFault(result.why, size)] }
  const lead = size.radius == null ? result.lead : { ...result.lead, closureRadiusMm: size.radius }

  const toHeel = legToHeel(heel, gaugeMm)
  const { closureRadiusMm: radiusMm } = lead
  const angleRad = legAngleRad(size, { radiusMm, heelRad: heel.angleRad, ...toHeel.end, gaugeMm })
  const diverging = toHeel.left(radiusMm, angleRad - heel.angleRad).leg()
  const through = symmetrical ? mirrored(diverging) : new LegBuilder().straight(size.length ?? diverging.end.xMm).leg()
  const frog = { xMm: lead.leadMm, yMm: symmetrical ? 0 : gaugeMm / 2 }
  return { ok: true, turnout: { ...figuresOf(lead), frog, legs: { through, diverging } } }
}

/**
 * The heading at the end of the leg: as given, or where it is as long as the turnout (sin A = sin S + (L − x)/R), or where
 * its centre line is two gauges from the other (cos A = cos S − (2g − y)/R; of a wye one from the middle).
 */
function legAngleRad(
  { angle, length, hand }: TurnoutSize,
  { radiusMm, heelRad, xMm, yMm, gaugeMm }: Record<'radiusMm' | 'heelRad' | 'xMm' | 'yMm' | 'gaugeMm', number>,
): number {
  const sides = hand === 'wye' ? 2 : 1
  if (angle != null) return toRadians(angle) / sides
  if (length != null) return Math.asin(Math.min(1, Math.sin(heelRad) + (length - xMm) / radiusMm))
  const offsetMm = (GAUGES_APART * gaugeMm) / sides
  return Math.acos(Math.max(0, Math.cos(heelRad) - (offsetMm - yMm) / radiusMm))
}
