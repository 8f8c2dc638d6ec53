import { z } from '@hono/zod-openapi'
import { AssumptionSchema, OrdinatesSchema } from './estimate.ts'
import { DIAMETER, LENGTH } from './measures.ts'
import { LIMITS } from './plan.ts'
import { MATERIAL_NAMES, SECTION_IDS } from './plan-fields.ts'
import { choiceParameter, lengthParameter, lengthsParameter, query, textParameter } from './query.ts'

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
})

export type BendsRequest = Partial<Omit<z.output<typeof BendsQuery>, 'refresh'>>

const BentRailSchema = z
  .object({
    rail: z.enum(['outer', 'inner']),
    radiusMm: z.number().openapi({ description: "Of the rail's own line." }),
    measuredRadiusMm: z
      .number()
      .openapi({ description: 'Of the concave side of the head; ordinates are computed here.' }),
    ordinates: z.array(OrdinatesSchema),
  })
  .openapi('BentRail')

export const BendsSchema = z
  .object({
    trackRadiusMm: z.number(),
    rails: z.array(BentRailSchema),
    assumptions: z.array(AssumptionSchema).openapi({ description: 'Fields are the names of query parameters.' }),
  })
  .openapi('Bends')

export type Bends = z.output<typeof BendsSchema>
