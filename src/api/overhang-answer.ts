import type { z } from '@hono/zod-openapi'
import { formatMm } from '../measure/length.ts'
import { DIAMETER, LENGTH } from '../plan/fields/bounds.ts'
import type { CarPlan } from '../room/overhang.ts'
import type { ParameterFault } from './problem.ts'
import { lengthParameter, query } from './request/query.ts'

const about = (description: string) => ({ param: { description } })

export const CAR_ON_CURVE = {
  radius: lengthParameter('CarRadius', LENGTH)
    .optional()
    .openapi(about('Radius of the centre line; give this or diameter.')),
  diameter: lengthParameter('CarDiameter', DIAMETER)
    .optional()
    .openapi(about('Diameter of the centre line; give this or radius.')),
  length: lengthParameter('CarLength', LENGTH).openapi(about('Length of the body of the car.')),
  truckCentres: lengthParameter('TruckCentres', LENGTH).openapi(
    about('Distance between the pivots of its trucks; of a car without trucks, its wheelbase.'),
  ),
  width: lengthParameter('CarWidth', LENGTH).openapi(about('Width of the body.')),
}

export const OverhangQuery = query(CAR_ON_CURVE)

type CarRequest = Omit<z.output<typeof OverhangQuery>, 'refresh'>

type Read =
  | { readonly ok: true; readonly radiusMm: number; readonly car: CarPlan }
  | { readonly ok: false; readonly faults: readonly ParameterFault[] }

/** The car and its curve, or what contradicts itself in them. */
export function carOnCurve({ radius, diameter, length, truckCentres, width }: CarRequest): Read {
  const faults: ParameterFault[] = []
  if (radius !== undefined && diameter !== undefined)
    faults.push(contradictory('radius', 'both radius and diameter are given', 'keep one of them'))
  if (radius === undefined && diameter === undefined)
    faults.push({
      parameter: 'radius',
      code: 'missing',
      detail: 'neither radius nor diameter is given',
      hint: 'give one, such as radius=8ft',
    })
  if (truckCentres > length)
    faults.push(
      contradictory(
        'truckCentres',
        `${formatMm(truckCentres)} is more than the length of the car, ${formatMm(length)}`,
        'give the distance between the pivots, which is less than the length of the body',
      ),
    )
  const radiusMm = radius ?? diameter! / 2
  if (truckCentres >= 2 * radiusMm)
    faults.push(
      contradictory(
        'truckCentres',
        `a car with trucks ${formatMm(truckCentres)} apart does not fit on a curve of ${formatMm(radiusMm)} radius`,
        'give a greater radius, or check the unit',
      ),
    )
  if (faults.length > 0) return { ok: false, faults }
  return { ok: true, radiusMm, car: { lengthMm: length, truckCentresMm: truckCentres, widthMm: width } }
}

function contradictory(parameter: string, detail: string, hint: string): ParameterFault {
  return { parameter, code: 'contradictory', detail, hint }
}
