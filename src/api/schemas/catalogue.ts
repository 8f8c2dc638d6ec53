import { z } from '@hono/zod-openapi'
import type { Material, RailSection } from '../../catalogue/types.ts'
import type { Same } from './same-type.ts'

const number = z.number()
const origin = {
  source: z.string(),
  estimated: z.boolean().openapi({ description: 'True: a proportion or a memory rather than a published figure.' }),
}
const estimatedFields = z.array(z.string()).readonly().openapi({ description: 'Every number that is estimated.' })

const SectionSchema = z
  .object({
    id: z.string(),
    name: z.string(),
    heightMm: number,
    headWidthMm: number,
    footWidthMm: number,
    webThicknessMm: number,
    headDepthMm: number,
    footDepthMm: number,
    ...origin,
    estimatedFields,
  })
  .openapi('RailSection')

const TemperSchema = z
  .object({
    id: z.string(),
    name: z.string(),
    youngsModulusGpa: number,
    yieldMpa: number,
    tensileMpa: number,
    elongationPct: number,
    rambergOsgoodN: number,
    expansionPerK: number,
    densityKgM3: number,
    resistivityOhmM: number,
    ...origin,
    rambergOsgoodSource: z.string().openapi({ description: 'Where rambergOsgoodN comes from.' }),
    estimatedFields,
  })
  .openapi('Temper')

const MaterialSchema = z
  .object({
    id: z.string(),
    name: z.string(),
    tempers: z.array(TemperSchema).readonly(),
    usualTemper: z.string().openapi({ description: 'Its density stands for the material when no temper is named.' }),
    ...origin,
  })
  .openapi('Material')

export const SectionsSchema = z.object({ items: z.array(SectionSchema).readonly() }).openapi('RailSections')
export const MaterialsSchema = z.object({ items: z.array(MaterialSchema).readonly() }).openapi('Materials')

true satisfies Same<z.output<typeof SectionSchema>, RailSection>
true satisfies Same<z.output<typeof MaterialSchema>, Material>
