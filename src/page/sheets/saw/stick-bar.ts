import type { CutStick } from '../../../estimate/answer.ts'
import { px } from '../../drawing/view.ts'
import { type Html, html } from '../../html.ts'

const BAR_WIDTH = 900
const BAR_HEIGHT = 22

/** The pattern of offcuts, once a page. */
export const STICK_BAR_DEFS = html`<svg class="defs" width="0" height="0" aria-hidden="true"><defs><pattern id="left-over" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V6" class="hatch"/></pattern></defs></svg>`

/** The width of each saw cut of a stick. */
export function kerfOfCutMm({ kerfMm, offcutMm, pieces }: CutStick): number {
  return kerfMm / Math.max(1, offcutMm > 0 ? pieces.length : pieces.length - 1)
}

/**
 * A stick to the scale of the longest one: pieces with their trim, bends shaded between ticks, the offcut
 * hatched.
 */
export function stickBar(stick: CutStick, longestMm: number): Html {
  const scale = BAR_WIDTH / longestMm
  const kerfMm = kerfOfCutMm(stick)
  const shapes: Html[] = []
  let atMm = 0
  for (const piece of stick.pieces) {
    const { sawLengthMm: sawMm, trimStartMm } = piece
    if (sawMm > piece.lengthMm)
      shapes.push(
        html`<rect class="trim" x="${px(atMm * scale)}" y="4" width="${px(sawMm * scale)}" height="${BAR_HEIGHT - 6}"/>`,
      )
    const x = (atMm + trimStartMm) * scale
    const width = piece.lengthMm * scale
    shapes.push(html`<rect class="piece" x="${px(x)}" y="1" width="${px(width)}" height="${BAR_HEIGHT}"/>`)
    for (const { fromMm, toMm, turn } of piece.bends) {
      const [from, to] = [x + fromMm * scale, x + toMm * scale]
      const y = turn === 'left' ? 1 : BAR_HEIGHT - 5
      shapes.push(
        html`<rect class="bent" x="${px(from)}" y="${y}" width="${px(to - from)}" height="6"/><path class="tick" d="M${px(from)} 1v${BAR_HEIGHT}M${px(to)} 1v${BAR_HEIGHT}"/>`,
      )
    }
    atMm += sawMm + kerfMm
  }
  if (stick.offcutMm > 0) {
    const width = stick.offcutMm * scale
    shapes.push(
      html`<rect class="offcut" x="${px(stick.lengthMm * scale - width)}" y="1" width="${px(width)}" height="${BAR_HEIGHT}" fill="url(#left-over)"/>`,
    )
  }
  return html`<svg class="bar" viewBox="-1 0 ${BAR_WIDTH + 2} ${BAR_HEIGHT + 2}" preserveAspectRatio="none" aria-hidden="true">${shapes}</svg>`
}
