import { excerpt } from './excerpt.ts'
export type ParsedTemperature =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly reason: string; readonly hint: string }

/** Exact by definition: K = °C + 273.15; °C = (°F − 32)·5/9. */
const ABSOLUTE_ZERO_C = -273.15
const FAHRENHEIT_AT_FREEZING = 32
const DEGREES_PER_FAHRENHEIT = 5 / 9

const TEXT = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)) ?(?:°|deg(?:rees?)?)? ?(c|celsius|f|fahrenheit|k|kelvins?)?$/

/**
 * Reads a temperature with its unit: `30 C`, `85 F`, `-5 °C`, `303 K`. A text without a unit is refused.
 *
 * @returns degrees Celsius, or what is wrong and how to write it
 */
export function parseTemperature(text: string): ParsedTemperature {
  const hint = 'write for example "30 C" or "85 F"; a JSON number is °C'
  return parsed(text, 'a temperature', hint, (value, unit) => {
    if (unit === 'c') return value
    return unit === 'k' ? value + ABSOLUTE_ZERO_C : (value - FAHRENHEIT_AT_FREEZING) * DEGREES_PER_FAHRENHEIT
  })
}

/**
 * Reads a difference of temperatures with its unit: `20 K`, `20 C`, `36 F`; 36 degrees Fahrenheit are 20 K.
 *
 * @returns kelvins, or what is wrong and how to write it
 */
export function parseTemperatureDifference(text: string): ParsedTemperature {
  const hint = 'write for example "20 K" or "36 F"; a JSON number is kelvins, the same size as degrees Celsius'
  return parsed(text, 'a temperature difference', hint, (value, unit) =>
    unit === 'f' ? value * DEGREES_PER_FAHRENHEIT : value,
  )
}

/** As people write it: `30 °C`, `-17.8 °C`. */
export function formatCelsius(celsius: number): string {
  return `${plain(celsius)} °C`
}

/** The same in degrees Fahrenheit: `86 °F`. */
export function formatFahrenheit(celsius: number): string {
  return `${plain(celsius / DEGREES_PER_FAHRENHEIT + FAHRENHEIT_AT_FREEZING)} °F`
}

/** A difference: `20 K`. */
export function formatKelvins(kelvins: number): string {
  return `${plain(kelvins)} K`
}

function plain(value: number): string {
  const text = value.toFixed(1).replace(/\.0$/, '')
  return text === '-0' ? '0' : text
}

function parsed(
  text: string,
  what: string,
  hint: string,
  inOwnUnit: (value: number, unit: 'c' | 'f' | 'k') => number,
): ParsedTemperature {
  const shown = excerpt(text)
  const match = TEXT.exec(
    text
      .replace(/[−–]/g, '-')
      .replace(/[º˚]/g, '°')
      .replace(/℃/g, '°c')
      .replace(/℉/g, '°f')
      .replace(/\s+/g, ' ')
      .trim()
      .toLowerCase(),
  )
  if (!match) return { ok: false, reason: `"${shown}" cannot be read as ${what}`, hint }
  const unit = match[2]?.charAt(0) as 'c' | 'f' | 'k' | undefined
  if (unit === undefined) return { ok: false, reason: `"${shown}" has no unit`, hint }
  return { ok: true, value: inOwnUnit(Number(match[1]), unit) }
}
