import type { Estimate, TrackAnswer } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, formatHeading, gardenLength, type LengthsIn } from '../../show-length.ts'

/** The room the tracks of a plan take up, in both directions of the sheet. */
export function overallSize({ extent }: Estimate, lengthsIn: LengthsIn): Html {
  const { minXMm, maxXMm, minYMm, maxYMm } = extent
  return html`<p class="overall">Overall size: ${gardenLength(maxXMm - minXMm, lengthsIn)} across and ${gardenLength(maxYMm - minYMm, lengthsIn)} up the sheet, along the centre line.</p>`
}

/** A longer table would make the page too large; the table of elements has them all. */
const MOST_LISTED = 300

/** Coordinates of the start, the tangent points and the end of a track, and what is to be folded with them. */
export function placesTable(
  { name, elements, start, end }: TrackAnswer,
  lengthsIn: LengthsIn,
  below: Html | false,
): Html {
  if (elements.length > MOST_LISTED)
    return html`<p class="hint">The coordinates of all ${elements.length} elements of ${name} are in the table of elements.</p>${below}`
  const last = elements.at(-1)!
  const rows = [
    ...elements.map((element, index) => ({
      ...{ called: index === 0 ? 'Start' : `${index} to ${index + 1}`, atMm: element.fromMm, pose: element.start },
      elevationMm: index === 0 ? start.elevationMm : null,
    })),
    { called: 'End', atMm: last.toMm, pose: last.end, elevationMm: end.elevationMm },
  ]
  return html`<details><summary>Coordinates of the tangent points of ${name}</summary>
<div class="scroll" role="region" aria-label="Coordinates on ${name}" tabindex="0"><table class="figures places-table">
<thead><tr><th scope="col">Between elements</th><th scope="col">From the start</th><th scope="col">x</th><th scope="col">y</th><th scope="col">Heading</th><th scope="col">Elevation</th></tr></thead>
<tbody>${rows.map(
    ({ called, atMm, pose, elevationMm }) =>
      html`<tr><th scope="row">${called}</th><td>${gardenLength(atMm, lengthsIn)}</td><td>${benchLength(pose.xMm, lengthsIn)}</td><td>${benchLength(pose.yMm, lengthsIn)}</td><td>${formatHeading(pose.headingDeg)}</td><td>${elevationMm !== null && benchLength(elevationMm, lengthsIn)}</td></tr>
`,
  )}</tbody></table></div>${below}</details>`
}
