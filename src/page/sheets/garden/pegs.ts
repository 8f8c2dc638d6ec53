import type { Estimate, TrackAnswer } from '../../../estimate/answer.ts'
import type { PeggedPlace } from '../../../estimate/pegs/answer.ts'
import { headingDeg } from '../../../track/closure.ts'
import { elevationOn } from '../../../track/grade.ts'
import { poseOn } from '../../../track/place.ts'
import type { SpecialTrack } from '../../../track/turnout/special-track.ts'
import { placedElements } from '../../drawing/plan-to-draw.ts'
import { profileOfAnswer } from '../../drawing/profile.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, formatHeading, gardenLength, type LengthsIn } from '../../show-length.ts'
import { kindName } from '../../words.ts'

/** A place on the centre line to mark in the ground. */
export interface Peg {
  readonly atMm: number
  readonly xMm: number
  readonly yMm: number
  readonly elevationMm: number
  readonly headingDeg: number
  /** The element that begins here, or whose middle it is; null at the end of the track. */
  readonly element: number | null
  readonly isMiddle: boolean
}

/** Pegs at every tangent point, in the middle of every curve, and at the end of an open track. */
export function pegsOf(track: TrackAnswer, closed: boolean, special?: SpecialTrack): Peg[] {
  const profile = profileOfAnswer(track)
  const elevation = (atMm: number) => elevationOn(profile, atMm)
  const pegs = placedElements(track, closed, special).flatMap((element): Peg[] => {
    const { fromMm, lengthMm, kind, index } = element
    const places = kind === 'arc' ? [fromMm, fromMm + lengthMm / 2] : [fromMm]
    return places.map((atMm, n) => {
      const { xMm, yMm, headingRad } = poseOn(element, atMm)
      const place = { atMm, xMm, yMm, elevationMm: elevation(atMm), headingDeg: headingDeg(headingRad) }
      return { ...place, element: index, isMiddle: n > 0 }
    })
  })
  if (closed) return pegs
  const end = { ...track.end, atMm: track.lengthMm, elevationMm: elevation(track.lengthMm) }
  return [...pegs, { ...end, element: null, isMiddle: false }]
}

/** The pegs of a track; heights only where it is not level. */
export function pegTable(
  track: TrackAnswer,
  closed: boolean,
  numberOf: (element: number) => string,
  lengthsIn: LengthsIn,
  special?: SpecialTrack,
  pegOuts: readonly PeggedPlace[] = [],
): Html {
  const pegs = pegsOf(track, closed, special)
  const own = pegOuts.filter((each) => each.track === track.name)
  const others = own.filter(({ what }) => what === 'leg' || what === 'station')
  const level = pegs.every(({ elevationMm }) => elevationMm === pegs[0]!.elevationMm)
  return html`<div class="scroll" role="region" aria-label="Pegs of ${track.name}" tabindex="0"><table class="figures pegs">
<thead><tr><th scope="col">From start</th><th scope="col">Point</th><th scope="col">x</th><th scope="col">y</th>${!level && html`<th scope="col">Height</th>`}<th scope="col">Heading</th>${own.length > 0 && html`<th scope="col">By tape</th>`}</tr></thead>
<tbody>${pegs.map((peg) => row(peg, track, numberOf, level, lengthsIn, own))}${others.map((place) => otherRow(place, numberOf, level, lengthsIn))}</tbody></table></div>
${level && html`<p class="hint on-line">Level throughout, at ${benchLength(pegs[0]!.elevationMm, lengthsIn)}.</p>`}`
}

function row(
  peg: Peg,
  { elements }: TrackAnswer,
  numberOf: (element: number) => string,
  level: boolean,
  lengthsIn: LengthsIn,
  own: readonly PeggedPlace[],
): Html {
  const { atMm, xMm, yMm, elevationMm, element, isMiddle } = peg
  const here =
    element === null
      ? 'end'
      : `${isMiddle ? 'middle of ' : ''}${numberOf(element)}${isMiddle ? '' : ` ${kindName(elements[element]!.kind).toLowerCase()}`}`
  return html`<tr><th scope="row">${gardenLength(atMm, lengthsIn)}</th><td>${here}</td><td>${gardenLength(xMm, lengthsIn)}</td><td>${gardenLength(yMm, lengthsIn)}</td>${!level && html`<td>${benchLength(elevationMm, lengthsIn)}</td>`}<td>${formatHeading(peg.headingDeg)}</td>${own.length > 0 && html`<td>${byTape(placeOf(peg, own), lengthsIn)}</td>`}</tr>
`
}

function placeOf({ element, isMiddle }: Peg, own: readonly PeggedPlace[]): PeggedPlace | undefined {
  const what = element === null ? 'end' : isMiddle ? 'middle' : 'start'
  return own.find((place) => place.what === what && place.element === element)
}

/** The leg of a turnout along which the track does not run, or a station asked for. */
function otherRow(
  place: PeggedPlace,
  numberOf: (element: number) => string,
  level: boolean,
  lengthsIn: LengthsIn,
): Html {
  const { what, element, atMm, xMm, yMm, elevationMm } = place
  const here = what === 'leg' ? `other leg of ${numberOf(element!)}` : 'station'
  return html`<tr><th scope="row">${gardenLength(atMm, lengthsIn)}</th><td>${here}</td><td>${gardenLength(xMm, lengthsIn)}</td><td>${gardenLength(yMm, lengthsIn)}</td>${!level && html`<td>${benchLength(elevationMm, lengthsIn)}</td>`}<td>–</td><td>${byTape(place, lengthsIn)}</td></tr>
`
}

/** Along the slope where the heights of both ends are known, as tapes are held. */
function byTape(place: PeggedPlace | undefined, lengthsIn: LengthsIn): string {
  if (!place?.pegOut) return 'no two pegs fit'
  const { first, second, side } = place.pegOut
  const from = ({ peg, levelMm, slopeMm }: typeof first) => `${gardenLength(slopeMm ?? levelMm, lengthsIn)} from ${peg}`
  return `${from(first)}, ${from(second)}, ${side}`
}

/** The pegs of the plan and how to read the distances from them; null without pegs. */
export function pegsOfPlan({ pegs = [] }: Estimate, lengthsIn: LengthsIn): Html | null {
  if (pegs.length === 0) return null
  const each = pegs.map(({ name, xMm, yMm, errorMm }) => {
    const error = errorMm > 0 ? ` (plus or minus ${benchLength(errorMm, lengthsIn)})` : ''
    return html`<li><b>${name}</b> at x ${gardenLength(xMm, lengthsIn)}, y ${gardenLength(yMm, lengthsIn)}${error}</li>`
  })
  return html`<p class="hint">Pegs to measure from. A place lies where two tapes from them meet, on the side named as you look from the first peg to the second; hold the tapes level, or along the slope to the rail top where the peg has a height.</p><ul>${each}</ul>`
}
