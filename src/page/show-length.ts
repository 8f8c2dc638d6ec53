import { formatFeetInches, formatMm, MM_PER_INCH } from '../measure/length.ts'
import { formatCelsius, formatFahrenheit } from '../measure/temperature.ts'
import { type Html, html } from './html.ts'

/** The units for lengths: millimetres, feet and inches, or both. */
export type LengthsIn = 'both' | 'metric' | 'feet'

export function readLengthsIn(text: string | undefined): LengthsIn {
  return text === 'metric' || text === 'feet' ? text : 'both'
}

/** A length at the bench: tenths of a millimetre, nearest 1/16 in. */
export function benchLength(mm: number, lengthsIn: LengthsIn): Html {
  return beside(formatMm(mm, 1), formatFeetInches(mm), mm === 0 && lengthsIn === 'both' ? 'metric' : lengthsIn)
}

/**
 * A length to saw to or to mark, already in whole steps of either rule: tenths of a millimetre, and 1/32 in, since 1/16 in
 * is too coarse for lengths that add up.
 */
export function sawnLength(metricMm: number, feetMm: number, lengthsIn: LengthsIn): Html {
  const units = metricMm === 0 && lengthsIn === 'both' ? 'metric' : lengthsIn
  return beside(formatMm(metricMm, 1), formatFeetInches(feetMm, 32), units)
}

/** A length out in the garden: metres to the millimetre, nearest 1/16 in. */
export function gardenLength(mm: number, lengthsIn: LengthsIn): Html {
  return beside(formatMetres(mm), formatFeetInches(mm), mm === 0 && lengthsIn === 'both' ? 'metric' : lengthsIn)
}

/** An ordinate: hundredths of a millimetre, and 1/64 in, the finest division of a steel rule, since 1/16 in is too coarse. */
export function ordinateLength(mm: number, lengthsIn: LengthsIn): Html {
  return beside(formatMm(mm, 2), formatFeetInches(mm, 64), lengthsIn)
}

/** A gap of a joint: hundredths of a millimetre, and thousandths of an inch, as on feeler gauges. Gaps add up along a rail. */
export function gapLength(mm: number, lengthsIn: LengthsIn): Html {
  return beside(formatMm(mm, 2), `${(mm / MM_PER_INCH).toFixed(3)} in`, lengthsIn)
}

/**
 * A depth of a bender: to half a hundredth of a millimetre, and to a ten-thousandth of an inch. A hundredth of a millimetre
 * bends the middle of a 6-ft piece out by one and a half millimetres.
 */
export function depthLength(mm: number, lengthsIn: LengthsIn): Html {
  return beside(`${depthFigure(mm, 'metric')} mm`, `${depthFigure(mm, 'feet')} in`, lengthsIn)
}

/** The same without its unit, for a row of depths. */
export function depthFigure(mm: number, unit: 'metric' | 'feet'): string {
  return unit === 'metric' ? toHalfHundredth(mm) : (mm / MM_PER_INCH).toFixed(4)
}

/** Turns of a screw, as exact as a depth. */
export function turnsFigure(turns: number): string {
  return toHalfHundredth(turns)
}

/** `2.34` or `2.345`. */
function toHalfHundredth(value: number): string {
  return (Math.round(value * 200) / 200).toFixed(3).replace(/0$/, '')
}

/** A length as plain text, for headings and drawings. */
export function lengthText(mm: number, lengthsIn: LengthsIn): string {
  const metric = Math.abs(mm) >= 10_000 ? formatMetres(mm, 2) : formatMm(mm, 0)
  if (lengthsIn === 'metric') return metric
  return lengthsIn === 'feet' ? formatFeetInches(mm) : `${metric} (${formatFeetInches(mm)})`
}

/** A temperature in the units of the page. */
export function temperatureText(celsius: number, lengthsIn: LengthsIn): string {
  return lengthsIn === 'feet' ? formatFahrenheit(celsius) : formatCelsius(celsius)
}

export function formatMetres(mm: number, decimals = 3): string {
  return `${(mm / 1000).toFixed(decimals)} m`
}

/** An angle such as `45°` or `12.37°`. */
export function formatDegrees(deg: number): string {
  const text = deg.toFixed(2).replace(/\.?0+$/, '')
  return `${text === '-0' ? '0' : text}°`
}

/** A heading in [0, 360): what rounds to a full turn is 0. */
export function formatHeading(deg: number): string {
  return formatDegrees(deg >= 359.995 ? 0 : deg)
}

function beside(metric: string, feet: string, lengthsIn: LengthsIn): Html {
  if (lengthsIn === 'metric') return html`${metric}`
  if (lengthsIn === 'feet') return html`${feet}`
  return html`${metric} <span class="alt">${feet}</span>`
}
