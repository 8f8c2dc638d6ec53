import type { Metal } from '../bending/metal.ts'
import type { CustomMetal } from './plan.ts'

const MPA_PER_GPA = 1000

/** A metal given by its numbers, in the units of bending. */
export function metalOfNumbers({ youngsModulusGpa, yieldMpa, hardening, elongationPct }: CustomMetal): Metal {
  return {
    youngsModulusMpa: youngsModulusGpa * MPA_PER_GPA,
    yieldMpa,
    hardening:
      hardening.model === 'linear'
        ? { model: 'linear', tangentModulusMpa: hardening.tangentModulusGpa * MPA_PER_GPA }
        : hardening,
    elongationPct: elongationPct ?? null,
  }
}
