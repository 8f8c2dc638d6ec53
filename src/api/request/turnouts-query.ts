import type { z } from '@hono/zod-openapi'
import { PLAN } from '../../plan/rows/plan.ts'
import {
  formField,
  frogAngleField,
  frogNumberField,
  heelAngleField,
  heelSpreadField,
  numberingField,
  outerRadiusField,
  pointLengthField,
  TURNOUT_TYPE,
  toeLengthField,
} from '../../plan/rows/turnouts.ts'
import { parameterOf, query } from './query.ts'

const { hand, radius, length } = TURNOUT_TYPE.fields
const optional = { presence: 'optional' as const }
const and = (description: string, more: string) => `${description}. ${more}`

/** What says how large one turnout is. */
export const TURNOUT_PARAMETERS = {
  gauge: parameterOf(
    'TurnoutGaugeParameter',
    PLAN.fields.gauge,
    'Distance between the inner faces of the rail heads; 45 mm when left out. Any gauge: 4ft8-1/2in.',
  ),
  hand: parameterOf(
    'HandParameter',
    { ...hand, ...optional },
    'left, right or wye; left when left out. Left and right have the same figures.',
  ),
  number: parameterOf('FrogNumberParameter', frogNumberField, 'Number of the frog; give this or frogAngle.', '6'),
  frogAngle: parameterOf(
    'FrogAngleParameter',
    frogAngleField,
    'Angle of the frog, degrees; give this or number. Of a wye the angle between its legs.',
  ),
  numbering: parameterOf('NumberingParameter', numberingField),
  form: parameterOf('TurnoutFormParameter', formField),
  radius: parameterOf(
    'TurnoutRadiusParameter',
    { ...radius, ...optional },
    'Radius of the centre line of the diverging leg: with curved-frog instead of the number, with straight-frog instead of toeLength, with both-curved that of the tighter leg.',
  ),
  outerRadius: parameterOf(
    'OuterRadiusParameter',
    outerRadiusField,
    'Only with both-curved: radius of the centre line of the wider leg.',
  ),
  angle: parameterOf(
    'LegAngleParameter',
    frogAngleField,
    'Angle through which the diverging leg turns up to its end, degrees: needed with both-curved, possible with curved-frog and a radius.',
  ),
  heelSpread: parameterOf(
    'HeelSpreadParameter',
    heelSpreadField,
    'Distance between the gauge lines of stock rail and switch rail at the heel. Two of heelSpread, heelAngle and pointLength give the third; without any the curve begins at the points.',
  ),
  heelAngle: parameterOf('HeelAngleParameter', heelAngleField),
  pointLength: parameterOf(
    'PointLengthParameter',
    pointLengthField,
    'Length of the switch rail, from the points to the heel.',
  ),
  toeLength: parameterOf(
    'ToeLengthParameter',
    toeLengthField,
    'Straight from the toe of the frog to its theoretical point; none when left out.',
  ),
  length: parameterOf(
    'TurnoutLengthParameter',
    length,
    and(
      'From the points to the ends of the legs, along the through leg',
      'When left out, the legs end where their centre lines are two gauges apart.',
    ),
  ),
}

export const TurnoutsQuery = query(TURNOUT_PARAMETERS)

export type TurnoutsRequest = Partial<Omit<z.output<typeof TurnoutsQuery>, 'refresh'>>
