import Big from 'big.js'

/**
 * Money is a decimal string with the places of its currency everywhere inside the program, two for most; it never passes
 * through a binary float.
 */
export type Money = string

export type ParsedMoney =
  | { readonly ok: true; readonly money: Money }
  | { readonly ok: false; readonly reason: string; readonly hint: string }

/** Prices above this are taken for typing errors. */
const GREATEST = new Big('1000000000')

/** Decimal places of the currencies that have not two: the minor units of ISO 4217. */
const PLACES: ReadonlyMap<string, number> = new Map(
  [
    [0, 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'],
    [3, 'BHD IQD JOD KWD LYD OMR TND'],
    [4, 'CLF UYW'],
  ].flatMap(([places, codes]) =>
    String(codes)
      .split(' ')
      .map((code) => [code, Number(places)] as const),
  ),
)
const USUAL_PLACES = 2
const MOST_PLACES = Math.max(...PLACES.values())

/** How many decimal places an amount in this currency has. */
export function placesOf(currency: string): number {
  return PLACES.get(currency) ?? USUAL_PLACES
}

/**
 * Reads a price. A JSON number is read by its shortest decimal form (14.5 is exactly 14.50). Whether it has too many
 * places for its currency is another question (`tooFine`).
 *
 * @returns the price with two places, or more if it has more; or what is wrong with it: negative, not a plain decimal,
 *   more places than any currency has
 */
export function parseMoney(value: string | number): ParsedMoney {
  const text = typeof value === 'number' ? String(value) : value.trim()
  if (!/^\d+(\.\d+)?$/.test(text))
    return { ok: false, reason: `"${text.slice(0, 40)}" is not a price`, hint: 'write a plain decimal such as "14.50"' }
  const amount = new Big(text)
  if (amount.gt(GREATEST)) return { ok: false, reason: 'the price is over 1,000,000,000', hint: 'check the decimals' }
  const places = decimalsOf(amount)
  if (places > MOST_PLACES) return { ok: false, reason: `${text} has more than four decimal places`, hint: LARGER_PACK }
  return { ok: true, money: amount.toFixed(Math.max(USUAL_PLACES, places)) }
}

const LARGER_PACK = 'give the price of a larger pack: packSize 100 at "12.50" instead of "0.125" each'
const AT_MOST = ['', 'one', 'two', 'three', 'four']

/** What is wrong with an amount that has more decimal places than its currency; null: nothing. */
export function tooFine(money: Money, currency: string): { readonly reason: string; readonly hint: string } | null {
  const places = placesOf(currency)
  if (decimalsOf(new Big(money)) <= places) return null
  if (places === USUAL_PLACES) return { reason: `${money} has more than two decimal places`, hint: LARGER_PACK }
  const reason =
    places === 0 ? `${money} has decimal places` : `${money} has more than ${AT_MOST[places]} decimal places`
  const takes = places === 0 ? 'has none' : `has ${AT_MOST[places]}`
  return { reason, hint: `${currency} ${takes}: check the currency, or give the price of a larger pack` }
}

/** Without zeros at the end. */
function decimalsOf(amount: Big): number {
  return Math.max(0, amount.c.length - 1 - amount.e)
}

/** An amount with the places of its currency. */
export function inPlaces(money: Money, places: number): Money {
  return new Big(money).toFixed(places)
}

/** `count` packs at `price`, exactly. */
export function priceOf(count: number, price: Money): Money {
  return new Big(price).times(count).toFixed(placesIn(price))
}

/** Money in the smallest unit of its currency, such as whole cents. */
export function minorUnitsOf(money: Money): number {
  return Number(money.replace('.', ''))
}

/** The smallest units of a currency as money. */
export function moneyOf(minorUnits: number, places: number): Money {
  return new Big(minorUnits).div(10 ** places).toFixed(places)
}

/** With as many places as the amounts have; `places` if there are none. */
export function sumOf(amounts: readonly Money[], places = USUAL_PLACES): Money {
  const most = amounts.length === 0 ? places : Math.max(...amounts.map(placesIn))
  return amounts.reduce((sum, amount) => sum.plus(amount), new Big(0)).toFixed(most)
}

/** `pct` percent of an amount, to its last place, halves up: tax as a shop adds it to the total. */
export function percentOf(amount: Money, pct: number): Money {
  return new Big(amount).times(pct).div(100).toFixed(placesIn(amount), Big.roundHalfUp)
}

/** What `a` is more than `b`; with a minus sign where it is less. */
export function moneyMore(a: Money, b: Money): Money {
  return new Big(a).minus(b).toFixed(Math.max(placesIn(a), placesIn(b)))
}

/** Negative, zero or positive as `a` is less than, equal to or more than `b`. */
export function compareMoney(a: Money, b: Money): number {
  return new Big(a).cmp(b)
}

function placesIn(money: Money): number {
  const point = money.indexOf('.')
  return point < 0 ? 0 : money.length - point - 1
}
