import { formatFeetInches, formatMm, MM_PER_INCH } from '../measure/length.ts'
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

/** A length out in the garden: metres to the millimetre, nearest 1/16 in. */
export function gardenLength(mm: number, lengthsIn: LengthsIn): Html {
  return beside(formatMetres(mm), formatFeetInches(mm), mm === 0 && lengthsIn === 'both' ? 'metric' : lengthsIn)
}

/** An ordinate: hundredths of a millimetre, and 1/64 in, the finest division of a steel rule, since 1/16 in is too coarse. */
export function ordinateLength(mm: number, lengthsIn: LengthsIn): Html {
  return beside(formatMm(mm, 2), formatFeetInches(mm, 64), lengthsIn)
}

/** A depth of a bender: hundredths of a millimetre, and thousandths of an inch, as on a screw or a dial indicator. */
export function depthLength(mm: number, lengthsIn: LengthsIn): Html {
  return beside(formatMm(mm, 2), `${(mm / MM_PER_INCH).toFixed(3)} in`, lengthsIn)
}

/** A length as plain text, for headings and drawings. */
export function lengthText(mm: number, lengthsIn: LengthsIn): string {
  const metric = Math.abs(mm) >= 10_000 ? formatMetres(mm, 2) : formatMm(mm, 0)
  if (lengthsIn === 'metric') return metric
  return lengthsIn === 'feet' ? formatFeetInches(mm) : `${metric} (${formatFeetInches(mm)})`
}

export function formatMetres(mm: number, decimals = 3): string {
  return `${(mm / 1000).toFixed(decimals)} m`
}

/** An angle such as `45°` or `12.37°`. */
export function formatDegrees(deg: number): string {
  const text = deg.toFixed(2).replace(/\.?0+$/, '')
  return `${text === '-0' ? '0' : text}°`
}

function beside(metric: string, feet: string, lengthsIn: LengthsIn): Html {
  if (lengthsIn === 'metric') return html`${metric}`
  if (lengthsIn === 'feet') return html`${feet}`
  return html`${metric} <span class="alt">${feet}</span>`
}
