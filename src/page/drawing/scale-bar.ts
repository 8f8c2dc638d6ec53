import { MM_PER_FOOT, MM_PER_INCH } from '../../measure/length.ts'
import { type Html, html } from '../html.ts'
import type { LengthsIn } from '../show-length.ts'
import { px } from './view.ts'

/** A round length and its text. */
export interface RoundLength {
  readonly mm: number
  readonly name: string
}

/** The largest round metric length (1, 2 or 5 times a power of ten) up to this length. */
export function roundMetric(mostMm: number): RoundLength {
  const mm = roundBelow(mostMm)
  if (mm >= 1000) return { mm, name: `${mm / 1000} m` }
  return { mm, name: `${mm} mm` }
}

/** The largest round length in feet (1, 2 or 5 times a power of ten), or below a foot in inches (6, 3, 1, 1/2 … 1/16). */
export function roundImperial(mostMm: number): RoundLength {
  if (mostMm >= MM_PER_FOOT) {
    const feet = roundBelow(mostMm / MM_PER_FOOT)
    return { mm: feet * MM_PER_FOOT, name: `${feet} ft` }
  }
  for (const [inches, name] of INCHES) if (inches * MM_PER_INCH <= mostMm) return { mm: inches * MM_PER_INCH, name }
  const [inches, name] = INCHES.at(-1)!
  return { mm: inches * MM_PER_INCH, name }
}

const INCHES: readonly (readonly [number, string])[] = [
  [6, '6 in'],
  [3, '3 in'],
  [1, '1 in'],
  [1 / 2, '1/2 in'],
  [1 / 4, '1/4 in'],
  [1 / 8, '1/8 in'],
  [1 / 16, '1/16 in'],
]

function roundBelow(most: number): number {
  // The logarithm may be slightly off if `most` is a power of ten.
  const power = Math.floor(Math.log10(most) + 1e-12)
  const step = [5, 2, 1].find((each) => each * 10 ** power <= most * (1 + 1e-12)) ?? 1
  return power < 0 ? step / 10 ** -power : step * 10 ** power
}

/** The longest bar, in drawing units. */
const LONGEST = 220

/** A metric bar above one in feet, each with a round length at this scale; the top left corner is at x, y. */
export function scaleBar(scale: number, lengthsIn: LengthsIn, x: number, y: number): Html {
  const bars = [
    ...(lengthsIn === 'feet' ? [] : [roundMetric(LONGEST / scale)]),
    ...(lengthsIn === 'metric' ? [] : [roundImperial(LONGEST / scale)]),
  ]
  return html`<g class="scale">${bars.map((bar, row) => {
    const length = bar.mm * scale
    const top = y + row * 20
    const part = length / 4
    return html`<g data-mm="${bar.mm}"><rect x="${px(x)}" y="${px(top)}" width="${px(length)}" height="6" class="scale-frame"/><path d="M${px(x)} ${px(top + 3)}h${px(part)}M${px(x + 2 * part)} ${px(top + 3)}h${px(part)}" class="scale-fill"/><text x="${px(x + length + 8)}" y="${px(top + 7)}">${bar.name}</text></g>`
  })}</g>`
}
