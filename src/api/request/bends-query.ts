import type { z } from '@hono/zod-openapi'
import { LENGTH } from '../../plan/fields/bounds.ts'
import { BENDER } from '../../plan/rows/bender.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { PLAN } from '../../plan/rows/plan.ts'
import { CURVE } from '../../plan/rows/questions.ts'
import { materialName, sectionId, temper } from '../../plan/rows/rail.ts'
import { lengthsParameter, parameterOf, query } from './query.ts'

const { work, span, outerRollerRadius, bearsOn, mode, maxPerPass, screwPitch, turnsPerInch } = BENDER.fields
const { gauge, resolution } = PLAN.fields
const optional = { presence: 'optional' as const }
const notForOrdinates = 'It does not affect the ordinates.'

export const BendsQuery = query({
  radius: parameterOf(
    'RadiusParameter',
    { ...CURVE.fields.radius, ...optional },
    'Radius of the centre line; give this or diameter.',
  ),
  diameter: parameterOf(
    'DiameterParameter',
    CURVE.fields.radius.aliases!.diameter!.field,
    'Diameter of the centre line; give this or radius.',
    '20ft',
  ),
  section: parameterOf(
    'SectionParameter',
    { ...sectionId, ...optional },
    'Rail section, by its code; 250 when left out.',
  ),
  material: parameterOf(
    'MaterialParameter',
    { ...materialName, ...optional },
    `Material of the rail. ${notForOrdinates}`,
  ),
  temper: parameterOf('TemperParameter', temper, `Temper of that material. ${notForOrdinates}`),
  gauge: parameterOf(
    'GaugeParameter',
    gauge,
    'Distance between the inner faces of the rail heads; 45 mm when left out.',
  ),
  chord: lengthsParameter('ChordParameter', LENGTH, LIMITS.chords)
    .optional()
    .openapi({
      param: { description: 'Length of a chord to measure on; may be repeated. 300 and 500 mm when left out.' },
    }),
  resolution: parameterOf(
    'ResolutionParameter',
    resolution,
    'Largest error in reading an ordinate, plus or minus; 0.5 mm when left out.',
  ),
  benderWork: parameterOf('BenderWorkParameter', work),
  benderSpan: parameterOf(
    'BenderSpanParameter',
    span,
    'Distance between the centres of the outer rollers. A roller bender needs benderSpan, benderOuterRollerRadius, benderBearsOn and benderMode together.',
  ),
  benderOuterRollerRadius: parameterOf(
    'BenderOuterRollerRadiusParameter',
    outerRollerRadius,
    'Radius of the outer rollers.',
  ),
  benderBearsOn: parameterOf('BenderBearsOnParameter', bearsOn),
  benderMode: parameterOf('BenderModeParameter', mode),
  benderMaxPerPass: parameterOf(
    'BenderMaxPerPassParameter',
    maxPerPass,
    'Largest depth to add in one pass. The full depth is set in one pass when left out.',
  ),
  benderScrewPitch: parameterOf(
    'BenderScrewPitchParameter',
    screwPitch,
    'Depth that one turn of the screw adds. Turns are not worked out when left out.',
  ),
  benderTurnsPerInch: parameterOf(
    'BenderTurnsPerInchParameter',
    turnsPerInch,
    'Turns of the screw that move it by one inch; give this or benderScrewPitch.',
  ),
})

export type BendsRequest = Partial<Omit<z.output<typeof BendsQuery>, 'refresh'>>
