import { type Html, html } from '../html.ts'
import type { PlanToDraw, TrackToDraw } from './drawn-plan.ts'
import { placeLabel, textWidth } from './label-places.ts'
import { directions, type Sheet, shortened } from './sheet.ts'
import { px, type View } from './view.ts'

const TEXT = 12.5

/** A bar across the track at the points, a small triangle at the point of the frog, and the name where it has room. */
export function turnoutMarks({ view, bandWidth, occupied }: Sheet, { turnouts = [] }: TrackToDraw): Html[] {
  return turnouts.map(({ name, points, frog }) => {
    const { x, y } = view.spotOf(points)
    const { left } = directions(points)
    const [dx, dy] = [(left.x * bandWidth) / 2, (left.y * bandWidth) / 2]
    const at = view.spotOf(frog)
    const text = shortened(name)
    const size = { width: textWidth(text, TEXT), height: 15 }
    const anchors = [1, -1].flatMap((side) =>
      [at, { x, y }].map((spot) => ({ spot, aside: { x: left.x * side, y: left.y * side } })),
    )
    const place = placeLabel(occupied, size, anchors, [bandWidth / 2 + 4, bandWidth / 2 + 18, bandWidth / 2 + 34])
    return html`<path class="points" d="M${px(x - dx)} ${px(y - dy)}L${px(x + dx)} ${px(y + dy)}"/><path class="frog" d="M${px(at.x)} ${px(at.y - 3.5)}l3 5.5h-6z"/>${place && html`<text class="track-name" x="${px(place.box.x)}" y="${px(place.box.y + 12)}">${text}</text>`}`
  })
}

/** A cross where cars stand clear of a turnout or crossing. */
export function foulingMarks(view: View, { fouling = [] }: PlanToDraw): Html[] {
  return fouling.map((place) => {
    const { x, y } = view.spotOf(place)
    return html`<path class="fouling" d="M${px(x - 4)} ${px(y - 4)}l8 8m0 -8l-8 8"/>`
  })
}
