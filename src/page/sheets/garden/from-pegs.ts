import type { Estimate } from '../../../estimate/answer.ts'
import type { PeggedPlace } from '../../../estimate/pegs/answer.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, gardenLength, type LengthsIn } from '../../show-length.ts'

/** Where the pegs of the plan are, and how far places of new tracks are from two of them; null without pegs. */
export function fromPegs(
  { pegs = [], pegOuts = [], tracks }: Estimate,
  numberOf: (element: number, track: number) => string,
  lengthsIn: LengthsIn,
): Html | null {
  if (pegs.length === 0) return null
  const each = pegs.map(({ name, xMm, yMm, errorMm }) => {
    const error = errorMm > 0 && html`, give or take ${benchLength(errorMm, lengthsIn)}`
    return html`<li><b>${name}</b>: x ${gardenLength(xMm, lengthsIn)}, y ${gardenLength(yMm, lengthsIn)}${error}</li>`
  })
  const ofTracks = tracks.map((track, index) => {
    const own = track.state === 'new' ? pegOuts.filter((place) => place.track === track.name) : []
    return own.length > 0 && tapeTable(own, (element) => numberOf(element, index), tracks.length > 1, lengthsIn)
  })
  return html`<ul>${each}</ul>
<p class="hint">A place lies where tapes from two pegs meet, on the side named as you look from the first peg to the second. Hold the tapes level; where a distance is along the slope, hold them from the top of the peg to the rail.</p>
${ofTracks}`
}

function tapeTable(
  places: readonly PeggedPlace[],
  numberOf: (element: number) => string,
  several: boolean,
  lengthsIn: LengthsIn,
): Html {
  const { track } = places[0]!
  return html`${several && html`<h3>${track}</h3>`}
<div class="scroll" role="region" aria-label="${track} from the pegs" tabindex="0"><table class="figures from-pegs">
<thead><tr><th scope="col">From start</th><th scope="col">Here</th><th scope="col">First peg</th><th scope="col">From it</th><th scope="col">Second peg</th><th scope="col">From it</th><th scope="col">Side</th></tr></thead>
<tbody>${places.map((place) => row(place, numberOf, lengthsIn))}</tbody></table></div>`
}

function row(
  { what, element, atMm, pegOut }: PeggedPlace,
  numberOf: (element: number) => string,
  lengthsIn: LengthsIn,
): Html {
  const here = element === null ? what : `${WORDS[what]}${numberOf(element)}`
  return html`<tr><th scope="row">${gardenLength(atMm, lengthsIn)}</th><td>${here}</td>${pegOut ? tapes(pegOut, lengthsIn) : html`<td colspan="5">no two pegs see it at an angle of 10°</td>`}</tr>
`
}

const WORDS = { start: 'start of ', middle: 'middle of ', leg: 'other leg of ', end: '', station: '' } as const

/** Along the slope where the heights of both ends are known. */
function tapes({ first, second, side }: NonNullable<PeggedPlace['pegOut']>, lengthsIn: LengthsIn): Html {
  const of = ({ peg, levelMm, slopeMm }: typeof first) =>
    html`<td>${peg}</td><td>${gardenLength(slopeMm ?? levelMm, lengthsIn)}${slopeMm !== null && ' along the slope'}</td>`
  return html`${of(first)}${of(second)}<td>${side}</td>`
}
