import { givenFrogRad } from '../frog.ts'
import { leadOf, toeLengthForRadiusMm } from '../lead.ts'
import { LegBuilder, mirrored } from '../leg.ts'
import type { TurnoutResult, TurnoutSize } from '../types.ts'
import { figuresOf, GAUGES_APART, heelOf, leadFault, legToHeel } from './heel.ts'

/** Switch, closure, and straight from the toe of the frog to the end of the leg. */
export function straightFrog(size: TurnoutSize, gaugeMm: number): TurnoutResult {
  const symmetrical = size.hand === 'wye'
  const frogRad = givenFrogRad(size)!
  const heel = heelOf(size)
  const given = { gaugeMm, frogRad, symmetrical, heel }
  const toeLengthMm =
    size.radius == null ? (size.toeLength ?? 0) : toeLengthForRadiusMm({ ...given, radiusMm: size.radius })
  if (toeLengthMm < 0)
    return {
      ok: false,
      faults: [
        {
          field: 'radius',
          code: 'contradictory',
          detail: 'a curve of this radius would not reach the frog at its angle',
          hint: 'give a smaller radius, or a larger frog number',
        },
      ],
    }
  const result = leadOf({ ...given, toeLengthMm })
  if (!result.ok) return { ok: false, faults: [leadFault(result.why, size)] }
  const { lead } = result

  const phi = symmetrical ? frogRad / 2 : frogRad
  const curved = legToHeel(heel, gaugeMm).left(lead.closureRadiusMm, phi - heel.angleRad)
  const { xMm, yMm } = curved.end
  const offsetMm = (GAUGES_APART * gaugeMm) / (symmetrical ? 2 : 1)
  const restMm = size.length == null ? (offsetMm - yMm) / Math.sin(phi) : (size.length - xMm) / Math.cos(phi)
  const diverging = curved.straight(restMm).leg()
  const through = symmetrical ? mirrored(diverging) : new LegBuilder().straight(diverging.end.xMm).leg()
  const frog = { xMm: lead.leadMm, yMm: symmetrical ? 0 : gaugeMm / 2 }
  return { ok: true, turnout: { ...figuresOf(lead), frog, legs: { through, diverging } } }
}
