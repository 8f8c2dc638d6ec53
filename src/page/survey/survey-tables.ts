import type { SurveyAnswer } from '../../survey/answer.ts'
import { type Html, html } from '../html.ts'
import { benchLength, gardenLength, type LengthsIn } from '../show-length.ts'

type Point = SurveyAnswer['points'][number]

/** Where each point is, how sure that is, and how to mark it again from two pegs. */
export function pointTable({ points }: SurveyAnswer, lengthsIn: LengthsIn): Html | null {
  if (points.length === 0) return null
  const rows = points.map((point) => {
    const { name, xMm, yMm, error, noPlace, pegOut } = point
    const place =
      error === null
        ? html`<td colspan="4" class="words">${noPlace}</td>`
        : html`<td>${gardenLength(xMm!, lengthsIn)}</td><td>${gardenLength(yMm!, lengthsIn)}</td><td>${benchLength(error.majorMm, lengthsIn)}</td><td>${benchLength(error.minorMm, lengthsIn)}</td>`
    return html`<tr><th scope="row">${name}</th>${place}${height(point, lengthsIn)}<td class="words">${pegOut ? pegOutText(pegOut, lengthsIn) : '–'}</td></tr>\n`
  })
  return scrolled(
    'Points',
    html`<table class="figures surveyed-points"><thead><tr><th scope="col">Point</th><th scope="col">x</th><th scope="col">y</th><th scope="col">Error, most</th><th scope="col">Error, least</th><th scope="col">Elevation</th><th scope="col">Its error</th><th scope="col">Mark it from two pegs</th></tr></thead><tbody>${rows}</tbody></table>`,
  )
}

/** Two cells: an elevation and its error. */
function height(
  { elevationMm, elevationErrorMm }: Pick<Point, 'elevationMm' | 'elevationErrorMm'>,
  lengthsIn: LengthsIn,
): Html {
  if (elevationMm === null) return html`<td>–</td><td>–</td>`
  const error = elevationErrorMm ? benchLength(elevationErrorMm, lengthsIn) : 'given'
  return html`<td>${benchLength(elevationMm, lengthsIn)}</td><td>${error}</td>`
}

function pegOutText({ first, second, side }: NonNullable<Point['pegOut']>, lengthsIn: LengthsIn): Html {
  const from = ({ peg, levelMm }: typeof first) => html`<div>${peg}: <b>${gardenLength(levelMm, lengthsIn)}</b></div>`
  return html`${from(first)}${from(second)}<div>on the ${side} as you look from ${first.peg} to ${second.peg}</div>`
}

/** Elevations of pegs, where any was given or levelled. */
export function pegTable({ pegs }: SurveyAnswer, lengthsIn: LengthsIn): Html | null {
  const known = pegs.filter(({ elevationMm }) => elevationMm !== null)
  if (known.length === 0) return null
  return html`<table class="figures"><thead><tr><th scope="col">Peg</th><th scope="col">Elevation</th><th scope="col">Its error</th></tr></thead>
<tbody>${known.map((peg) => html`<tr><th scope="row">${peg.name}</th>${height(peg, lengthsIn)}</tr>\n`)}</tbody></table>`
}

/** The stations of each line. */
export function lineTables({ lines }: SurveyAnswer, lengthsIn: LengthsIn): Html[] {
  return lines.map(({ name, stations, misclosureMm, noElevation }) => {
    if (noElevation !== null) return html`<h3>${name}</h3><p>No elevations: ${noElevation}.</p>`
    const missed =
      misclosureMm !== null &&
      html`<p>It missed its end by ${benchLength(misclosureMm, lengthsIn)}, which is spread over its steps.</p>`
    return html`<h3>${name}</h3>
${missed}<table class="figures"><thead><tr><th scope="col">From its start</th><th scope="col">Elevation</th><th scope="col">Its error</th></tr></thead>
<tbody>${stations.map(({ atMm, elevationMm, errorMm }) => html`<tr><th scope="row">${gardenLength(atMm, lengthsIn)}</th>${height({ elevationMm, elevationErrorMm: errorMm }, lengthsIn)}</tr>\n`)}</tbody></table>`
  })
}

/** Every reading beside what the others make of it. */
export function readingTable({ readings }: SurveyAnswer, lengthsIn: LengthsIn): Html | null {
  if (readings.length === 0) return null
  const rows = readings.map(
    ({ kind, from, to, measuredMm, residualMm, redundancy, isSuspect }) =>
      html`<tr${isSuspect && html` class="suspect"`}><th scope="row">${kind}</th><td class="words">${from} to ${to}</td><td>${gardenLength(measuredMm, lengthsIn)}</td><td>${residualMm === null ? 'not used' : benchLength(residualMm, lengthsIn)}</td><td>${redundancy === null ? '–' : `${Math.round(100 * redundancy)} %`}</td><td>${verdict(redundancy, isSuspect)}</td></tr>\n`,
  )
  return scrolled(
    'Readings',
    html`<table class="figures survey-readings"><thead><tr><th scope="col">Reading</th><th scope="col">From and to</th><th scope="col">Read</th><th scope="col">Change to fit the others</th><th scope="col">Checked by the others</th><th scope="col">Result</th></tr></thead><tbody>${rows}</tbody></table>`,
  )
}

function verdict(redundancy: number | null, isSuspect: boolean): string {
  if (isSuspect) return 'suspect'
  if (redundancy === null) return '–'
  return redundancy === 0 ? 'nothing checks it' : 'good'
}

function scrolled(label: string, table: Html): Html {
  return html`<div class="scroll" role="region" aria-label="${label}" tabindex="0">${table}</div>`
}
