import { MATERIAL_SPELLINGS, MATERIALS } from '../../catalogue/materials.ts'
import { USUAL } from '../../plan/usual.ts'
import { isObject } from '../form/plan-shape.ts'
import type { WorkedPlan } from '../pages/worked-plan.ts'

/** The metals that garden rail is sold in (common practice, no source). */
const USUAL_METALS = ['brass', 'stainless', 'aluminium'] as const

/** Prices of sticks in other metals as typed, by field name. */
export type MetalPrices = ReadonlyMap<string, string>

/** A metal to compare, with the prices typed for it. */
export interface MetalToCompare {
  readonly material: unknown
  readonly name: string
  /** A field for each length on sale; none for the plan's own metal, since the plan has its prices. */
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
 * @param plan as it was sent
 */
export function metalsOf(
  plan: Readonly<Record<string, unknown>>,
  { plan: { supplies } }: Pick<WorkedPlan, 'plan'>,
  typed: MetalPrices,
): MetalToCompare[] {
  const sticks = supplies?.sticks ?? [USUAL.stick]
  const lengthsMm = sticks.filter(({ buyable }) => buyable !== false).map(({ length: lengthMm }) => lengthMm)
  const written = isObject(plan.rail) ? plan.rail.material : undefined
  const own = typeof written === 'string' ? (MATERIAL_SPELLINGS[written] ?? written) : written
  const others = USUAL_METALS.filter((id) => id !== own).map(
    (id): MetalToCompare => ({
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

/** The input of `readComparison`. A metal is sold in the lengths that have a price; if none has one, in all lengths, without prices. */
export function comparisonAsked(plan: unknown, metals: readonly MetalToCompare[]): unknown {
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
  return MATERIALS.find(({ id }) => id === material)?.name ?? 'Custom metal'
}
