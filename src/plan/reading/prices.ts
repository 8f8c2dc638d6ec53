import type { Fault } from '../../measure/fault.ts'
import { tooFine } from '../../measure/money.ts'
import { optionOf } from '../fields/complete.ts'
import type { AnyValue, Field, Item } from '../fields/field.ts'
import { SUPPLIES } from '../rows/supplies.ts'
import { valueAt } from './value-at.ts'

interface Written {
  readonly path: Fault['path']
  readonly field: AnyValue
  readonly value: unknown
}

const CURRENCY = SUPPLIES.fields.currency

/** The currency that supplies, or a cut plan, are written in; null: it cannot be read. */
export function currencyIn(supplies: unknown): string | null {
  const given = valueAt(supplies, ['currency'])
  const read = given === undefined ? null : CURRENCY.read(given)
  if (read === null) return CURRENCY.usual!.value
  return read.ok ? read.value : null
}

/**
 * Prices with more decimal places than their currency has.
 *
 * @param item what the value should be; it may have other faults, which are reported elsewhere
 * @param currency that of the prices; null: it is not known, and nothing is a fault
 */
export function priceFaults(item: Item, raw: unknown, currency: string | null): Fault[] {
  if (currency === null) return []
  return pricesIn(item, raw, []).flatMap(({ path, field, value }) => {
    const read = field.read(value)
    const fault = read.ok ? tooFine(read.value, currency) : null
    return fault ? [{ path, code: 'bad-price', detail: fault.reason, hint: fault.hint }] : []
  })
}

function pricesIn(item: Item, value: unknown, path: Fault['path']): Written[] {
  if (item.is === 'value') return item.kind === 'price' ? [{ path, field: item, value }] : []
  if (typeof value !== 'object' || value === null || !holdsPrices(item)) return []
  if (item.is === 'variants') {
    const option = optionOf(item, value) as Item | undefined
    return option ? pricesIn(option, value, path) : []
  }
  return Object.entries(item.fields).flatMap(([name, field]) => {
    const given = Object.hasOwn(value, name) ? (value as Record<string, unknown>)[name] : undefined
    return given === undefined ? [] : pricesOfField(field, given, [...path, name])
  })
}

function pricesOfField(field: Field, value: unknown, path: Fault['path']): Written[] {
  if (field.is === 'value') return pricesIn(field, value, path)
  if (field.is === 'part') return pricesIn(field.item, value, path)
  if (!Array.isArray(value) || !holdsPrices(field.item)) return []
  return value.flatMap((each, index) => pricesIn(field.item, each, [...path, index]))
}

/** So that the elements of long tracks are not looked at. */
const KNOWN = new WeakMap<Item, boolean>()

function holdsPrices(item: Item): boolean {
  if (item.is === 'value') return item.kind === 'price'
  const holds =
    KNOWN.get(item) ??
    (item.is === 'variants'
      ? item.options.some(holdsPrices)
      : Object.values(item.fields).some((field) => holdsPrices(field.is === 'value' ? field : field.item)))
  KNOWN.set(item, holds)
  return holds
}
