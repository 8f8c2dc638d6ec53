import type { Estimate, HaulAnswer, TrainAnswer } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { gardenLength, type LengthsIn } from '../../show-length.ts'
import { part } from '../part.ts'

/** What pull each train needs and what its engine has; null where no train says what it weighs. */
export function trainsCard({ trains = [], tracks }: Estimate, lengthsIn: LengthsIn): Html | null {
  if (trains.length === 0) return null
  const isSteam = trains.some(({ drive }) => drive === 'steam')
  const severalTracks = tracks.length > 1
  return part(
    'train-pulls',
    'Trains up the grade',
    html`<div class="scroll" role="region" aria-label="Trains" tabindex="0"><table class="figures trains">
<thead><tr><th scope="col">Train</th><th scope="col">Pull needed</th><th scope="col">Pull available</th><th scope="col">Spare pull</th><th scope="col">Ruling grade</th></tr></thead>
<tbody>${trains.map((train) => trainRow(train, severalTracks, lengthsIn))}</tbody></table></div>
<ul>${trains.map(trainNotes)}</ul>
<p class="hint">The ruling grade is where the train needs most pull, its curves included: the station is that of its front; its rear may be on another track. Pulls are in newtons; 10 N are the weight of about 1 kg. In damp weather 80 % of the dry pull is counted on; wet leaves, oil or dew leave less.</p>
${isSteam && html`<p class="hint">Steam pulls unevenly and loses pressure on a long climb: keep spare pull, start on the level, and do not stop on the ruling grade.</p>`}
${
  severalTracks &&
  html`<details><summary>Every track</summary>
<div class="scroll" role="region" aria-label="Trains on every track" tabindex="0"><table class="figures">
<thead><tr><th scope="col">Train</th><th scope="col">Pull needed</th><th scope="col">Spare pull</th><th scope="col">Cars it takes</th><th scope="col">Hardest grade</th></tr></thead>
<tbody>${trains.flatMap((train) => train.onTracks.map((haul) => haulRow(train, haul, lengthsIn)))}</tbody></table></div></details>`
}`,
  )
}

function trainRow(train: TrainAnswer, severalTracks: boolean, lengthsIn: LengthsIn): Html {
  const { name, massKg, ruling, tractiveEffortN } = train
  const { track, atMm, direction, effectivePct, pullN, spareN } = ruling
  return html`<tr><th scope="row">${name}, ${kilograms(massKg)}</th><td>${newtons(pullN)}</td><td>${newtons(tractiveEffortN)}</td><td><b>${newtons(spareN)}</b></td><td>${percent(effectivePct)} at ${severalTracks && html`${track}, `}${gardenLength(atMm, lengthsIn)}${direction === 'backward' && ' backward'}</td></tr>
`
}

/** What does not fit into the table. */
function trainNotes(train: TrainAnswer): Html {
  const { name, cars, takes, takesWhenDry, ruling, holding, holdingLimitN, power } = train
  const taken =
    takes !== null && html` takes <b>${takes}</b> of its ${cars} cars in damp weather, ${takesWhenDry} on dry rail.`
  const pushes = holding
    ? html` Downhill it pushes with ${newtons(holding.pushN)}; its driven wheels hold ${newtons(holdingLimitN)} on dry rail.`
    : ' Nowhere does it run down by itself.'
  const draws =
    power &&
    (power.drawnW === null
      ? html` At the wheels it takes ${watts(power.atWheelsW)}.`
      : html` It draws ${watts(power.drawnW)}.`)
  return html`<li>${name}${taken || ':'} Of its ruling grade ${percent(ruling.gradePct)} are climb and ${percent(ruling.curvePct)} curves.${pushes}${draws}</li>
`
}

function haulRow({ name, cars }: TrainAnswer, haul: HaulAnswer, lengthsIn: LengthsIn): Html {
  const { track, atMm, direction, effectivePct, pullN, spareN, takes } = haul
  return html`<tr><th scope="row">${name}</th><td>${newtons(pullN)}</td><td>${newtons(spareN)}</td><td>${takes === null ? '–' : html`${takes} of ${cars}`}</td><td>${percent(effectivePct)} at ${track}, ${gardenLength(atMm, lengthsIn)}${direction === 'backward' && ' backward'}</td></tr>
`
}

function newtons(value: number): string {
  return `${figure(value)}\u00a0N`
}

function kilograms(value: number): string {
  return `${figure(value)}\u00a0kg`
}

function watts(value: number): string {
  return `${figure(value)}\u00a0W`
}

function percent(value: number): string {
  return `${value.toFixed(2)}\u00a0%`
}

/** Three digits, as masses and pulls of garden trains are known at best. */
function figure(value: number): string {
  return String(Number(value.toPrecision(3)))
}
