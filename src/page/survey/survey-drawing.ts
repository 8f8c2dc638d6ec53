import type { SurveyAnswer } from '../../survey/answer.ts'
import { scaleBar } from '../drawing/scale-bar.ts'
import { boundsOf, px, type Spot, viewOf } from '../drawing/view.ts'
import { type Html, html } from '../html.ts'
import type { LengthsIn } from '../show-length.ts'

/** How long the longest half axis of an ellipse is drawn, at most. */
const LONGEST_AXIS = 26

/** Pegs, points with their error ellipses, much larger than to scale, and the distances between them; null without a place. */
export function surveyDrawing({ pegs, points, readings }: SurveyAnswer, lengthsIn: LengthsIn): Html | null {
  const placed = points.flatMap(({ name, xMm, yMm, error }) =>
    xMm === null || yMm === null ? [] : [{ name, xMm, yMm, error: error! }],
  )
  const bounds = boundsOf([pegs, placed])
  if (!bounds) return null
  const view = viewOf(bounds)
  const spots = new Map([...pegs, ...placed].map((each) => [each.name, view.spotOf(each)]))
  const largestMm = Math.max(0, ...placed.map(({ error }) => error.majorMm))
  const times = largestMm > 0 ? magnification(LONGEST_AXIS / (largestMm * view.scale)) : 1
  const tapes = readings.flatMap(({ kind, from, to, isSuspect }) => {
    const [a, b] = [spots.get(from), spots.get(to)]
    return kind === 'distance' && a && b ? [tape(a, b, isSuspect)] : []
  })
  const foot = view.height - 44
  return html`<svg class="plan survey" viewBox="0 0 ${view.width} ${view.height}" role="img" aria-label="Pegs and points">
${tapes}
${placed.map(({ name, error }) => pointMark(name, spots.get(name)!, { ...error, scale: view.scale * times }))}
${pegs.map(({ name }) => pegMark(name, spots.get(name)!))}
${scaleBar(view.scale, lengthsIn, 16, foot)}
${placed.length > 0 && html`<text class="small" x="${view.width - 16}" y="${foot + 7}" text-anchor="end">Errors drawn ${times} times as large as the plan</text>`}
</svg>`
}

/** The largest of 1, 2, 5, 10, 20 … up to a number. */
function magnification(most: number): number {
  const power = 10 ** Math.floor(Math.log10(Math.max(1, most)))
  return [5, 2, 1].map((step) => step * power).find((each) => each <= Math.max(1, most))!
}

function tape(a: Spot, b: Spot, isSuspect: boolean): Html {
  return html`<path class="${isSuspect ? 'tape suspect' : 'tape'}" d="M${px(a.x)} ${px(a.y)}L${px(b.x)} ${px(b.y)}"/>`
}

function pointMark(
  name: string,
  { x, y }: Spot,
  { majorMm, minorMm, directionDeg, scale }: { majorMm: number; minorMm: number; directionDeg: number; scale: number },
): Html {
  return html`<ellipse class="error" cx="${px(x)}" cy="${px(y)}" rx="${px(majorMm * scale)}" ry="${px(minorMm * scale)}" transform="rotate(${px(-directionDeg)} ${px(x)} ${px(y)})"/><circle class="surveyed" cx="${px(x)}" cy="${px(y)}" r="2.6"/><text x="${px(x)}" y="${px(y - Math.max(10, majorMm * scale + 6))}" text-anchor="middle">${name}</text>`
}

function pegMark(name: string, { x, y }: Spot): Html {
  return html`<path class="peg-mark" d="M${px(x - 6)} ${px(y + 5)}L${px(x)} ${px(y - 7)}L${px(x + 6)} ${px(y + 5)}Z"/><text x="${px(x)}" y="${px(y + 19)}" text-anchor="middle">${name}</text>`
}
