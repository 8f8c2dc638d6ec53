import { COUNT_SLACK, roundedUp } from '../measure/counting.ts'
import { inPlaces, percentOf, placesOf, priceOf, sumOf } from '../measure/money.ts'
import { sum } from '../measure/sum.ts'
import {
  type Answer,
  component,
  count,
  length,
  list,
  money,
  nullable,
  number,
  text,
  word,
} from '../plan/fields/answer.ts'
import type { Pack, Supplies } from '../plan/rows/supplies.ts'

/** Everything a bill may list. */
const BILL_ITEMS = [
  'rail-stick',
  'panel',
  'turnout',
  'joiner',
  'transition-joiner',
  'insulated-joiner',
  'expansion-joint',
  'tie',
  'tie-strip',
  'long-tie',
  'throw',
  'frog-switch',
  'fastener',
  'bridge',
  'ballast',
  'feeder-wire',
  'extra',
] as const

type BillItem = (typeof BILL_ITEMS)[number]

/** The unit of a line. */
const BILL_UNITS = ['each', 'm', 'L', 'kg'] as const

type BillUnit = (typeof BILL_UNITS)[number]

const REASON = component('Reason', 'A part of what is required, and the reason for it.', {
  text: text(),
  track: nullable(text('The track it concerns; null: the whole plan.')),
  quantity: number('Below zero where it comes with something else, such as ties with ready-made track.'),
})

export type Reason = Answer<typeof REASON>

export const BILL_LINE = component('BillLine', 'One item that the plan needs, and how much of it to buy.', {
  item: word(BILL_ITEMS, { title: 'Item', extensible: true }),
  description: text({ title: 'Description' }),
  lengthMm: nullable(
    length({ says: 'Length of one piece, mm; null where the item has no length.', title: 'Length of one' }),
  ),
  unit: word(BILL_UNITS, {
    says: 'The unit of required, onHand, toBuy and packSize; whole numbers only where it is each.',
    title: 'Unit',
  }),
  required: number({
    least: 0,
    says: 'The sum of the quantities of the reasons and the spares.',
    title: 'Needed',
  }),
  onHand: number({ least: 0, title: 'On hand' }),
  toBuy: number({ least: 0, title: 'To buy' }),
  packSize: number({ least: 0, title: 'Pack size' }),
  packs: count({ title: 'Packs' }),
  unitPrice: nullable(
    money({
      says: 'Price of one pack of packSize, not of one piece: amount is packs × unitPrice. Null if there is none, and then the amount is null too.',
      title: 'Price of a pack',
    }),
  ),
  amount: nullable(money({ title: 'Amount' })),
  reasons: list(REASON),
  sparePct: number({ title: 'Spare (%)' }),
  spares: number({ least: 0 }),
  massKg: nullable(
    number({ says: 'Mass of the packs to buy, kg; null if unknown.', title: 'Weight of the packs (kg)' }),
  ),
})

export type BillLine = Answer<typeof BILL_LINE>

/** Totals of a bill. */
export const BILL_TOTALS = {
  currency: text({ title: 'Currency' }),
  total: money({ says: 'Sum of the lines that have a price.', title: 'Total of the list' }),
  unpricedLines: count(),
  net: money('The same as total, since prices are without tax.'),
  taxRatePct: nullable(
    number({ says: 'Tax, percent; null, like tax and gross, where the plan gives no rate.', title: 'Tax (%)' }),
  ),
  tax: nullable(money({ title: 'Tax on the list' })),
  gross: nullable(money({ title: 'Total of the list with tax' })),
  massKg: number('Mass of what is to buy, kg, as far as it is known.'),
  linesWithoutMass: count('Number of lines with something to buy whose mass is unknown.'),
}

export const BILL = component('Bill', 'What the plan needs and what to buy.', {
  lines: list(BILL_LINE),
  ...BILL_TOTALS,
})

export type Bill = Answer<typeof BILL>

/** One thing the plan needs, why, and how it is sold. */
export interface Need {
  readonly item: BillItem
  readonly description: string
  /** Of one piece, where the item has a length. */
  readonly lengthMm?: number
  /** `each` when left out: then spares are whole numbers. */
  readonly unit?: BillUnit
  readonly reasons: readonly Reason[]
  readonly pack: Pack
}

/**
 * The shopping list, one line per need (even if none of it is required). required = Σ reasons + spares,
 * toBuy = max(0, required − on hand), packs = ⌈toBuy ÷ packSize⌉, amount = packs × price of a pack. Spares are sparePct
 * of Σ reasons, a whole number where things are counted. Rounding up has the slack of `roundedUp`.
 */
export function billOf(needs: readonly Need[], terms: Pick<Supplies, 'currency' | 'taxRatePct'>): Bill {
  return withTotals(
    needs.map((need) => lineOf(need, placesOf(terms.currency))),
    terms,
  )
}

/** A bill of these lines. */
export function withTotals<Line extends BillLine>(
  lines: Line[],
  terms: Pick<Supplies, 'currency' | 'taxRatePct'>,
): Bill & { lines: Line[] } {
  const { currency, taxRatePct } = terms
  const total = sumOf(
    lines.flatMap(({ amount }) => amount ?? []),
    placesOf(currency),
  )
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

function lineOf({ item, description, lengthMm, unit = 'each', reasons, pack }: Need, places: number): BillLine {
  const wanted = reasons.filter(({ quantity }) => quantity !== 0)
  const counted = unit === 'each'
  const parts = sum(wanted.map(({ quantity }) => quantity))
  const base = counted ? roundedUp(parts) : parts
  const { onHand, packSize, sparePct, massEachG } = pack
  const unitPrice = pack.pricePerPack === null ? null : inPlaces(pack.pricePerPack, places)
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
    unitPrice,
    amount: unitPrice === null ? null : priceOf(packs, unitPrice),
    reasons: wanted.map(({ text, track, quantity }) => ({ text, track, quantity })),
    sparePct,
    spares,
    massKg: packs === 0 ? 0 : massEachG === null ? null : packs * packSize * (massEachG / 1000),
  }
}

/** Spares of counted things: `sparePct` of the count, rounded up. */
export function sparesFor(count: number, sparePct: number): number {
  return roundedUp((count * sparePct) / 100)
}

/**
 * Reasons whose quantities add up to a whole number: where they do not, another reason is added
 * for the rest.
 */
export function inWholeOnes(reasons: readonly Reason[]): Reason[] {
  const exact = sum(reasons.map(({ quantity }) => quantity))
  const beyond = roundedUp(exact) - exact
  if (beyond <= COUNT_SLACK * Math.max(1, exact)) return [...reasons]
  return [...reasons, { text: 'rounding up', track: null, quantity: beyond }]
}
