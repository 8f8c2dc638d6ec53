import { sectionAreaMm2 } from '../catalogue/sections.ts'
import type { RailSummary } from './answer.ts'
import type { Plan } from './plan.ts'

/**
 * The rail of the whole plan and what it weighs: m = A·ρ·ℓ, A the section's area, ρ the density of the temper (of the
 * material's usual temper when none is named), ℓ the length of all rails.
 */
export function railSummary(plan: Pick<Plan, 'section' | 'material' | 'temper'>, lengthMm: number): RailSummary {
  const { section, material } = plan
  const temper = plan.temper ?? material.tempers.find(({ id }) => id === material.usualTemper)!
  const massPerMetreKg = sectionAreaMm2(section) * 1e-6 * temper.densityKgM3
  return {
    section: section.id,
    material: material.id,
    temper: plan.temper?.id ?? null,
    massPerMetreKg,
    lengthMm,
    massKg: (massPerMetreKg * lengthMm) / 1000,
  }
}
