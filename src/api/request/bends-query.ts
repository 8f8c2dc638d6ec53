import type { z } from '@hono/zod-openapi'
import { LENGTH } from '../../plan/fields/bounds.ts'
import { BENDER } from '../../plan/rows/bender.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { PLAN } from '../../plan/rows/plan.ts'
import { CURVE } from '../../plan/rows/questions.ts'
import { materialName, sectionId, temper } from '../../plan/rows/rail.ts'
import { lengthsParameter, parameterOf, query } from './query.ts'

const { work, span, outerRollerRadius, bearsOn, mode, maxPerPass, screwPitch } = BENDER.fields
const { gauge, resolution } = PLAN.fields
const optional = { presence: 'optional' as const }
const free = 'The ordinates do not depend on it.'

export const BendsQuery = query({
  radius: parameterOf(
    'RadiusParameter',
    { ...CURVE.fields.radius, ...optional },
    'Radius of the centre line; either this or diameter.',
  ),
  diameter: parameterOf(
    'DiameterParameter',
    CURVE.fields.radius.aliases!.diameter!.field,
    'Diameter of the centre line; either this or radius.',
    '20ft',
  ),
  section: parameterOf(
    'SectionParameter',
    { ...sectionId, ...optional },
    'Rail section by its code; 250 when left out.',
  ),
  material: parameterOf('MaterialParameter', { ...materialName, ...optional }, `Material of the rail. ${free}`),
  temper: parameterOf('TemperParameter', temper, `Temper of that material. ${free}`),
  gauge: parameterOf('GaugeParameter', gauge, 'Between the inner faces of the heads; 45 mm when left out.'),
  chord: lengthsParameter('ChordParameter', LENGTH, LIMITS.chords)
    .optional()
    .openapi({ param: { description: 'A chord to measure on; repeat it for more. 300 and 500 mm when left out.' } }),
  resolution: parameterOf(
    'ResolutionParameter',
    resolution,
    'How far an ordinate may be misread, either way; 0.5 mm when left out.',
  ),
  benderWork: parameterOf('BenderWorkParameter', work),
  benderSpan: parameterOf(
    'BenderSpanParameter',
    span,
    "Between the outer rollers' centres. A roller bender is told by span, roller radius, bears-on and mode together.",
  ),
  benderOuterRollerRadius: parameterOf(
    'BenderOuterRollerRadiusParameter',
    outerRollerRadius,
    'Radius of the outer rollers.',
  ),
  benderBearsOn: parameterOf('BenderBearsOnParameter', bearsOn),
  benderMode: parameterOf('BenderModeParameter', mode),
  benderMaxPerPass: parameterOf('BenderMaxPerPassParameter', maxPerPass, 'Depth that one pass may add.'),
  benderScrewPitch: parameterOf('BenderScrewPitchParameter', screwPitch, 'Depth of one turn of the screw.'),
})

export type BendsRequest = Partial<Omit<z.output<typeof BendsQuery>, 'refresh'>>
