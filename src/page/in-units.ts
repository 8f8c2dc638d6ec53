import type { Fault } from '../measure/fault.ts'
import { inUnits as inUnitsOfPlan, type Units } from '../measure/in-units.ts'
import type { LengthsIn } from './show-length.ts'

/** The page's switch as the field `units` of a plan; both is what a plan without it means. */
export function unitsIn(lengthsIn: LengthsIn): Units | undefined {
  if (lengthsIn === 'both') return undefined
  return lengthsIn === 'feet' ? 'imperial' : 'metric'
}

/**
 * A sentence of the page in its units: a hint, a description. Findings, cures and assumptions come in the units of the
 * plan, which the page sets to its own before it is worked out.
 */
export function inUnits(text: string, lengthsIn: LengthsIn): string {
  const worded =
    lengthsIn === 'feet'
      ? WORDINGS.reduce((sum, [celsius, fahrenheit]) => sum.replaceAll(celsius, fahrenheit), text)
      : text
  return inUnitsOfPlan(worded, unitsIn(lengthsIn))
}

/** What is wrong with a plan, and how to mend it, in the units of the page. */
export function faultInUnits(fault: Fault, lengthsIn: LengthsIn): Fault {
  const { detail, hint } = fault
  return { ...fault, detail: inUnits(detail, lengthsIn), hint: hint && inUnits(hint, lengthsIn) }
}

/** Hints on how a number is read: on the page by its switch, in a plan always in °C. */
const WORDINGS: readonly (readonly [string, string])[] = [
  ['a number is °C; write "85 F" for Fahrenheit', 'a number is °F; write "30 C" for Celsius'],
  ['a number is °C, "85 F" is Fahrenheit', 'a number is °F, "30 C" is Celsius'],
  ['write for example "30 C" or "85 F"; a JSON number is °C', 'write for example "85 F" or "30 C"'],
  ['in °C, or with a unit: 65 F', 'in °F, or with a unit: 18 C'],
]
