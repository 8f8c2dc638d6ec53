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
    const scale = SCALES[Math.max(0, Math.floor(Math.log10(size)) + 1 + SMALLEST)]!
    return Math.round(x * scale) / scale
  }
  return Number.isFinite(x) ? Number(x.toPrecision(DIGITS)) : x
}

/** Digits before the point of the smallest numbers that are scaled, 1e-9. */
const SMALLEST = 8
const SCALES = Array.from({ length: 21 }, (_, index) => Number(`1e${DIGITS + SMALLEST - index}`))

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
  for (const [index, value] of list.entries()) {
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
