import { z } from '@hono/zod-openapi'
import { fields } from './fields.ts'
import { DIAMETER, LENGTH, LENGTH_OR_ZERO } from './measures.ts'
import { exactlyOneOf, LIMITS, requiring } from './plan.ts'
import { Angle, Diameter, Gauge, Length, MATERIAL_NAMES, Resolution, SECTION_IDS } from './plan-fields.ts'
import { choiceParameter, lengthParameter, lengthsParameter, query, textParameter } from './query.ts'
import { BEARS_ON, BenderSchema, MODES, Rail, WORKS } from './rail.ts'

const about = (description: string, example?: string) => ({ param: { description, example } })

export const BendsQuery = query({
  radius: lengthParameter('RadiusParameter', LENGTH)
    .optional()
    .openapi(about('Radius of the centre line; either this or diameter.')),
  diameter: lengthParameter('DiameterParameter', DIAMETER)
    .optional()
    .openapi(about('Diameter of the centre line; either this or radius.', '20ft')),
  section: choiceParameter('SectionParameter', SECTION_IDS, 'a rail section')
    .optional()
    .openapi(about('Rail section by its code; 250 when left out.')),
  material: choiceParameter('MaterialParameter', MATERIAL_NAMES, 'a material')
    .optional()
    .openapi(about('Material of the rail. The ordinates do not depend on it.')),
  temper: textParameter('TemperParameter', 60)
    .optional()
    .openapi(about('Temper of that material. The ordinates do not depend on it.')),
  gauge: lengthParameter('GaugeParameter', LENGTH)
    .optional()
    .openapi(about('Between the inner faces of the heads; 45 mm when left out.')),
  chord: lengthsParameter('ChordParameter', LENGTH, LIMITS.chords)
    .optional()
    .openapi(about('A chord to measure on; repeat it for more. 300 and 500 mm when left out.')),
  resolution: lengthParameter('ResolutionParameter', LENGTH)
    .optional()
    .openapi(about('How far an ordinate may be misread, either way; 0.5 mm when left out.')),
  benderWork: choiceParameter('BenderWorkParameter', [...WORKS], 'a kind of work')
    .optional()
    .openapi(about('Loose rail, or assembled track with both rails in one go.')),
  benderSpan: lengthParameter('BenderSpanParameter', LENGTH)
    .optional()
    .openapi(
      about(
        "Between the outer rollers' centres. A roller bender is told by span, roller radius, bears-on and mode together.",
      ),
    ),
  benderOuterRollerRadius: lengthParameter('BenderOuterRollerRadiusParameter', LENGTH_OR_ZERO)
    .optional()
    .openapi(about('Radius of the outer rollers.')),
  benderBearsOn: choiceParameter('BenderBearsOnParameter', [...BEARS_ON], 'a part of the rail')
    .optional()
    .openapi(about('What the rollers touch.')),
  benderMode: choiceParameter('BenderModeParameter', [...MODES], 'a way of bending')
    .optional()
    .openapi(about('Drawn through under load, or pressed and moved on.')),
  benderMaxPerPass: lengthParameter('BenderMaxPerPassParameter', LENGTH)
    .optional()
    .openapi(about('Depth that one pass may add.')),
  benderScrewPitch: lengthParameter('BenderScrewPitchParameter', LENGTH)
    .optional()
    .openapi(about('Depth of one turn of the screw.')),
})

export type BendsRequest = Partial<Omit<z.output<typeof BendsQuery>, 'refresh'>>

/** The body of a question about one curve. */
export const CurveSchema = fields({
  radius: Length.optional(),
  diameter: Diameter.optional(),
  gauge: Gauge.optional(),
  rail: Rail,
  chords: z.array(Length).max(LIMITS.chords).optional(),
  bender: BenderSchema.optional(),
  resolution: Resolution.optional(),
  angle: Angle.optional(),
})
  .check(exactlyOneOf('radius', 'diameter'))
  .openapi('Curve', {
    description:
      'One curve by the radius or diameter of its centre line, its rail and what bends it. The angle only counts for assembled track.',
    oneOf: [requiring('radius'), requiring('diameter')],
  })

const CalibratedRail = fields({ ...Rail.shape, calibration: Rail.shape.calibration.unwrap() }).openapi(
  'CalibratedRail',
  { description: 'A rail and at least one test bend of it.' },
)

/** The body of a question about test bends alone. */
export const CalibrationRequestSchema = fields({
  rail: CalibratedRail,
  bender: BenderSchema.optional(),
  resolution: Resolution.optional(),
}).openapi('CalibrationRequest', { description: 'A rail with its test bends, and the bender that made them.' })
