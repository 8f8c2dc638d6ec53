import Big from 'big.js'

/** Money is a decimal string with two places everywhere inside the program; it never passes through a binary float. */
export type Money = string

export type ParsedMoney =
  | { readonly ok: true; readonly money: Money }
  | { readonly ok: false; readonly reason: string; readonly hint: string }

/** Prices above this are taken for typing errors. */
const GREATEST = new Big('1000000000')

/**
 * Reads a price. A JSON number is read by its shortest decimal form (14.5 is exactly 14.50).
 *
 * @returns the price with two places, or what is wrong with it: negative, more than two places, not a plain decimal
 */
export function parseMoney(value: string | number): ParsedMoney {
  const text = typeof value === 'number' ? String(value) : value.trim()
  if (!/^\d+(\.\d+)?$/.test(text))
    return { ok: false, reason: `"${text.slice(0, 40)}" is not a price`, hint: 'write a plain decimal such as "14.50"' }
  const amount = new Big(text)
  if (amount.gt(GREATEST)) return { ok: false, reason: 'the price is over 1,000,000,000', hint: 'check the decimals' }
  if (!amount.round(2).eq(amount))
    return {
      ok: false,
      reason: `${text} has more than two decimal places`,
      hint: 'give the price of a larger pack: packSize 100 at "12.50" instead of "0.125" each',
    }
  return { ok: true, money: amount.toFixed(2) }
}

/** `count` packs at `price`, exactly. */
export function priceOf(count: number, price: Money): Money {
  return new Big(price).times(count).toFixed(2)
}

/** Money in whole cents. */
export function centsOf(money: Money): number {
  return new Big(money).times(100).toNumber()
}

/** Whole cents as money. */
export function moneyOf(cents: number): Money {
  return new Big(cents).div(100).toFixed(2)
}

export function sumOf(amounts: readonly Money[]): Money {
  return amounts.reduce((sum, amount) => sum.plus(amount), new Big(0)).toFixed(2)
}

/** `pct` percent of an amount, to the nearest hundredth, halves up: tax as a shop adds it to the total. */
export function percentOf(amount: Money, pct: number): Money {
  return new Big(amount).times(pct).div(100).toFixed(2, Big.roundHalfUp)
}

/** Negative, zero or positive as `a` is less than, equal to or more than `b`. */
export function compareMoney(a: Money, b: Money): number {
  return new Big(a).cmp(b)
}
