import { toRadians } from '../../../measure/angle.ts'
import { LENGTH_SLACK_MM } from '../../../measure/counting.ts'
import { curvedFrogRad, NO_HEEL } from '../lead.ts'
import { LegBuilder } from '../leg.ts'
import type { MeasuredTurnout, SizeFault, TurnoutResult } from '../types.ts'

/**
 * A turnout by the place and direction of its diverging leg's end: straight, an arc of radius R through A, straight.
 *
 * R(1 − cos A) + b·sin A = o, a + R·sin A + b·cos A = L
 *
 * L length, A diverging angle, o diverging offset, a the straight before and b the one behind the curve. Without a radius
 * one of the two is left out: the radius is the largest for which neither is negative. Closed form; checked in tests/track/turnout/turnout.test.ts.
 */
export function measuredTurnout(
  { length: lengthMm, divergingAngle, divergingOffset: offsetMm, radius }: MeasuredTurnout,
  gaugeMm: number,
): TurnoutResult {
  const angleRad = toRadians(divergingAngle)
  const sin = Math.sin(angleRad)
  const cos = Math.cos(angleRad)
  const versine = 2 * Math.sin(angleRad / 2) ** 2
  const tangentAtPointsMm = (lengthMm * sin - offsetMm * cos) / versine
  const radiusMm = radius ?? Math.min(tangentAtPointsMm, offsetMm / versine)
  const behindMm = (offsetMm - radiusMm * versine) / sin
  const beforeMm = lengthMm - radiusMm * sin - behindMm * cos
  if (!(radiusMm > gaugeMm) || behindMm < -LENGTH_SLACK_MM || beforeMm < -LENGTH_SLACK_MM)
    return { ok: false, faults: [NO_SUCH_CURVE] }

  const curved = new LegBuilder().straight(beforeMm).left(radiusMm, angleRad)
  const { xMm, yMm } = curved.end
  const onStraightMm = ((gaugeMm / 2) * (1 + cos) - yMm) / sin
  const frogRad = onStraightMm >= 0 ? angleRad : curvedFrogRad({ gaugeMm, radiusMm, symmetrical: false, heel: NO_HEEL })
  const outerGaugeRadiusMm = radiusMm + gaugeMm / 2
  const leadMm =
    onStraightMm >= 0
      ? xMm + onStraightMm * cos + (gaugeMm / 2) * sin
      : beforeMm + outerGaugeRadiusMm * Math.sin(frogRad)
  return {
    ok: true,
    turnout: {
      frogRad,
      heelRad: 0,
      pointLengthMm: 0,
      toeLengthMm: Math.max(0, onStraightMm),
      toeSpreadMm: null,
      outerGaugeRadiusMm,
      closureRadiusMm: radiusMm,
      curvedClosureMm: null,
      straightClosureMm: null,
      leadMm,
      frog: { xMm: leadMm, yMm: gaugeMm / 2 },
      legs: { through: new LegBuilder().straight(lengthMm).leg(), diverging: curved.straight(behindMm).leg() },
    },
  }
}

const NO_SUCH_CURVE: SizeFault = {
  field: 'measured',
  code: 'contradictory',
  detail: 'no curve leads from the points to this end of the diverging leg',
  hint: 'measure length, angle and offset again, or leave the radius out',
}
