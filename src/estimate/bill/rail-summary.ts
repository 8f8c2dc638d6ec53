import { massPerMetreKg, type SectionProperties } from '../../bending/section-properties.ts'
import type { RailSummary, SectionPropertiesAnswer } from '../answer.ts'
import type { Plan } from '../plan.ts'

/**
 * The rail of the whole plan and what it weighs: m = A·ρ·ℓ, A the section's area, ρ the density of the temper (of the
 * material's usual temper when none is named), ℓ the length of all rails.
 */
export function railSummary({ section, metal }: Pick<Plan, 'section' | 'metal'>, lengthMm: number): RailSummary {
  const perMetreKg = metal.densityKgM3 === null ? null : massPerMetreKg(section.properties, metal.densityKgM3)
  return {
    section: section.id,
    material: metal.id,
    temper: metal.temper,
    massPerMetreKg: perMetreKg,
    lengthMm,
    massKg: perMetreKg === null ? null : (perMetreKg * lengthMm) / 1000,
    sectionProperties: sectionPropertiesAnswer(section.properties),
  }
}

/** A section's properties for the answer. */
export function sectionPropertiesAnswer(properties: SectionProperties): SectionPropertiesAnswer {
  const { areaMm2, lateralSecondMomentMm4, elasticModulusMm3, plasticModulusMm3, shapeFactor, extremeFibreMm } =
    properties
  return { areaMm2, lateralSecondMomentMm4, elasticModulusMm3, plasticModulusMm3, shapeFactor, extremeFibreMm }
}
