import { type Html, html } from '../html.ts'
import type { PlanToDraw } from './drawn-plan.ts'
import { type OccupiedSpace, placeLabel, textWidth } from './label-places.ts'
import { pathThrough, px, type View } from './view.ts'

/** Below the tracks: the room of the cars, and what stands beside the line. */
export function roomMarks(view: View, { swept = [], obstacles = [], outline = [] }: PlanToDraw): Html[] {
  return [
    ...(outline.length > 0 ? [html`<path class="garden-edge" d="${pathThrough(outline.map(view.spotOf))}Z"/>`] : []),
    ...swept.map((outline) => html`<path class="swept" d="${pathThrough(outline.map(view.spotOf))}Z"/>`),
    ...obstacles.map(({ outline }) => html`<path class="obstacle" d="${pathThrough(outline.map(view.spotOf))}Z"/>`),
  ]
}

const TEXT = 12.5

/** The names of obstacles, those that find room. */
export function obstacleNames(view: View, occupied: OccupiedSpace, { obstacles = [] }: PlanToDraw): Html[] {
  return obstacles.flatMap(({ name, outline }) => {
    const spots = outline.map(view.spotOf)
    const [xs, ys] = [spots.map(({ x }) => x), spots.map(({ y }) => y)]
    const [left, right] = [Math.min(...xs), Math.max(...xs)]
    const [top, bottom] = [Math.min(...ys), Math.max(...ys)]
    const spot = { x: (left + right) / 2, y: (top + bottom) / 2 }
    const anchors = [
      { spot: { x: spot.x, y: bottom }, aside: { x: 0, y: 1 } },
      { spot: { x: spot.x, y: top }, aside: { x: 0, y: -1 } },
      { spot: { x: right, y: spot.y }, aside: { x: 1, y: 0 } },
      { spot: { x: left, y: spot.y }, aside: { x: -1, y: 0 } },
    ]
    const place = placeLabel(occupied, { width: textWidth(name, TEXT), height: 15 }, anchors, [4, 16, 30])
    return place
      ? [html`<text class="obstacle-name" x="${px(place.box.x)}" y="${px(place.box.y + 12)}">${name}</text>`]
      : []
  })
}
