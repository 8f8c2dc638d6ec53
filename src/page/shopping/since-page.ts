import type { Fault } from '../../measure/fault.ts'
import type { Project, RevisionSummary } from '../../projects/store.ts'
import type { BillSince } from '../../shed/bill-since.ts'
import { attributes, type Html, html } from '../html.ts'
import { inUnits } from '../in-units.ts'
import type { Difference } from '../pages/plan-differences.ts'
import { unitsOf } from '../pages/units-of-plan.ts'
import { differenceList } from '../revisions/difference-list.ts'
import type { LengthsIn } from '../show-length.ts'
import { quantityOf } from './quantity.ts'

export interface SincePage {
  readonly project: Project
  /** Earlier ones, the oldest first. */
  readonly earlier: readonly RevisionSummary[]
  readonly since: number
  readonly lengthsIn: LengthsIn
  readonly result:
    | { readonly ok: true; readonly bill: BillSince }
    | { readonly ok: false; readonly faults: readonly Fault[] }
  /** Between the plan of that revision and the present one. */
  readonly differences: readonly Difference[]
}

/** What more to buy for a plan that has changed since its list was bought, and what has changed. */
export function sincePage({ project, earlier, since, result, differences, lengthsIn }: SincePage): Html {
  const { id, name, revision } = project
  const unitsAsked = lengthsIn === unitsOf(project.plan) ? '' : html`&amp;units=${lengthsIn === 'feet' ? 'in' : 'mm'}`
  return html`<h1>What more to buy for ${name}</h1>
<form method="get" action="/plans/${id}/since" class="card"><div class="fields"><div class="field"><label for="since">The list that was bought</label>
<select id="since" name="since">${earlier.map((each) => html`<option${attributes({ value: String(each.revision), selected: each.revision === since })}>Revision ${each.revision}: ${each.name}</option>`)}</select></div></div>
<p class="buttons"><button class="first">Show</button> <a class="button" href="/plans/${id}">Back to the plan</a></p></form>
<section class="card" aria-labelledby="more"><h2 id="more">To buy for revision ${revision} since revision ${since}</h2>
${result.ok ? billTable(result.bill, lengthsIn) : html`<p>This plan cannot be calculated:</p><ul>${result.faults.slice(0, 10).map(({ detail }) => html`<li>${detail}</li>`)}</ul>`}
${result.ok && html`<p class="no-print"><a href="/v1/projects/${id}/tables/bill.csv?since=${since}${unitsAsked}">This list as CSV</a></p>`}
</section>
<section class="card" aria-labelledby="changes"><h2 id="changes">What has changed in the plan</h2>
${differences.length === 0 ? html`<p>Nothing: the plan is the same as in revision ${since}.</p>` : differenceList(differences, since, null)}
<p class="no-print"><a href="/plans/${id}/compare?from=${since}&amp;to=${revision}">Both revisions in one drawing</a></p>
</section>`
}

function billTable({ lines, total, currency, unpricedLines, findings }: BillSince, lengthsIn: LengthsIn): Html {
  const toBuy = lines.filter((line) => line.toBuy > 0)
  const rest = lines.filter((line) => line.toBuy === 0)
  return html`${toBuy.length === 0 && html`<p>Nothing: everything is bought or in stock.</p>`}
<div class="scroll" role="region" aria-label="What more to buy" tabindex="0"><table class="figures buying since">
<thead><tr><th scope="col">Item</th><th scope="col">Needed</th><th scope="col">On hand</th><th scope="col">Bought before</th><th scope="col">To buy</th><th scope="col">Packs</th><th scope="col">Amount</th></tr></thead>
<tbody>${[...toBuy, ...rest].map(
    (line) =>
      html`<tr${line.toBuy === 0 && html` class="secondary"`}><th scope="row">${inUnits(line.description, lengthsIn)}</th><td data-label="Needed">${quantityOf(line.required, line)}</td><td data-label="On hand">${quantityOf(line.onHand, line)}</td><td data-label="Bought before">${quantityOf(line.boughtBefore, line)}</td><td data-label="To buy"><b>${quantityOf(line.toBuy, line)}</b></td><td data-label="Packs">${line.packs}</td><td data-label="Amount">${line.amount ?? '–'}</td></tr>
`,
  )}</tbody>
<tfoot><tr><th scope="row" colspan="6">Total in ${currency}${unpricedLines > 0 && html` <span class="hint">excluding lines without a price</span>`}</th><td>${total}</td></tr></tfoot>
</table></div>
${findings.map(({ message }) => html`<p class="hint">${message}</p>`)}`
}
