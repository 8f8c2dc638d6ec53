import { MATERIAL_SPELLINGS, MATERIALS } from '../../catalogue/materials.ts'
import { isObject } from '../form/plan-shape.ts'
import type { WorkedPlan } from '../pages/worked-plan.ts'

/** The metals that garden rail is sold in (common practice, no source). */
const USUAL_METALS = ['brass', 'stainless', 'aluminium'] as const

/** Prices of sticks in other metals as they were typed, by the names of their fields. */
export type MetalPrices = ReadonlyMap<string, string>

/** A metal the plan is worked out in, and what was typed for it. */
export interface AskedMetal {
  readonly material: unknown
  readonly name: string
  /** A field for each length that is on sale; none for the plan's own metal, whose prices the plan has. */
  readonly prices: readonly MetalPrice[]
}

export interface MetalPrice {
  readonly field: string
  readonly lengthMm: number
  readonly typed: string
}

const FIELD = /^metal\.[a-z]+\.\d+$/

export function metalPricesIn(fields: ReadonlyMap<string, string>): MetalPrices {
  return new Map([...fields].filter(([name]) => FIELD.test(name)))
}

/**
 * The plan's own metal first, then the usual ones.
 *
 * @param plan as it was written
 */
export function metalsOf(
  plan: Readonly<Record<string, unknown>>,
  { plan: { supplies } }: WorkedPlan,
  typed: MetalPrices,
): AskedMetal[] {
  const lengthsMm = supplies.sticks.filter(({ buyable }) => buyable).map(({ length: lengthMm }) => lengthMm)
  const written = isObject(plan.rail) ? plan.rail.material : undefined
  const own = typeof written === 'string' ? (MATERIAL_SPELLINGS[written] ?? written) : written
  const others = USUAL_METALS.filter((id) => id !== own).map(
    (id): AskedMetal => ({
      material: id,
      name: nameOf(id),
      prices: lengthsMm.map((lengthMm, index) => {
        const field = `metal.${id}.${index}`
        return { field, lengthMm, typed: typed.get(field) ?? '' }
      }),
    }),
  )
  return [{ material: written, name: nameOf(own), prices: [] }, ...others]
}

/** What `readComparison` reads. A metal is sold in the lengths that have a price; without any in all, unpriced. */
export function comparisonAsked(plan: unknown, metals: readonly AskedMetal[]): unknown {
  return {
    plan,
    materials: metals.map(({ material, prices }) => {
      const sticks = pricesGiven(prices).map(({ lengthMm, typed }) => ({ length: lengthMm, price: typed.trim() }))
      return { material, ...(sticks.length > 0 && { sticks }) }
    }),
  }
}

export function pricesGiven(prices: readonly MetalPrice[]): MetalPrice[] {
  return prices.filter(({ typed }) => typed.trim() !== '')
}

function nameOf(material: unknown): string {
  return MATERIALS.find(({ id }) => id === material)?.name ?? 'Your own metal'
}
