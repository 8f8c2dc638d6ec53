import { formatFeetInches, MM_PER_FOOT, MM_PER_INCH } from './length.ts'

/*
 * A length or an angle close to a calculated one, written as the person wrote the one it replaces: the same unit, and
 * no more digits than it takes. Step 0 is the coarsest, `FINEST` the finest.
 */

export type Rounding = 'nearest' | 'up' | 'down'

export const FINEST = 6

const IMPERIAL = /(ft|feet|foot|inches|inch|in|['"’′‘”″“])\s*$/i
const IN_FEET = /ft|feet|foot|(^|[^'])'([^']|$)|[’′‘]/i
const METRIC: readonly {
  readonly written: RegExp
  readonly unit: string
  readonly mm: number
  readonly digits: number
}[] = [
  { written: /(mm|millimet\w+)\s*$/i, unit: 'mm', mm: 1, digits: 0 },
  { written: /(cm|centimet\w+)\s*$/i, unit: 'cm', mm: 10, digits: 1 },
  { written: /(m|met\w+)\s*$/i, unit: 'm', mm: 1000, digits: 3 },
]

/** 1/8 in, 1/16, 1/32, 1/64, then thousandths and finer. */
const DENOMINATORS = [8, 16, 32, 64]

/** Millimetres in steps of 1, 0.1, …; inches in eighths, sixteenths, …: `given` is a number of mm or a text with its unit. */
export function lengthLike(given: unknown, mm: number, step: number, rounding: Rounding = 'nearest'): number | string {
  if (typeof given !== 'string') return decimal(mm, step, rounding)
  if (IMPERIAL.test(given)) return imperialLike(given, mm, step, rounding)
  const { unit, mm: mmPerUnit, digits } = METRIC.find(({ written }) => written.test(given)) ?? METRIC[0]!
  return `${decimal(mm / mmPerUnit, step + digits, rounding)} ${unit}`
}

/** Degrees in steps of 1, 0.1, … */
export function angleLike(degrees: number, step: number, rounding: Rounding = 'nearest'): number {
  return decimal(degrees, step, rounding)
}

function imperialLike(given: string, mm: number, step: number, rounding: Rounding): string {
  const denominator = DENOMINATORS[step]
  const inFeet = IN_FEET.test(given) && Math.abs(mm) >= MM_PER_FOOT
  if (denominator === undefined) return `${decimal(mm / MM_PER_INCH, step - 1, rounding)} in`
  const steps = rounded((mm / MM_PER_INCH) * denominator, rounding)
  if (inFeet) return formatFeetInches((steps / denominator) * MM_PER_INCH, denominator)
  const whole = Math.trunc(steps / denominator)
  const fraction = formatFeetInches((Math.abs(steps - whole * denominator) / denominator) * MM_PER_INCH, denominator)
  if (steps % denominator === 0) return `${whole} in`
  return whole === 0 ? `${steps < 0 ? '-' : ''}${fraction}` : `${whole}-${fraction}`
}

function decimal(value: number, digits: number, rounding: Rounding): number {
  const scale = 10 ** digits
  return Number((rounded(value * scale, rounding) / scale).toFixed(digits)) + 0
}

/** What is whole but for a rounding error stays. */
function rounded(value: number, rounding: Rounding): number {
  const nearest = Math.round(value)
  if (rounding === 'nearest' || Math.abs(value - nearest) < 1e-7 * Math.max(1, Math.abs(value))) return nearest
  return rounding === 'up' ? Math.ceil(value) : Math.floor(value)
}
