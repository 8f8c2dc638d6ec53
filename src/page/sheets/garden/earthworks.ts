import type { EarthStretch, TrackAnswer } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { benchLength, gardenLength, type LengthsIn } from '../../show-length.ts'
import { counted } from '../../words.ts'

/** What to dig and to heap along each track that gives its ground; null where none does. */
export function earthworkTables(tracks: readonly TrackAnswer[], lengthsIn: LengthsIn): Html | null {
  const dug = tracks.filter(({ earthworks }) => earthworks)
  if (dug.length === 0) return null
  return html`<p class="hint">From the ground down or up to the formation, on which the ballast lies. Litres are in place; barrow loads count that dug soil takes more room.</p>
${dug.map((track) => html`${tracks.length > 1 && html`<h3>${track.name}</h3>`}${earthworkTable(track, lengthsIn)}`)}`
}

function earthworkTable({ name, earthworks }: TrackAnswer, lengthsIn: LengthsIn): Html {
  const { stretches, cutL, fillL, cutBarrows, fillBarrows, formation, balance } = earthworks!
  const depth = html`Formation ${benchLength(formation.widthMm, lengthsIn)} wide, ${benchLength(formation.depthMm, lengthsIn)} below the heights of the track.`
  if (stretches.length === 0) return html`<p>${depth} It lies on the ground: there is nothing to dig.</p>`
  const { shiftMm } = balance
  return html`<p>${depth}</p>
<div class="scroll" role="region" aria-label="Cut and fill of ${name}" tabindex="0"><table class="figures earthworks">
<thead><tr><th scope="col">From start</th><th scope="col">to</th><th scope="col">Work</th><th scope="col">Volume</th><th scope="col">Barrow loads</th><th scope="col">Greatest depth or height</th><th scope="col">at</th></tr></thead>
<tbody>${stretches.map((stretch) => row(stretch, lengthsIn))}</tbody></table></div>
<p>In all <b>${litres(cutL)}</b> to cut (${counted(cutBarrows, 'barrow load')}) and <b>${litres(fillL)}</b> to fill (${counted(fillBarrows, 'barrow load')}).
${Math.abs(shiftMm) < 0.05 ? html`The cut fills the fill.` : html`The whole track ${benchLength(Math.abs(shiftMm), lengthsIn)} ${shiftMm > 0 ? 'higher' : 'lower'} would leave no soil over and need none: ${litres(balance.volumeL)} to move.`}</p>`
}

function row(
  { kind, fromMm, toMm, volumeL, barrows, greatestMm, greatestAtMm }: EarthStretch,
  lengthsIn: LengthsIn,
): Html {
  return html`<tr><th scope="row">${gardenLength(fromMm, lengthsIn)}</th><td>${gardenLength(toMm, lengthsIn)}</td><td>${kind}</td><td>${litres(volumeL)}</td><td>${barrows}</td><td>${benchLength(greatestMm, lengthsIn)}</td><td>${gardenLength(greatestAtMm, lengthsIn)}</td></tr>
`
}

function litres(value: number): string {
  return `${value.toFixed(value < 10 ? 1 : 0)} L`
}
