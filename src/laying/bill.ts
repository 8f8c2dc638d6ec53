import { COUNT_SLACK, roundedUp } from '../measure/counting.ts'
import { type Money, percentOf, priceOf, sumOf } from '../measure/money.ts'
import { sum } from '../measure/sum.ts'
import type { Pack, Supplies } from '../plan/rows/supplies.ts'

/** Everything a bill may list. */
export const BILL_ITEMS = [
  'rail-stick',
  'panel',
  'joiner',
  'transition-joiner',
  'insulated-joiner',
  'expansion-joint',
  'tie',
  'tie-strip',
  'fastener',
  'ballast',
  'feeder-wire',
  'extra',
] as const

export type BillItem = (typeof BILL_ITEMS)[number]

/** What a line is counted or measured in. */
export const BILL_UNITS = ['each', 'm', 'L', 'kg'] as const

export type BillUnit = (typeof BILL_UNITS)[number]

export interface Bill {
  currency: string
  lines: BillLine[]
  /** Priced lines only. */
  total: Money
  unpricedLines: number
  /** The same as `total`: prices are taken to be without tax. */
  net: Money
  /** Null, and so are tax and gross, when nothing is said of tax. */
  taxRatePct: number | null
  tax: Money | null
  gross: Money | null
  /** Of what is bought, as far as it is known. */
  massKg: number
  /** Lines with something to buy whose mass is not known. */
  linesWithoutMass: number
}

export interface BillLine {
  item: BillItem
  description: string
  /** The length of one piece where the item has one, otherwise null. */
  lengthMm: number | null
  unit: BillUnit
  /** Spares included. */
  required: number
  onHand: number
  toBuy: number
  packSize: number
  packs: number
  /** The price of one pack, two decimals; null without a price, and then the amount is null too. */
  unitPrice: Money | null
  amount: Money | null
  /** Where what is required comes from; their quantities and the spares add up to it. */
  reasons: Reason[]
  sparePct: number
  spares: number
  /** Of the packs that are bought; null when unknown. */
  massKg: number | null
}

/** A part of what is required, of one track or of the whole plan (null). */
export interface Reason {
  text: string
  track: string | null
  quantity: number
}

/** One thing the plan consumes, why, and how it is sold. */
export interface Need {
  readonly item: BillItem
  readonly description: string
  /** Of one piece, where the item has one. */
  readonly lengthMm?: number
  /** `each` when left out: then spares are whole ones. */
  readonly unit?: BillUnit
  readonly reasons: readonly Reason[]
  readonly pack: Pack
}

/**
 * The shopping list, a line for each need (also when nothing of it is required). required = Σ reasons + spares,
 * toBuy = max(0, required − on hand), packs = ⌈toBuy ÷ packSize⌉, amount = packs × price of a pack. Spares are sparePct of
 * Σ reasons, whole ones where things are counted. Rounding up has the slack of `roundedUp`.
 */
export function billOf(needs: readonly Need[], terms: Pick<Supplies, 'currency' | 'taxRatePct'>): Bill {
  return withTotals(needs.map(lineOf), terms)
}

/** A bill of these lines. */
export function withTotals<Line extends BillLine>(
  lines: Line[],
  terms: Pick<Supplies, 'currency' | 'taxRatePct'>,
): Bill & { lines: Line[] } {
  const total = sumOf(lines.flatMap(({ amount }) => amount ?? []))
  const { currency, taxRatePct } = terms
  const tax = taxRatePct === null ? null : percentOf(total, taxRatePct)
  return {
    currency,
    lines,
    total,
    unpricedLines: lines.filter(({ amount }) => amount === null).length,
    net: total,
    taxRatePct,
    tax,
    gross: tax === null ? null : sumOf([total, tax]),
    massKg: sum(lines.map(({ massKg }) => massKg ?? 0)),
    linesWithoutMass: lines.filter(({ massKg }) => massKg === null).length,
  }
}

function lineOf({ item, description, lengthMm, unit = 'each', reasons, pack }: Need): BillLine {
  const wanted = reasons.filter(({ quantity }) => quantity !== 0)
  const counted = unit === 'each'
  const parts = sum(wanted.map(({ quantity }) => quantity))
  const base = counted ? roundedUp(parts) : parts
  const { onHand, packSize, pricePerPack, sparePct, massEachG } = pack
  const spares = counted ? sparesFor(base, sparePct) : (base * sparePct) / 100
  const required = base + spares
  const toBuy = Math.max(0, required - onHand)
  const packs = roundedUp(toBuy / packSize)
  return {
    item,
    description,
    lengthMm: lengthMm ?? null,
    unit,
    required,
    onHand,
    toBuy,
    packSize,
    packs,
    unitPrice: pricePerPack,
    amount: pricePerPack === null ? null : priceOf(packs, pricePerPack),
    reasons: wanted.map(({ text, track, quantity }) => ({ text, track, quantity })),
    sparePct,
    spares,
    massKg: packs === 0 ? 0 : massEachG === null ? null : packs * packSize * (massEachG / 1000),
  }
}

/** Spares of things that are counted: `sparePct` of the count, rounded up. */
export function sparesFor(count: number, sparePct: number): number {
  return roundedUp((count * sparePct) / 100)
}

/**
 * Reasons whose quantities add up to a whole number: parts that make no whole ones by themselves get one reason more,
 * of what is bought beyond them.
 */
export function inWholeOnes(reasons: readonly Reason[]): Reason[] {
  const exact = sum(reasons.map(({ quantity }) => quantity))
  const beyond = roundedUp(exact) - exact
  if (beyond <= COUNT_SLACK * Math.max(1, exact)) return [...reasons]
  return [...reasons, { text: 'to make up whole ones', track: null, quantity: beyond }]
}
