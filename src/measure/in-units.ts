import type { Fault } from './fault.ts'
import { formatFeetInches, MM_PER_INCH } from './length.ts'
import { formatFahrenheit } from './temperature.ts'

/** The words of a plan's field `units`. */
export type Units = 'metric' | 'imperial'

/**
 * A sentence in the units of its plan. Sentences are written with millimetres and degrees Celsius; in imperial units every
 * such figure becomes feet, inches and degrees Fahrenheit. Where a length is written in both, one of them stays. Without
 * units a sentence stays as it is.
 */
export function inUnits(text: string, units: Units | undefined): string {
  if (units === undefined) return text
  const alone = text.replace(IN_BOTH, units === 'metric' ? '$1' : '$2')
  if (units === 'metric') return alone
  return alone
    .replace(METRIC, (_, figure: string, unit: string) => imperial(Number(figure) * (unit === 'm' ? MM_PER_M : 1)))
    .replace(CELSIUS, (_, figure: string) => formatFahrenheit(Number(figure)))
    .replace(KELVINS, (_, figure: string) => `${Number((Number(figure) * FAHRENHEIT_PER_K).toFixed(1))} °F`)
}

/** What is wrong, and how to mend it, in the units of the plan. */
export function faultsInUnits(faults: readonly Fault[], units: Units | undefined): Fault[] {
  return faults.map((fault) => {
    const hint = fault.hint === undefined ? {} : { hint: inUnits(fault.hint, units) }
    return { ...fault, detail: inUnits(fault.detail, units), ...hint }
  })
}

const MM_PER_M = 1000
const FAHRENHEIT_PER_K = 1.8

/** `1524 mm (5 ft)` */
const IN_BOTH = /(-?\d+(?:\.\d+)? m?m) \(((?:\d+ ft(?: [\d/-]+ in)?|[\d/-]+ in))\)/g
const METRIC = /(-?\d+(?:\.\d+)?) (mm|m)(?![\w²³Ω])/g
const CELSIUS = /(-?\d+(?:\.\d+)?) °C/g
const KELVINS = /(\d+(?:\.\d+)?) K(?!\w)/g

/** Below this a length is read with a feeler gauge or a caliper, not with a rule. */
const BY_GAUGE_MM = 5
/** Below this it is read to 1/64 in, above to 1/16 in. */
const BY_RULE_MM = 300

function imperial(mm: number): string {
  const size = Math.abs(mm)
  if (size > 0 && size < BY_GAUGE_MM) return `${Number((mm / MM_PER_INCH).toPrecision(3))} in`
  return formatFeetInches(mm, size < BY_RULE_MM ? 64 : 16)
}
