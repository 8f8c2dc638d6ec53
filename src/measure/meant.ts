/**
 * Numbers as they were meant. A binary float can rarely hold a decimal exactly, so arithmetic leaves residue: 762 mm /
 * 25.4 mm per inch is 29.999999999999996. What is written is therefore rounded to 13 significant digits, which keeps a
 * relative error below 1e-12, and a length or an angle of less than a billionth is 0. Rounding twice changes nothing.
 */
const DIGITS = 13

/** Of a mm or a degree; less is the residue of coordinates that cancel each other. */
const NOTHING = 1e-9

/**
 * The number nearest to x of at most 13 significant digits: round(x·10^k)/10^k with k = 13 − digits before the point.
 * 10^k is exact up to k = 22 and the rounded product below 2^53, so the one division yields the float that stands for
 * that decimal. Test: tests/measure/meant.test.ts.
 *
 * @param x any number; whole numbers are returned as they are
 * @param name of the field, with its unit at the end
 */
export function meantNumber(x: number, name = ''): number {
  if (Number.isInteger(x)) return x
  const size = Math.abs(x)
  if (size < NOTHING) return isPlace(name) ? 0 : Number(x.toPrecision(DIGITS))
  if (size < 1e12) {
    const scale = scaleFor(size)
    return Math.round(x * scale) / scale
  }
  return Number.isFinite(x) ? Number(x.toPrecision(DIGITS)) : x
}

/** 10^k of a number from 1e-9 to 1e12. Comparing is faster than a logarithm, as most numbers are near 1. */
function scaleFor(size: number): number {
  let index = 0
  if (size >= 1) while (size >= OVER_ONE[index]!) index++
  else while (size < UNDER_ONE[index]!) index++
  return size >= 1 ? SCALES_OVER_ONE[index]! : SCALES_UNDER_ONE[index]!
}

/** The scale is the next one from here on, with one digit more before the point. */
const OVER_ONE = Array.from({ length: 12 }, (_, index) => Number(`1e${index + 1}`))
const SCALES_OVER_ONE = OVER_ONE.map((_, index) => Number(`1e${DIGITS - 1 - index}`))
/** The scale is the next one below here, with one zero more after the point; the last is for all that is smaller. */
const UNDER_ONE = Array.from({ length: 8 }, (_, index) => Number(`1e-${index + 1}`))
const SCALES_UNDER_ONE = [...UNDER_ONE, 0].map((_, index) => Number(`1e${DIGITS + index}`))

function isPlace(name: string): boolean {
  return (name.endsWith('Mm') || name.endsWith('Deg')) && !name.endsWith('PerMm')
}

/** An answer with all its numbers as they were meant. What need not change is not copied. */
export function meant<T>(answer: T): T {
  return meantValue(answer, '') as T
}

function meantValue(value: unknown, name: string): unknown {
  if (typeof value === 'number') return meantNumber(value, name)
  if (typeof value !== 'object' || value === null) return value
  return Array.isArray(value) ? meantList(value, name) : meantObject(value as Record<string, unknown>)
}

function meantList(list: readonly unknown[], name: string): readonly unknown[] {
  let copy: unknown[] | undefined
  for (let index = 0; index < list.length; index++) {
    const value = list[index]
    const rounded = meantValue(value, name)
    if (rounded === value) continue
    copy ??= list.slice()
    copy[index] = rounded
  }
  return copy ?? list
}

function meantObject(object: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  let copy: Record<string, unknown> | undefined
  for (const name in object) {
    const value = object[name]
    const rounded = meantValue(value, name)
    if (rounded === value) continue
    copy ??= { ...object }
    copy[name] = rounded
  }
  return copy ?? object
}
