import type { Finding } from '../../estimate/answer.ts'
import { sampleLine } from '../../track/sample.ts'
import { boundsOfPlan, type PlanToDraw } from '../drawing/drawn-plan.ts'
import { planDrawing } from '../drawing/plan-drawing.ts'
import { type Bounds, pathThrough, px, type View, viewOf } from '../drawing/view.ts'
import { type Html, html } from '../html.ts'
import type { LengthsIn } from '../show-length.ts'
import type { ElementChange } from './element-changes.ts'

/** The largest error of a line, in units of the drawing. */
const ERROR = 0.2

interface Sides {
  readonly before: PlanToDraw
  readonly after: PlanToDraw
  readonly changes: readonly ElementChange[]
}

/**
 * The later plan to scale, the earlier one beneath it at the same scale wherever it lay otherwise, and what has changed marked:
 * dashed lines for what was, a broad band behind what is. Null: neither has track.
 */
export function comparedDrawing(sides: Sides, findings: readonly Finding[], lengthsIn: LengthsIn): Html | null {
  const bounds = [boundsOfPlan(sides.before), boundsOfPlan(sides.after)].filter((each) => each !== null)
  if (bounds.length === 0) return null
  const view = viewOf(bounds.reduce(around))
  return planDrawing(sides.after, findings, lengthsIn, { id: 'compared', given: view, beneath: marks(view, sides) })
}

function around(a: Bounds, b: Bounds): Bounds {
  return {
    minXMm: Math.min(a.minXMm, b.minXMm),
    minYMm: Math.min(a.minYMm, b.minYMm),
    maxXMm: Math.max(a.maxXMm, b.maxXMm),
    maxYMm: Math.max(a.maxYMm, b.maxYMm),
  }
}

function marks(view: View, { before, after, changes }: Sides): Html {
  const width = Math.max(7, (after.gaugeMm + after.headWidthMm) * 2 * view.scale) + 8
  const lineOf = ({ tracks }: PlanToDraw, place: ElementChange['after']) => {
    const element = place && tracks[place.track]!.placed[place.element.index]
    return element ? pathThrough(sampleLine([element], 0, ERROR / view.scale).points.map(view.spotOf)) : ''
  }
  const is = changes.filter((change) => change.is === 'changed' || change.is === 'added')
  const was = changes.filter((change) => change.before !== null)
  return html`<g class="compared">
<path class="changed" d="${is.map((change) => lineOf(after, change.after)).join('')}" stroke-width="${px(width)}"/>
<path class="was" d="${was.map((change) => lineOf(before, change.before)).join('')}"/>
</g>`
}
