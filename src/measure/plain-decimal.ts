import Big from 'big.js'

/**
 * A number in digits alone: the shortest that reads back as the same number, without exponent, plus sign or −0, as
 * `-?(0|[1-9]\d*)(\.\d+)?`. Throws where it is not finite.
 */
export function plainDecimal(value: number): string {
  const text = String(value === 0 ? 0 : value)
  if (!text.includes('e')) {
    if (!Number.isFinite(value)) throw new RangeError(`${value} has no digits`)
    return text
  }
  return new Big(text).toFixed()
}
