import type { Fault } from '../measure/fault.ts'
import { formatFeetInches, MM_PER_INCH } from '../measure/length.ts'
import { formatFahrenheit } from '../measure/temperature.ts'
import type { LengthsIn } from './show-length.ts'

/**
 * A sentence in the units of the page. Findings, cures, assumptions, faults and hints are written with millimetres and
 * degrees Celsius, as the interface answers them; on a page in feet every such figure becomes feet, inches and degrees
 * Fahrenheit. Where a length is written in both, one of them stays; a page in both units leaves a sentence as it is.
 */
export function inUnits(text: string, lengthsIn: LengthsIn): string {
  if (lengthsIn === 'both') return text
  const alone = text.replace(IN_BOTH, lengthsIn === 'metric' ? '$1' : '$2')
  if (lengthsIn === 'metric') return alone
  const reworded = WORDINGS.reduce((sum, [celsius, fahrenheit]) => sum.replaceAll(celsius, fahrenheit), alone)
  return reworded
    .replace(METRIC, (_, figure: string, unit: string) => imperial(Number(figure) * (unit === 'm' ? MM_PER_M : 1)))
    .replace(CELSIUS, (_, figure: string) => formatFahrenheit(Number(figure)))
    .replace(KELVINS, (_, figure: string) => `${Number((Number(figure) * FAHRENHEIT_PER_K).toFixed(1))} °F`)
}

/** What is wrong with a plan, and how to mend it, in the units of the page. */
export function faultInUnits(fault: Fault, lengthsIn: LengthsIn): Fault {
  const { detail, hint } = fault
  return { ...fault, detail: inUnits(detail, lengthsIn), hint: hint && inUnits(hint, lengthsIn) }
}

const MM_PER_M = 1000
const FAHRENHEIT_PER_K = 1.8

/** `1524 mm (5 ft)` */
const IN_BOTH = /(-?\d+(?:\.\d+)? m?m) \(((?:\d+ ft(?: [\d/-]+ in)?|[\d/-]+ in))\)/g
const METRIC = /(-?\d+(?:\.\d+)?) (mm|m)(?![\w²³Ω])/g
const CELSIUS = /(-?\d+(?:\.\d+)?) °C/g
const KELVINS = /(\d+(?:\.\d+)?) K(?!\w)/g

/** Hints on how a number is read: on the page by its switch, in a plan always in °C. */
const WORDINGS: readonly (readonly [string, string])[] = [
  ['a number is °C; write "85 F" for Fahrenheit', 'a number is °F; write "30 C" for Celsius'],
  ['a number is °C, "85 F" is Fahrenheit', 'a number is °F, "30 C" is Celsius'],
  ['write for example "30 C" or "85 F"; a JSON number is °C', 'write for example "85 F" or "30 C"'],
  ['in °C, or with a unit: 65 F', 'in °F, or with a unit: 18 C'],
]

/** Below this a length is read with a feeler gauge or a caliper, not with a rule. */
const BY_GAUGE_MM = 5
/** Below this it is read to 1/64 in, above to 1/16 in. */
const BY_RULE_MM = 300

function imperial(mm: number): string {
  const size = Math.abs(mm)
  if (size > 0 && size < BY_GAUGE_MM) return `${Number((mm / MM_PER_INCH).toPrecision(3))} in`
  return formatFeetInches(mm, size < BY_RULE_MM ? 64 : 16)
}
