import type { TrackAnswer } from '../../../estimate/answer.ts'
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
): Html {
  const pegs = pegsOf(track, closed, special)
  const level = pegs.every(({ elevationMm }) => elevationMm === pegs[0]!.elevationMm)
  return html`<div class="scroll" role="region" aria-label="Pegs of ${track.name}" tabindex="0"><table class="figures pegs">
<thead><tr><th scope="col">From start</th><th scope="col">Point</th><th scope="col">x</th><th scope="col">y</th>${!level && html`<th scope="col">Height</th>`}<th scope="col">Heading</th></tr></thead>
<tbody>${pegs.map((peg) => row(peg, track, numberOf, level, lengthsIn))}</tbody></table></div>
${level && html`<p class="hint on-line">Level throughout, at ${benchLength(pegs[0]!.elevationMm, lengthsIn)}.</p>`}`
}

function row(
  peg: Peg,
  { elements }: TrackAnswer,
  numberOf: (element: number) => string,
  level: boolean,
  lengthsIn: LengthsIn,
): Html {
  const { atMm, xMm, yMm, elevationMm, element, isMiddle } = peg
  const here =
    element === null
      ? 'end'
      : `${isMiddle ? 'middle of ' : ''}${numberOf(element)}${isMiddle ? '' : ` ${kindName(elements[element]!.kind).toLowerCase()}`}`
  return html`<tr><th scope="row">${gardenLength(atMm, lengthsIn)}</th><td>${here}</td><td>${gardenLength(xMm, lengthsIn)}</td><td>${gardenLength(yMm, lengthsIn)}</td>${!level && html`<td>${benchLength(elevationMm, lengthsIn)}</td>`}<td>${formatHeading(peg.headingDeg)}</td></tr>
`
}
