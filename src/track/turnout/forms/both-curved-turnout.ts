import { toRadians } from '../../../measure/angle.ts'
import { exceeds } from '../../../measure/counting.ts'
import { curvedCrossing } from '../both-curved.ts'
import { LegBuilder } from '../leg.ts'
import type { TurnoutResult, TurnoutSize } from '../types.ts'

/** Two arcs to the same side from the points to the ends of the legs. */
export function bothCurved({ outerRadius, radius, angle, length }: TurnoutSize, gaugeMm: number): TurnoutResult {
  const [outerMm, innerMm, angleRad] = [outerRadius!, radius!, toRadians(angle!)]
  if (!exceeds(outerMm, innerMm) || !exceeds(innerMm, gaugeMm / 2))
    return {
      ok: false,
      faults: [
        {
          field: 'outerRadius',
          code: 'contradictory',
          detail: 'the outer leg must have the larger radius, and both more than half the gauge',
          hint: 'exchange radius and outerRadius, or check their units',
        },
      ],
    }
  const { frogRad, leadMm, offsetMm } = curvedCrossing(gaugeMm, outerMm, innerMm)
  const outerGaugeRadiusMm = innerMm + gaugeMm / 2
  const diverging = new LegBuilder().left(innerMm, angleRad).leg()
  const through = new LegBuilder().left(outerMm, (length ?? diverging.lengthMm) / outerMm).leg()
  return {
    ok: true,
    turnout: {
      frogRad,
      heelRad: 0,
      pointLengthMm: 0,
      toeLengthMm: 0,
      toeSpreadMm: 0,
      outerGaugeRadiusMm,
      closureRadiusMm: innerMm,
      curvedClosureMm: outerGaugeRadiusMm * Math.asin(Math.min(1, leadMm / outerGaugeRadiusMm)),
      straightClosureMm: (outerMm - gaugeMm / 2) * Math.asin(Math.min(1, leadMm / (outerMm - gaugeMm / 2))),
      leadMm,
      frog: { xMm: leadMm, yMm: offsetMm },
      legs: { through, diverging },
    },
  }
}
