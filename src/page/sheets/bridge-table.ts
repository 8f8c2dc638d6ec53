import type { Estimate } from '../../estimate/answer.ts'
import type { OverCrossingAnswer } from '../../network/over-crossing-answer.ts'
import { type Html, html } from '../html.ts'
import { benchLength, gardenLength, type LengthsIn } from '../show-length.ts'

/** What each bridge has to leave free, and where its abutments may stand; null where no track passes over another. */
export function bridgeTable({ overCrossings = [] }: Estimate, lengthsIn: LengthsIn): Html | null {
  if (overCrossings.length === 0) return null
  return html`${table(overCrossings, lengthsIn)}
<p class="hint">Clear height from the lower rails to the underside of the bridge; abutments by the stations of the upper track, along its centre line. The span is the swept envelope of the cars below, with no clearance added.</p>`
}

/** The same of the bridges of one track, in words. */
export function bridgesOf(track: string, { overCrossings = [] }: Estimate, lengthsIn: LengthsIn): Html[] {
  return overCrossings.filter(({ over }) => over === track).map((each) => inWords(each, lengthsIn))
}

function inWords(crossing: OverCrossingAnswer, lengthsIn: LengthsIn): Html {
  const { overAtMm, under, underAtMm, angleDeg, clearMm, neededMm } = crossing
  const { squareSpanMm, abutmentFromMm, abutmentToMm } = crossing
  const station = (mm: number) => gardenLength(mm, lengthsIn)
  const span =
    squareSpanMm !== null &&
    html` Span square <b>${benchLength(squareSpanMm, lengthsIn)}</b>; abutments up to <b>${station(abutmentFromMm!)}</b> and from <b>${station(abutmentToMm!)}</b>.`
  return html` <p class="on-line">Bridge at <b>${station(overAtMm)}</b> over ${under} at ${station(underAtMm)}, ${angleDeg.toFixed(0)}°: clear height <b>${benchLength(clearMm, lengthsIn)}</b>, needed ${benchLength(neededMm, lengthsIn)}.${span}</p>`
}

function table(crossings: readonly OverCrossingAnswer[], lengthsIn: LengthsIn): Html {
  return html`<div class="scroll" role="region" aria-label="Bridges" tabindex="0"><table class="figures bridges">
<thead><tr><th scope="col">Bridge of</th><th scope="col">at</th><th scope="col">over</th><th scope="col">at</th><th scope="col">Angle</th><th scope="col">Clear height</th><th scope="col">needed</th><th scope="col">Clear span, square</th><th scope="col">Abutment up to</th><th scope="col">and from</th></tr></thead>
<tbody>${crossings.map((each) => row(each, lengthsIn))}</tbody></table></div>`
}

function row(crossing: OverCrossingAnswer, lengthsIn: LengthsIn): Html {
  const { over, overAtMm, under, underAtMm, angleDeg, clearMm, neededMm } = crossing
  const { squareSpanMm, abutmentFromMm, abutmentToMm } = crossing
  const station = (mm: number | null) => (mm === null ? '–' : gardenLength(mm, lengthsIn))
  return html`<tr><th scope="row">${over}</th><td>${station(overAtMm)}</td><td>${under}</td><td>${station(underAtMm)}</td><td>${angleDeg.toFixed(0)}°</td><td>${benchLength(clearMm, lengthsIn)}</td><td>${benchLength(neededMm, lengthsIn)}</td><td>${squareSpanMm === null ? '–' : benchLength(squareSpanMm, lengthsIn)}</td><td>${station(abutmentFromMm)}</td><td>${station(abutmentToMm)}</td></tr>
`
}
