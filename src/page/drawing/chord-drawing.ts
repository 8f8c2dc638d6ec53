import { ordinateAtMm } from '../../bending/ordinates.ts'
import { formatFeetInches, formatMm } from '../../measure/length.ts'
import { type Html, html } from '../html.ts'
import { type LengthsIn, lengthText } from '../show-length.ts'
import { pathThrough, px } from './view.ts'

const WIDTH = 440
const SIDE = 20
const CHORD_Y = 86
const RISE = 50
/** Half the drawn thickness of the rail; the chord is held against its inside. */
const HALF_RAIL = 4
const STEPS = 32

/** A chord on the inside of a bent rail. */
export interface ChordOnRail {
  /** Radius of the face that the chord touches. */
  readonly radiusMm: number
  /** At most the diameter. */
  readonly chordMm: number
  readonly title: string
}

/** Eighths of the chord from its left end: the sign, and the line below the chord for its ordinate. */
const MARKS = [
  { eighth: 1, sign: '⅛', line: 0 },
  { eighth: 2, sign: '¼', line: 1 },
  { eighth: 3, sign: '⅜', line: 0 },
  { eighth: 4, sign: '½', line: 1 },
] as const

/**
 * A straightedge on the inside of a bent rail with the ordinates at every eighth. Heights are exaggerated. The two halves
 * are symmetrical: with both units, the left half is labelled in millimetres and the right in inches.
 */
export function chordDrawing({ radiusMm, chordMm, title }: ChordOnRail, id: string, lengthsIn: LengthsIn): Html {
  const across = WIDTH - 2 * SIDE
  const ordinateMm = (share: number) => ordinateAtMm(radiusMm, chordMm, (share - 0.5) * chordMm) ?? 0
  const up = RISE / ordinateMm(0.5)
  const xOf = (share: number) => SIDE + share * across
  const yOf = (share: number) => CHORD_Y - ordinateMm(share) * up
  const rail = Array.from({ length: STEPS + 1 }, (_, step) => ({
    x: xOf(step / STEPS),
    y: yOf(step / STEPS) - HALF_RAIL,
  }))
  const metric = (mm: number) => formatMm(mm, 2)
  const feet = (mm: number) => formatFeetInches(mm, 64)
  const left = lengthsIn === 'feet' ? feet : metric
  const label = (share: number, line: number, text: string) =>
    html`<text x="${px(xOf(share))}" y="${CHORD_Y + 16 + 15 * line}">${text}</text>`
  const labels = MARKS.map(({ eighth, line }) => {
    const mm = ordinateMm(eighth / 8)
    if (eighth === 4)
      return html`${label(0.5, line, left(mm))}${lengthsIn === 'both' && label(0.5, line + 1, feet(mm))}`
    return html`${label(eighth / 8, line, left(mm))}${lengthsIn === 'both' && label(1 - eighth / 8, line, feet(mm))}`
  })
  const signs = MARKS.flatMap(({ eighth, sign }) => [eighth, 8 - eighth].map((at) => ({ at, sign }))).slice(0, -1)
  return html`<svg class="plan chord" viewBox="0 0 ${WIDTH} ${lengthsIn === 'both' ? 140 : 124}" role="img" aria-labelledby="${id}">
<title id="${id}">${title}, chord ${lengthText(chordMm, lengthsIn)}: ${[1, 2, 3, 4].map((n) => `${left(ordinateMm(n / 8))} at ${n} eighth${n > 1 ? 's' : ''}`).join(', ')}</title>
<path class="bent-rail" d="${pathThrough(rail)}"/>
<path class="edge" d="M${SIDE} ${CHORD_Y}H${WIDTH - SIDE}"/>
<path class="ordinate" d="${signs.map(({ at }) => `M${px(xOf(at / 8))} ${CHORD_Y}V${px(yOf(at / 8))}`).join('')}"/>
${signs.map(({ at, sign }) => html`<text class="small" x="${px(xOf(at / 8))}" y="${px(yOf(at / 8) - 2 * HALF_RAIL - 6)}">${sign}</text>`)}
${labels}
</svg>`
}
