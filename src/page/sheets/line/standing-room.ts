import type { Estimate, StandingAnswer } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { gardenLength, type LengthsIn, ordinateLength } from '../../show-length.ts'
import { spoken } from '../../words.ts'
import { part } from '../part.ts'

/** Where cars and trains stand clear, and what couplers do on reverse curves; null for a plan that has no cars. */
export function standingCard({ standing, foulingPoints = [], ways }: Estimate, lengthsIn: LengthsIn): Html | null {
  if (!standing) return null
  const curves = new Map(
    ways.flatMap(({ reverseCurves }) =>
      reverseCurves.map((curve) => [`${curve.atTrack} ${curve.atMm}`, curve] as const),
    ),
  )
  return part(
    'standing',
    'Where cars can stand',
    [
      html`<div class="scroll" role="region" aria-label="Standing room" tabindex="0"><table class="figures standing">
<thead><tr><th scope="col">Track</th><th scope="col">From</th><th scope="col">To</th><th scope="col">Clear</th><th scope="col">Longest cars</th><th scope="col">Trains</th></tr></thead>
<tbody>${standing.filter(({ cars }) => cars !== 0).map((each) => standingRow(each, lengthsIn))}</tbody></table></div>
<p class="hint">Between fouling points, wherever a car fits: cars standing there are clear of cars on every other track.</p>`,
      foulingPoints.length > 0 &&
        html`<details><summary>Fouling points of turnouts and crossings</summary>
<div class="scroll" role="region" aria-label="Fouling points" tabindex="0"><table class="figures fouling-points">
<thead><tr><th scope="col">Fouling point</th><th scope="col">Track</th><th scope="col">From its start</th><th scope="col">x</th><th scope="col">y</th></tr></thead>
<tbody>${foulingPoints.map(
          ({ name, track, atMm, xMm, yMm }) =>
            html`<tr><th scope="row">${name}</th><td>${track}</td><td>${gardenLength(atMm, lengthsIn)}</td><td>${gardenLength(xMm, lengthsIn)}</td><td>${gardenLength(yMm, lengthsIn)}</td></tr>\n`,
        )}</tbody></table></div></details>`,
      curves.size > 0 &&
        html`<div class="scroll" role="region" aria-label="Reverse curves" tabindex="0"><table class="figures">
<thead><tr><th scope="col">Reverse curve on</th><th scope="col">At</th><th scope="col">Straight between</th><th scope="col">Couplers off sideways</th></tr></thead>
<tbody>${[...curves.values()].map(
          ({ atTrack, atMm, straightMm, couplerOffsetMm }) =>
            html`<tr><th scope="row">${atTrack}</th><td>${gardenLength(atMm, lengthsIn)}</td><td>${gardenLength(straightMm, lengthsIn)}</td><td>${couplerOffsetMm == null ? '–' : ordinateLength(couplerOffsetMm, lengthsIn)}</td></tr>\n`,
        )}</tbody></table></div>`,
    ].filter((each) => each !== false),
  )
}

function standingRow(
  { track, fromMm, toMm, clearMm, cars, trains, pairs }: StandingAnswer,
  lengthsIn: LengthsIn,
): Html {
  const two = pairs.map(({ first, second }) => `${first} behind ${second}`)
  return html`<tr><th scope="row">${track}</th><td>${gardenLength(fromMm, lengthsIn)}</td><td>${gardenLength(toMm, lengthsIn)}</td><td>${gardenLength(clearMm, lengthsIn)}</td><td>${cars ?? '–'}</td><td>${trains.length === 0 ? 'none' : spoken(trains)}${two.length > 0 && html`; ${spoken(two)}`}</td></tr>
`
}
