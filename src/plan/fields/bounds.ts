import { formatMm, parseLength } from '../../measure/length.ts'
import { accepted, notA, type Read, refused } from './read.ts'

/** Both inclusive. */
export interface Bounds {
  readonly least: number
  readonly most: number
  /** What to do about a value out of bounds. */
  readonly hint?: string
}

/** No garden is longer than 10 km; a greater length is a slip in the unit. */
const LONGEST_MM = 1e7

const CHECK_UNIT = 'check the unit: a number is millimetres, "8 ft" is feet'

/** Shorter than this is nothing one could lay or measure; it would only upset the arithmetic. */
const SHORTEST_MM = 0.001

export const LENGTH: Bounds = { least: SHORTEST_MM, most: LONGEST_MM, hint: CHECK_UNIT }
export const LENGTH_OR_ZERO: Bounds = { least: 0, most: LONGEST_MM, hint: CHECK_UNIT }
export const COORDINATE: Bounds = { least: -LONGEST_MM, most: LONGEST_MM, hint: CHECK_UNIT }
/** Twice the greatest radius. */
export const DIAMETER: Bounds = { least: 2 * SHORTEST_MM, most: 2 * LONGEST_MM, hint: CHECK_UNIT }

/** Characters of a length in words. */
export const LENGTH_TEXT = 60

const HOW_TO_WRITE = 'write a number of millimetres, or a text with its unit such as "8 ft" or "2.4 m"'

/** Reads a length in a JSON body, mm: a number is millimetres, a text carries its unit. */
export function readLength(value: unknown, bounds: Bounds): Read<number> {
  if (typeof value === 'number') return withinMm(value, bounds)
  if (typeof value !== 'string') return notA('a length', value, HOW_TO_WRITE)
  if (value.length > LENGTH_TEXT) return refused('too-long', `a length of ${value.length} characters`, HOW_TO_WRITE)
  const parsed = parseLength(value)
  return parsed.ok ? withinMm(parsed.mm, bounds) : refused('bad-length', parsed.reason, parsed.hint)
}

function withinMm(mm: number, bounds: Bounds): Read<number> {
  return within(mm, bounds, (value) => (Math.abs(value) < LONGEST_MM ? formatMm(value, 4) : `${value / 1e6} km`))
}

/** Refuses what is out of bounds, infinite numbers (1e999) among it. */
export function within(value: number, bounds: Bounds, show: (value: number) => string): Read<number> {
  const { least, most, hint } = bounds
  if (!(value >= least))
    return refused('out-of-range', `${show(value)} is too small: ${show(least)} is the least`, hint)
  if (!(value <= most)) return refused('out-of-range', `${show(value)} is too large: the limit is ${show(most)}`, hint)
  return accepted(value)
}

/** Keywords of JSON Schema for a range. */
export function rangeKeywords({ least, most }: Bounds) {
  return { minimum: least, maximum: most }
}
