import type { Estimate, HaulAnswer, TrainAnswer } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { gardenLength, type LengthsIn } from '../../show-length.ts'
import { part } from '../part.ts'

/** What each train asks for and what its engine has; null where no train says what it weighs. */
export function trainsCard({ trains = [], tracks }: Estimate, lengthsIn: LengthsIn): Html | null {
  if (trains.length === 0) return null
  const isSteam = trains.some(({ drive }) => drive === 'steam')
  const severalTracks = tracks.length > 1
  return part(
    'trains',
    'Trains up the grade',
    html`<div class="scroll" role="region" aria-label="Trains" tabindex="0"><table class="figures trains">
<thead><tr><th scope="col">Train</th><th scope="col">Weight</th><th scope="col">Ruling stretch</th><th scope="col">Grade</th><th scope="col">Curves as grade</th><th scope="col">Asks</th><th scope="col">Pulls, dry</th><th scope="col">Spare</th><th scope="col">Cars it takes, damp</th><th scope="col">Pushes downhill</th><th scope="col">Draws</th></tr></thead>
<tbody>${trains.map((train) => trainRow(train, severalTracks, lengthsIn))}</tbody></table></div>
<p class="hint">The ruling stretch is where the train asks for most: the station is that of its front. Pulls are in newtons; 10 N are the weight of about 1 kg. In damp weather 80 % of the dry pull is counted on; wet leaves, oil or dew leave less.</p>
${isSteam && html`<p class="hint">Steam pulls unevenly and loses pressure on a long climb: keep spare pull, start on the level, and do not stop on the ruling stretch.</p>`}
${
  severalTracks &&
  html`<details><summary>Every track</summary>
<div class="scroll" role="region" aria-label="Trains on every track" tabindex="0"><table class="figures">
<thead><tr><th scope="col">Train</th><th scope="col">Track</th><th scope="col">At</th><th scope="col">Grade</th><th scope="col">Curves as grade</th><th scope="col">Asks</th><th scope="col">Spare</th><th scope="col">Cars it takes, damp</th></tr></thead>
<tbody>${trains.flatMap((train) => train.onTracks.map((haul) => haulRow(train, haul, lengthsIn)))}</tbody></table></div></details>`
}`,
  )
}

function trainRow(train: TrainAnswer, severalTracks: boolean, lengthsIn: LengthsIn): Html {
  const { name, massKg, cars, ruling, tractiveEffortN, takes, holding, power } = train
  const { track, atMm, gradePct, curvePct, pullN, spareN } = ruling
  const at = html`${severalTracks && html`${track}, `}${gardenLength(atMm, lengthsIn)}${ruling.direction === 'backward' && ', backward'}`
  return html`<tr><th scope="row">${name}</th><td>${figure(massKg)} kg</td><td>${at}</td><td>${gradePct.toFixed(2)} %</td><td>${curvePct.toFixed(2)} %</td><td>${newtons(pullN)}</td><td>${newtons(tractiveEffortN)}</td><td><b>${newtons(spareN)}</b></td><td>${takes === null ? '–' : html`<b>${takes}</b> of ${cars}`}</td><td>${holding ? newtons(holding.pushN) : 'no'}</td><td>${power ? html`${figure(power.drawnW ?? power.atWheelsW)} W${power.drawnW === null && ' at the wheels'}` : '–'}</td></tr>
`
}

function haulRow({ name, cars }: TrainAnswer, haul: HaulAnswer, lengthsIn: LengthsIn): Html {
  const { track, atMm, direction, gradePct, curvePct, pullN, spareN, takes } = haul
  return html`<tr><th scope="row">${name}</th><td>${track}</td><td>${gardenLength(atMm, lengthsIn)}${direction === 'backward' && ', backward'}</td><td>${gradePct.toFixed(2)} %</td><td>${curvePct.toFixed(2)} %</td><td>${newtons(pullN)}</td><td>${newtons(spareN)}</td><td>${takes === null ? '–' : html`${takes} of ${cars}`}</td></tr>
`
}

function newtons(value: number): string {
  return `${figure(value)} N`
}

/** Three digits, as masses and pulls of garden trains are known at best. */
function figure(value: number): string {
  return String(Number(value.toPrecision(3)))
}
