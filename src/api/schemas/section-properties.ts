import { z } from '@hono/zod-openapi'

const number = z.number()

export const SectionPropertiesSchema = z
  .object({
    areaMm2: number,
    lateralSecondMomentMm4: number,
    elasticModulusMm3: number,
    plasticModulusMm3: number,
    shapeFactor: number,
    extremeFibreMm: number,
  })
  .openapi('SectionProperties', { description: 'Of the rail section, about its vertical axis.' })
