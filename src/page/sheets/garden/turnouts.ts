import type { Estimate, TrackAnswer } from '../../../estimate/answer.ts'
import { closureOffsets } from '../../../track/turnout/closure-offsets.ts'
import { offsetAt, offsetPlaces } from '../../../track/turnout/offsets.ts'
import type { SpecialTrack } from '../../../track/turnout/special-track.ts'
import type { Leg, TurnoutGeometry } from '../../../track/turnout/types.ts'
import { type Html, html } from '../../html.ts'
import {
  benchLength,
  formatDegrees,
  formatHeading,
  gardenLength,
  type LengthsIn,
  ordinateLength,
} from '../../show-length.ts'

type Turnout = NonNullable<TrackAnswer['elements'][number]['turnout']>

/** Between offsets along the track: 100 mm, and 4 in. */
const STEPS_MM = { metric: 100, feet: 101.6 } as const

/** Where the turnouts of new track go, and the offsets of each kind's legs, folded of those that come built; null where there are none. */
export function turnoutTables(
  { tracks }: Estimate,
  { turnouts, gaugeMm }: SpecialTrack,
  lengthsIn: LengthsIn,
): Html | null {
  const placed = tracks
    .filter(({ state }) => state === 'new')
    .flatMap((track) => track.elements.flatMap(({ turnout }) => (turnout ? [{ track: track.name, turnout }] : [])))
  if (placed.length === 0) return null
  const kinds = new Map(placed.map(({ turnout }) => [turnout.type, turnout] as const))
  const tables = (which: (kind: readonly [string, Turnout]) => boolean) => {
    const some = [...kinds].filter(which)
    if (some.length === 0) return null
    return html`<div class="kinds">${some.map(([type, turnout]) => kindTable(type, turnout, turnouts.get(type)!, { gaugeMm, lengthsIn }))}</div>`
  }
  const bought = tables(([, { onBillAs }]) => onBillAs !== null)
  return html`<div class="scroll" role="region" aria-label="Places of turnouts" tabindex="0"><table class="figures turnouts">
<thead><tr><th scope="col">Turnout</th><th scope="col">Track</th><th scope="col">Points x</th><th scope="col">y</th><th scope="col">Heading</th><th scope="col">Frog x</th><th scope="col">y</th><th scope="col">Diverging end x</th><th scope="col">y</th><th scope="col">Heading</th></tr></thead>
<tbody>${placed.map(({ track, turnout }) => placeRow(track, turnout, lengthsIn))}</tbody></table></div>
<p class="hint">The frog is its theoretical point, where the gauge lines cross. The heading at the points is that of a train that comes to the frog.</p>
${tables(([, { onBillAs }]) => onBillAs === null)}${bought && html`<details><summary>Offsets of turnouts that come built</summary>${bought}</details>`}`
}

function placeRow(track: string, turnout: Turnout, lengthsIn: LengthsIn): Html {
  const { name, type, points, frog, divergingEnd } = turnout
  const at = ({ xMm, yMm }: { readonly xMm: number; readonly yMm: number }) =>
    html`<td>${gardenLength(xMm, lengthsIn)}</td><td>${gardenLength(yMm, lengthsIn)}</td>`
  return html`<tr><th scope="row">${name} <span class="alt">${type}</span></th><td>${track}</td>${at(points)}<td>${formatHeading((points.headingDeg + 180) % 360)}</td>${at(frog)}${at(divergingEnd)}<td>${formatHeading(divergingEnd.headingDeg)}</td></tr>
`
}

interface KindsOf {
  readonly gaugeMm: number
  readonly lengthsIn: LengthsIn
}

/** How the legs of a kind of turnout leave the line through its points. */
function kindTable(type: string, turnout: Turnout, geometry: TurnoutGeometry, of: KindsOf): Html {
  const { through, diverging } = geometry.legs
  const { lengthsIn } = of
  const places = offsetPlaces(through, diverging, STEPS_MM[lengthsIn === 'feet' ? 'feet' : 'metric'])
  const both = through.end.yMm !== 0
  const side = ({ end: { yMm } }: Leg) => (yMm > 0 ? 'to the left' : 'to the right')
  const offset = (leg: Leg, alongMm: number) =>
    html`<td>${ordinateLength(Math.abs(offsetAt(leg, alongMm).offsetMm), lengthsIn)}</td>`
  return html`<div class="job"><h3>${type}</h3>
<p>${facts(turnout, lengthsIn)}</p>
<div class="scroll" role="region" aria-label="Offsets of ${type}" tabindex="0"><table class="figures offsets">
<thead><tr><th scope="col">From the points</th><th scope="col">Diverging leg, ${side(diverging)}</th>${both && html`<th scope="col">Through leg, ${side(through)}</th>`}</tr></thead>
<tbody>${places.map((alongMm) => html`<tr><th scope="row">${benchLength(alongMm, lengthsIn)}</th>${offset(diverging, alongMm)}${both && offset(through, alongMm)}</tr>\n`)}</tbody></table></div>
<p class="hint">Measure along the straight through the points, and square to it to the centre line of the leg.</p>
${closureTable(type, geometry, of)}</div>`
}

const CLOSURE_PLACES = ['heel', '¼', '½', '¾', 'toe'] as const

/** The curved closure rail, from the stock rail that its switch rail lies against. */
function closureTable(type: string, geometry: TurnoutGeometry, { gaugeMm, lengthsIn }: KindsOf): Html {
  const { pointLengthMm, toeLengthMm } = geometry
  const names = CLOSURE_PLACES.map((place) => {
    if (place === 'heel') return pointLengthMm === 0 ? 'points' : 'heel of the switch'
    if (place === 'toe') return toeLengthMm === 0 ? 'point of the frog' : 'toe of the frog'
    return place
  })
  return html`<div class="scroll" role="region" aria-label="Curved closure rail of ${type}" tabindex="0"><table class="figures offsets">
<thead><tr><th scope="col">Curved closure rail</th><th scope="col">From the points</th><th scope="col">From the stock rail</th></tr></thead>
<tbody>${closureOffsets(geometry, gaugeMm).map(
    ({ alongMm, offsetMm }, index) =>
      html`<tr><th scope="row">${names[index]}</th><td>${benchLength(alongMm, lengthsIn)}</td><td>${ordinateLength(offsetMm, lengthsIn)}</td></tr>\n`,
  )}</tbody></table></div>
<p class="hint">Gauge line to gauge line; the stock rail as it runs at the points.</p>`
}

function facts(turnout: Turnout, lengthsIn: LengthsIn): Html {
  const { frogAngleDeg, leadMm, closureRadiusMm, straightClosureMm, curvedClosureMm } = turnout
  const rails =
    straightClosureMm !== null &&
    curvedClosureMm !== null &&
    html`; closure rails ${benchLength(straightClosureMm, lengthsIn)} straight and ${benchLength(curvedClosureMm, lengthsIn)} curved`
  return html`Frog ${formatDegrees(frogAngleDeg)}, ${benchLength(leadMm, lengthsIn)} from the points; centre line of the closure R ${benchLength(closureRadiusMm, lengthsIn)}${rails}.`
}
