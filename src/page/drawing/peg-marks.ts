import { type Html, html } from '../html.ts'
import type { PlanToDraw } from './drawn-plan.ts'
import { type OccupiedSpace, placeLabel, textWidth } from './label-places.ts'
import { pathThrough, px, type View } from './view.ts'

const ARM = 5
const TEXT = 12.5

/** A cross for each peg, and the names that find room. */
export function pegMarks(view: View, occupied: OccupiedSpace, { pegs = [] }: PlanToDraw): Html[] {
  return pegs.flatMap((peg) => {
    const { x, y } = view.spotOf(peg)
    const arms = [
      [-ARM, 0],
      [0, -ARM],
    ].map(([dx, dy]) =>
      pathThrough([
        { x: x - dx!, y: y - dy! },
        { x: x + dx!, y: y + dy! },
      ]),
    )
    const anchors = [
      { spot: { x: x + ARM, y }, aside: { x: 1, y: 0 } },
      { spot: { x: x - ARM, y }, aside: { x: -1, y: 0 } },
      { spot: { x, y: y - ARM }, aside: { x: 0, y: -1 } },
      { spot: { x, y: y + ARM }, aside: { x: 0, y: 1 } },
    ]
    const place = placeLabel(occupied, { width: textWidth(peg.name, TEXT), height: 15 }, anchors, [3, 10, 20])
    return [
      html`<path class="peg" d="${arms.join('')}"/>`,
      ...(place
        ? [html`<text class="obstacle-name" x="${px(place.box.x)}" y="${px(place.box.y + 12)}">${peg.name}</text>`]
        : []),
    ]
  })
}
