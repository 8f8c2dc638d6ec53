import type { Estimate } from '../../estimate/answer.ts'
import type { Fault } from '../../measure/fault.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { Project, RevisionSummary } from '../../projects/store.ts'
import { planToDraw } from '../drawing/plan-to-draw.ts'
import { attributes, type Html, html } from '../html.ts'
import { planDifferences } from '../pages/plan-differences.ts'
import { unitsOf } from '../pages/units-of-plan.ts'
import { gardenLength, type LengthsIn } from '../show-length.ts'
import { counted, spoken } from '../words.ts'
import { changeList, changesInWords } from './change-list.ts'
import { comparedBills, comparedLines, costMore, type Numbers } from './compared-bills.ts'
import { comparedDrawing } from './compared-drawing.ts'
import { differenceList } from './difference-list.ts'
import { elementChanges } from './element-changes.ts'

/** One revision as it was worked out, or why it cannot be. */
export interface Side {
  readonly project: Project
  readonly worked:
    | { readonly ok: true; readonly plan: PlanInput; readonly estimate: Estimate }
    | { readonly ok: false; readonly faults: readonly Fault[] }
}

interface ComparePage {
  readonly before: Side
  readonly after: Side
  readonly revisions: readonly RevisionSummary[]
  readonly lengthsIn: LengthsIn
}

/** Two revisions of a plan: both in one drawing, and what differs in its elements, sticks, shopping and cost. */
export function comparePage({ before, after, revisions, lengthsIn }: ComparePage): Html {
  const { id, name } = after.project
  const numbers = { before: before.project.revision, after: after.project.revision }
  const show = lengthsIn !== unitsOf(after.project.plan) && lengthsIn
  const isSince = numbers.before < numbers.after && numbers.after === revisions.at(-1)?.revision
  const sinceLink =
    isSince &&
    html` What more to buy after revision ${numbers.before} was bought is <a href="/plans/${id}/since?since=${numbers.before}">another list</a>.`
  return html`<h1>${name}: revision ${numbers.before} and revision ${numbers.after}</h1>
<form method="get" action="/plans/${id}/compare" class="card no-print"><div class="fields">${choice('from', 'Earlier', numbers.before, revisions)}${choice('to', 'Later', numbers.after, revisions)}</div>
${show && html`<input type="hidden" name="show" value="${show}">`}<p class="buttons"><button class="first">Compare</button> <a class="button" href="/plans/${id}/revisions">All revisions</a> <a class="button" href="/plans/${id}">Back to the plan</a></p></form>
${[before, after].map(faultCard)}
${before.worked.ok && after.worked.ok && compared(before.worked, after.worked, numbers, lengthsIn, sinceLink)}
<section class="card" aria-labelledby="written"><h2 id="written">What was written differently</h2>
${written(before.project, after.project)}
</section>`
}

function choice(name: string, label: string, chosen: number, revisions: readonly RevisionSummary[]): Html {
  return html`<div class="field"><label for="${name}">${label}</label>
<select id="${name}" name="${name}">${revisions.map((each) => html`<option${attributes({ value: String(each.revision), selected: each.revision === chosen })}>Revision ${each.revision}: ${each.name}</option>`)}</select></div>`
}

function faultCard({ project, worked }: Side): Html | null {
  if (worked.ok) return null
  return html`<section class="card"><h2>Revision ${project.revision} cannot be worked out</h2><ul>${worked.faults.slice(0, 10).map(({ detail }) => html`<li>${detail}</li>`)}</ul></section>`
}

type Worked = Extract<Side['worked'], { readonly ok: true }>

function compared(
  before: Worked,
  after: Worked,
  numbers: Numbers,
  lengthsIn: LengthsIn,
  sinceLink: Html | false,
): Html {
  const changes = elementChanges(before.estimate, after.estimate)
  const sides = {
    before: planToDraw(before.plan, before.estimate),
    after: planToDraw(after.plan, after.estimate),
    changes,
  }
  const drawing = comparedDrawing(sides, after.estimate.findings, lengthsIn)
  return html`<section class="card" aria-labelledby="short"><h2 id="short">In short</h2>
<p class="lead">${inShort(before.estimate, after.estimate, changesInWords(changes))}</p>
${measures(before.estimate, after.estimate, numbers, lengthsIn)}
</section>
<section class="card" aria-labelledby="both"><h2 id="both">Both in one drawing</h2>
<p class="hint">Solid: revision ${numbers.after}; a broad band marks what was changed or added. Dashed: track of revision ${numbers.before} that lay elsewhere. Both at the same scale.</p>
${drawing ? html`<div class="drawing" role="region" aria-label="Drawing" tabindex="0">${drawing}</div>` : html`<p>There is no track to draw.</p>`}
</section>
<section class="card" aria-labelledby="elements"><h2 id="elements">What is different in the track</h2>
${changeList(changes, after.estimate.tracks.length > 1, lengthsIn)}
${findingChanges(before.estimate, after.estimate, numbers)}
</section>
<section class="card kept" aria-labelledby="shopping"><h2 id="shopping">What is different to buy</h2>
<p class="hint">Each as it would be bought by itself, with what the shed has for it.${sinceLink}</p>
${comparedBills(before.estimate.bill, after.estimate.bill, numbers, lengthsIn)}
</section>`
}

/** `Buy 3 more sticks for 43.50 USD more. 2 curves changed.` */
function inShort(before: Estimate, after: Estimate, changes: readonly string[]): string {
  const sticks = comparedLines(before.bill, after.bill)
    .filter(({ line }) => line.item === 'rail-stick')
    .reduce((sum, { moreToBuy }) => sum + moreToBuy, 0)
  const bought =
    sticks === 0
      ? 'As many sticks to buy'
      : `Buy ${counted(Math.abs(sticks), sticks > 0 ? 'more stick' : 'stick')}${sticks > 0 ? '' : ' fewer'}`
  return `${bought}, ${costMore(before.bill, after.bill)}. ${changes.length === 0 ? 'No element changed' : capitalised(spoken(changes))}.`
}

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

/** A row for each measure of a plan that people ask for first. */
function measures(before: Estimate, after: Estimate, numbers: Numbers, lengthsIn: LengthsIn): Html {
  const trackMm = ({ tracks }: Estimate) => tracks.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
  const joints = ({ tracks }: Estimate) => tracks.reduce((sum, track) => sum + track.joints, 0)
  const rows: readonly (readonly [string, (estimate: Estimate) => Html | string | number])[] = [
    ['Track', (each) => gardenLength(trackMm(each), lengthsIn)],
    ['Sticks used', ({ cutting }) => cutting.sticksUsed],
    ['Waste', ({ cutting }) => gardenLength(cutting.wasteMm, lengthsIn)],
    ['Joints', joints],
    ['Rails to bend', ({ bends }) => bends.length],
    ['Findings', ({ findings }) => findings.length],
    ['Cost', ({ bill }) => `${bill.total} ${bill.currency}`],
  ]
  return html`<div class="scroll" role="region" aria-label="Both revisions in figures" tabindex="0"><table class="figures">
<thead><tr><th scope="col">Measure</th><th scope="col">Revision ${numbers.before}</th><th scope="col">Revision ${numbers.after}</th></tr></thead>
<tbody>${rows.map(([label, of]) => html`<tr><th scope="row">${label}</th><td>${of(before)}</td><td>${of(after)}</td></tr>`)}</tbody>
</table></div>`
}

/** Findings that came and went, by what they say. */
function findingChanges(before: Estimate, after: Estimate, numbers: Numbers): Html {
  const only = (here: Estimate, there: Estimate) =>
    [...new Set(here.findings.map(({ message }) => message))].filter(
      (message) => !there.findings.some((each) => each.message === message),
    )
  const listedUnder = (title: string, messages: readonly string[]) =>
    messages.length > 0 &&
    html`<h3>${title}</h3><ul>${messages.slice(0, 20).map((message) => html`<li>${message}</li>`)}</ul>`
  return html`${listedUnder(`Found in revision ${numbers.after} alone`, only(after, before))}${listedUnder(`Found in revision ${numbers.before} alone`, only(before, after))}`
}

function written(before: Project, after: Project): Html {
  const differences = planDifferences(before.plan, after.plan)
  if (differences.length === 0) return html`<p>Nothing: both plans are the same.</p>`
  return differenceList(differences, before.revision, after.revision)
}
