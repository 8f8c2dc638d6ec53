import { toRadians } from '../../../measure/angle.ts'
import type { Pose } from '../../types.ts'
import { type Heel, type Lead, type LeadFault, NO_HEEL } from '../lead.ts'
import { LegBuilder } from '../leg.ts'
import type { SizeFault, TurnoutGeometry, TurnoutSize } from '../types.ts'

/**
 * How straight switch rails lie, two of the three figures giving the third: h = p·sin S (a point of no thickness; with the
 * thickness t of a real one, h = p·sin S + t). Source: US Army TI 850-02, eq. 6-12.
 */
export function heelOf({ heelSpread, heelAngle, pointLength }: TurnoutSize): Heel {
  if (!heelSpread && !heelAngle && !pointLength) return NO_HEEL
  const angleRad = heelAngle ? toRadians(heelAngle) : Math.asin(Math.min(1, heelSpread! / pointLength!))
  const spreadMm = heelSpread || pointLength! * Math.sin(angleRad)
  return { spreadMm, angleRad, pointLengthMm: pointLength || spreadMm / Math.sin(angleRad) }
}

/** Where the centre line of the diverging leg is at the heel: half a gauge square to the switch rail. */
function heelPose({ spreadMm, angleRad, pointLengthMm }: Heel, gaugeMm: number): Pose {
  const half = gaugeMm / 2
  return {
    xMm: pointLengthMm - half * Math.sin(angleRad),
    yMm: spreadMm - half * 2 * Math.sin(angleRad / 2) ** 2,
    headingRad: angleRad,
  }
}

/** A leg up to the heel, from where it curves. */
export function legToHeel(heel: Heel, gaugeMm: number): LegBuilder {
  const leg = new LegBuilder()
  return heel.pointLengthMm > 0 ? leg.bentTo(heelPose(heel, gaugeMm)) : leg
}

/** The figures of a lead, as those of a turnout. */
export function figuresOf(lead: Lead): Omit<TurnoutGeometry, 'legs' | 'frog'> {
  const { heel, ...figures } = lead
  return { ...figures, heelRad: heel.angleRad, pointLengthMm: heel.pointLengthMm }
}

/** Where the legs end that are given no length: their centre lines are this many gauges apart. Own choice, no source. */
export const GAUGES_APART = 2

export function leadFault(why: LeadFault, { form, toeLength, number, angle }: TurnoutSize): SizeFault {
  const size = number != null ? 'number' : angle != null ? 'angle' : 'radius'
  if (why === 'heel-beyond-frog')
    return {
      field: 'heelAngle',
      code: 'contradictory',
      detail: 'the switch rails diverge as much as the frog or more, which leaves nothing to curve',
      hint: 'check both angles, in degrees',
    }
  if (why === 'no-room')
    return {
      field: form !== 'curved-frog' && toeLength ? 'toeLength' : 'heelSpread',
      code: 'contradictory',
      detail: 'heel spread and frog toe together take up the whole gauge, which leaves nothing to curve',
      hint: 'check their units, and that the gauge is that of the turnout',
    }
  return {
    field: size,
    code: 'out-of-range',
    detail: 'the closure would curve so tightly that its inner rail has no radius',
    hint: 'give a larger frog number, or less toe length',
  }
}
