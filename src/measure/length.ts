import { excerpt } from './excerpt.ts'
/** Exact by definition: 1 in = 25.4 mm, 1 ft = 304.8 mm (international yard and pound agreement, 1959). */
export const MM_PER_INCH = 25.4
export const MM_PER_FOOT = 304.8

export type ParsedLength =
  | { readonly ok: true; readonly mm: number }
  | { readonly ok: false; readonly reason: string; readonly hint: string }

const NUMBER = String.raw`\d+\/\d+|\d+[ -]\d+\/\d+|\d+(?:\.\d+)?|\.\d+`
const FEET = `ft|feet|foot|'`
const INCHES = `inches|inch|in|"|''`
const METRIC = `mm|millimet(?:re|er)s?|cm|centimet(?:re|er)s?|m|met(?:re|er)s?`
const FEET_AND_INCHES = new RegExp(`^(${NUMBER}) ?(?:${FEET})(?: ?-? ?(${NUMBER}) ?(?:${INCHES}))?$`)
const ONLY_INCHES = new RegExp(`^(${NUMBER}) ?(?:${INCHES})$`)
const ONLY_METRIC = new RegExp(`^(${NUMBER}) ?(${METRIC})$`)
const BARE = new RegExp(`^(?:${NUMBER})$`)
const SIMPLE = /^(\d+(?:\.\d+)?) ?(ft|in|m|mm|cm)$/
const EXAMPLES = 'write for example "8 ft", "7 ft 6-1/2 in", "2.4 m" or "45 mm"'

/** Tenths of a millimetre in each unit, so that 6 ft is 1828.8 mm to the last bit: a whole product, divided once. */
const TENTHS = { ft: 3048, in: 254, m: 10_000, cm: 100, mm: 10 } as const
type Unit = keyof typeof TENTHS

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
}

/**
 * Reads a length with its unit: feet (`ft`, `feet`, `'`) with or without inches (`in`, `"`), inches alone, or one
 * metric figure (`mm`, `cm`, `m`); decimals, fractions and mixed fractions (`6 1/2`, `6-1/2`, `6½`); curly quotes and
 * primes are read as ' and "; a leading minus is allowed (a coordinate or an elevation may be negative).
 *
 * @param text the length as typed
 * @returns millimetres, or what is wrong and how to write it; a text without a unit is refused
 */
export function parseLength(text: string): ParsedLength {
  const simple = SIMPLE.exec(text)
  if (simple) return finite(text, mmOf(Number(simple[1]), simple[2] as Unit))

  const tidy = tidied(text)
  const negative = tidy.startsWith('-')
  const body = negative ? tidy.slice(1).trimStart() : tidy
  const sign = negative ? -1 : 1

  const imperial = FEET_AND_INCHES.exec(body)
  if (imperial) {
    const feet = readNumber(imperial[1]!)
    const inches = imperial[2] === undefined ? 0 : readNumber(imperial[2])
    if (imperial[2] !== undefined && !Number.isInteger(feet))
      return refused(`"${excerpt(text)}" has a fraction of a foot as well as inches`, 'write whole feet before inches')
    return finite(text, sign * mmOf(feet * 12 + inches, 'in'))
  }
  const inches = ONLY_INCHES.exec(body)
  if (inches) return finite(text, sign * mmOf(readNumber(inches[1]!), 'in'))
  const metric = ONLY_METRIC.exec(body)
  if (metric) return finite(text, sign * mmOf(readNumber(metric[1]!), metricUnit(metric[2]!)))

  if (BARE.test(body)) return refused(`"${excerpt(text)}" has no unit`, `${EXAMPLES}; a JSON number is millimetres`)
  if (/\d,\d/.test(body)) return refused(`"${excerpt(text)}" has a comma`, `use a point for decimals; ${EXAMPLES}`)
  return refused(`"${excerpt(text)}" cannot be read as a length`, EXAMPLES)
}

/** Millimetres as people write them, without trailing zeros: `381 mm`, `2743.2 mm`. */
export function formatMm(mm: number, decimals = 1): string {
  const text = mm.toFixed(decimals)
  const plain = text.includes('.') ? text.replace(/\.?0+$/, '') : text
  return `${plain === '-0' ? '0' : plain} mm`
}

/**
 * Feet, inches and the nearest fraction of an inch: `7 ft 6-1/2 in`, `6-1/16 in`, `8 ft`. What it prints, `parseLength`
 * reads back to within half a step.
 *
 * @param denominator steps to an inch, a power of two (16 by default)
 */
export function formatFeetInches(mm: number, denominator = 16): string {
  const steps = Math.round((Math.abs(mm) / MM_PER_INCH) * denominator)
  const feet = Math.floor(steps / (12 * denominator))
  const rest = steps - feet * 12 * denominator
  const inches = Math.floor(rest / denominator)
  const fraction = reduced(rest - inches * denominator, denominator)
  const inchText = fraction === '' ? `${inches}` : inches === 0 ? fraction : `${inches}-${fraction}`
  const parts = [feet > 0 ? `${feet} ft` : '', inchText !== '0' || feet === 0 ? `${inchText} in` : '']
  return `${mm < 0 && steps > 0 ? '-' : ''}${parts.filter(Boolean).join(' ')}`
}

function tidied(text: string): string {
  return text
    .replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign]}`)
    .replace(/[’′‘]/g, "'")
    .replace(/[”″“]/g, '"')
    .replace(/[−–]/g, '-')
    .replace(/\s+/g, ' ')
    .trim()
    .toLowerCase()
}

function readNumber(text: string): number {
  const fraction = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(text)
  if (!fraction) return Number(text)
  return Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3])
}

function metricUnit(unit: string): Unit {
  if (unit === 'mm' || unit.startsWith('milli')) return 'mm'
  return unit === 'cm' || unit.startsWith('centi') ? 'cm' : 'm'
}

function mmOf(value: number, unit: Unit): number {
  return (value * TENTHS[unit]) / 10
}

function finite(text: string, mm: number): ParsedLength {
  return Number.isFinite(mm) ? { ok: true, mm } : refused(`"${excerpt(text)}" is not a finite length`, EXAMPLES)
}

function refused(reason: string, hint: string): ParsedLength {
  return { ok: false, reason, hint }
}

function reduced(numerator: number, denominator: number): string {
  if (numerator === 0) return ''
  let [top, bottom] = [numerator, denominator]
  while (top % 2 === 0 && bottom % 2 === 0) {
    top /= 2
    bottom /= 2
  }
  return `${top}/${bottom}`
}
