import type { SurveyInput } from '../../plan/rows/survey.ts'
import type { SurveyAnswer } from '../../survey/answer.ts'
import type { SurveyResult } from '../../survey/survey.ts'
import { faultText } from '../form/controls.ts'
import { type Html, html } from '../html.ts'
import { faultInUnits, inUnits } from '../in-units.ts'
import type { LengthsIn } from '../show-length.ts'
import { counted } from '../words.ts'
import { type FieldFault, readSurveyForm, SURVEY_FIELDS, type SurveyFields } from './read-survey-form.ts'
import { surveyDrawing } from './survey-drawing.ts'
import { lineTables, pegTable, pointTable, readingTable } from './survey-tables.ts'

/** The page that works out a survey. `complete`: the form has no faults. */
interface SurveyPage {
  readonly main: Html
  readonly complete: boolean
}

/** The form as it was sent, with the answer above it; `work` is not called where the form cannot be read. */
export function surveyPage(
  typed: SurveyFields,
  lengthsIn: LengthsIn,
  work: (input: SurveyInput) => SurveyResult,
): SurveyPage {
  const isBlank = SURVEY_FIELDS.every((field) => typed[field].trim() === '')
  const read = isBlank ? null : readSurveyForm(typed)
  const result = read?.ok ? work(read.input) : null
  const faults = read?.ok ? (result!.ok ? [] : result!.faults.map(read.placed)) : (read?.faults ?? [])
  const main = html`<h1>Survey a garden</h1>
<p>Measure from pegs whose places you know, with a tape and a level, to trees, rocks, corners and the line of the track. You get where they are, how sure that is, and which reading to doubt.</p>
${result?.ok && answer(result.answer, lengthsIn)}
${faults.length > 0 && faultSummary(faults, lengthsIn)}
${form(typed, faults, lengthsIn)}`
  return { main, complete: faults.length === 0 }
}

function answer(found: SurveyAnswer, lengthsIn: LengthsIn): Html {
  const drawing = surveyDrawing(found, lengthsIn)
  const { points, suspects, assumptions } = found
  return html`<section class="card" id="answer" aria-labelledby="answer-title"><h2 id="answer-title">Where everything is</h2>
<p class="verdict">${verdict(found)}</p>
${suspects.length > 0 && html`<ul class="suspects">${suspects.map(({ message }) => html`<li>${inUnits(message, lengthsIn)}</li>`)}</ul>`}
${drawing && html`<div class="drawing" role="region" aria-label="Drawing" tabindex="0">${drawing}</div>`}
${pointTable(found, lengthsIn)}
${points.length > 0 && html`<p class="hint">Errors are one standard deviation: two points of three are nearer than that in any one direction. The ellipse around a point holds it with 39 %, one 2.45 times as large with 95 %.</p>`}
${pegTable(found, lengthsIn)}
${lineTables(found, lengthsIn)}
${readingTable(found, lengthsIn)}
${assumptions.length > 0 && html`<p class="hint">Default values used: ${assumptions.map(({ field, value }, index) => html`${index > 0 && ', '}${field === '/tapeError' ? 'tape error' : 'level error'} ${inUnits(value, lengthsIn)}`)}.</p>`}
</section>`
}

function verdict({ points, redundancy, suspects }: SurveyAnswer): Html {
  const found = points.filter(({ xMm }) => xMm !== null).length
  const checks =
    redundancy === 0
      ? html`<b>Nothing checks the readings:</b> there is none too many. One more distance to each point would show a slip.`
      : suspects.length === 0
        ? html`<b class="sound">The readings agree</b> within the errors of tape and level; ${counted(redundancy, 'reading')} more than needed.`
        : html`<b>${counted(suspects.length, 'suspect reading')}.</b>`
  return html`${counted(found, 'point')} of ${points.length} placed. ${checks}`
}

function faultSummary(faults: readonly FieldFault[], lengthsIn: LengthsIn): Html {
  return html`<section class="card errors" role="alert" aria-labelledby="errors-title"><h2 id="errors-title">${counted(faults.length, 'problem')} to fix</h2>
<ul>${faults.slice(0, 50).map(({ field, line, fault }) => html`<li><a href="#${field}">${LABELS[field].label}${line !== null && `, line ${line}`}</a>: ${faultText(faultInUnits(fault, lengthsIn))}</li>`)}</ul></section>`
}

const LABELS: Readonly<
  Record<keyof SurveyFields, { readonly label: string; readonly hint: string; readonly rows: number }>
> = {
  pegs: { label: 'Pegs', hint: 'name, x, y and, if you know it, elevation', rows: 4 },
  distances: {
    label: 'Distances',
    hint: 'from, to, distance; with the tape held level. Add “slope” if it lay along the slope',
    rows: 8,
  },
  points: { label: 'Sides', hint: 'point, left or right; only for points with two distances', rows: 2 },
  levels: { label: 'Heights', hint: 'from, to, rise; with a minus where it falls', rows: 5 },
  lines: {
    label: 'Lines of stations',
    hint: 'a heading “name: from, to” (leave out to if the end is not known), then length, rise for each step of the level',
    rows: 6,
  },
  tapeError: { label: 'Tape error', hint: 'plus or minus; blank: 10 mm', rows: 1 },
  levelError: { label: 'Level error', hint: 'plus or minus, each reading; blank: 2 mm', rows: 1 },
}

function form(typed: SurveyFields, faults: readonly FieldFault[], lengthsIn: LengthsIn): Html {
  return html`<form method="post" action="/survey" autocomplete="off" class="card" id="survey" aria-labelledby="survey-title">
<h2 id="survey-title">Your readings</h2>
<p class="hint">One per line, its values separated by commas. A name that is not a peg is a point to be found. A number without a unit is in millimetres; you can also write <kbd>12 ft 3 in</kbd> or <kbd>3.74 m</kbd>. x is to the right and y up the sheet.</p>
<div class="fields">${(Object.keys(LABELS) as (keyof SurveyFields)[]).map((field) => control(field, typed[field], faults, lengthsIn))}</div>
<div class="buttons"><button class="first">Work out</button>
<label for="show">Units</label> <select id="show" name="show" class="narrow">${UNITS.map(([value, label]) => html`<option value="${value}"${value === lengthsIn && html` selected`}>${label}</option>`)}</select></div>
<p class="hint no-print"><a href="/survey?example">Fill in an example</a>, or read <a href="/docs/survey">how to measure</a>.</p>
</form>`
}

const UNITS = [
  ['both', 'mm with feet and inches'],
  ['metric', 'millimetres only'],
  ['feet', 'feet and inches only'],
] as const

function control(field: keyof SurveyFields, text: string, faults: readonly FieldFault[], lengthsIn: LengthsIn): Html {
  const { label, hint, rows } = LABELS[field]
  const own = faults.filter((each) => each.field === field)
  const described = own.length > 0 ? `${field}.hint ${field}.fault` : `${field}.hint`
  const invalid = own.length > 0 && html` aria-invalid="true"`
  const box =
    rows === 1
      ? html`<input id="${field}" name="${field}" value="${text}" aria-describedby="${described}"${invalid}>`
      : html`<textarea id="${field}" name="${field}" rows="${rows}" spellcheck="false" aria-describedby="${described}"${invalid}>
${text}</textarea>`
  return html`<div class="${rows === 1 ? 'field' : 'field wide'}"><label for="${field}">${label}</label>
${box}<span class="hint" id="${field}.hint">${inUnits(hint, lengthsIn)}</span>${own.length > 0 && html`<p class="fault" id="${field}.fault">${own.map(({ line, fault }) => html`${line !== null && `Line ${line}: `}${faultText(faultInUnits(fault, lengthsIn))}`)}</p>`}</div>`
}
