import type { BillLine } from '../../estimate/answer.ts'
import type { Project, Purchase } from '../../projects/store.ts'
import { attributes, type Html, html } from '../html.ts'
import { inUnits } from '../in-units.ts'
import type { LengthsIn } from '../show-length.ts'
import type { LineToBuy } from './purchases.ts'
import { quantityOf, quantityText } from './quantity.ts'

export interface ShoppingPage {
  readonly project: Project
  readonly lines: readonly LineToBuy[]
  readonly others: readonly Purchase[]
  readonly currency: string
  readonly saved: boolean
  readonly lengthsIn: LengthsIn
}

/** A revision that is built needs nothing more. */
export function builtShoppingPage({ id, name, revision }: Project): Html {
  return html`<h1>Shopping for ${name}</h1>
<section class="card"><p>Revision ${revision} is built, so there is nothing left to buy for it. What its extension needs is listed once that is saved.</p>
<p class="buttons"><a class="button first" href="/plans/${id}/extend">Extend what is built</a> <a class="button" href="/plans/${id}">Back to the plan</a></p></section>`
}

/** What there is to buy for a plan, with boxes that stay ticked. */
export function shoppingPage({ project, lines, others, currency, saved, lengthsIn }: ShoppingPage): Html {
  const { id, name, revision } = project
  const left = lines.filter(({ isBought }) => !isBought).length
  return html`<h1>Shopping for ${name}</h1>
${saved && html`<p class="card notice no-print" role="status">Saved.</p>`}
<p>The list of revision ${revision}. Tick what you have bought: it stays ticked until the plan is marked as built. If the plan changes, a line you bought less of than it now needs is open again.</p>
${
  lines.length === 0
    ? html`<p class="card">There is nothing to buy.</p>`
    : html`<form method="post" action="/plans/${id}/shopping" class="card">
<div class="scroll" role="region" aria-label="Shopping list" tabindex="0"><table class="figures buying">
<thead><tr><th scope="col">Bought</th><th scope="col">Item</th><th scope="col">To buy</th><th scope="col">Packs</th><th scope="col">Amount in ${currency}</th></tr></thead>
<tbody>${lines.map((line, index) => row(line, index, lengthsIn))}</tbody></table></div>
<p class="hint">${left === 0 ? 'Everything is bought.' : `${left} of ${lines.length} still to buy.`}</p>
<p class="buttons no-print"><button class="first">Save</button> <a class="button" href="/plans/${id}">Back to the plan</a></p>
</form>`
}
${others.length > 0 && html`<section class="card" aria-labelledby="others"><h2 id="others">Bought, but no longer on the list</h2><ul>${others.map(({ item, quantity }) => html`<li>${quantityText(quantity)} × ${inUnits(item.replace(/^[a-z-]+: /, ''), lengthsIn)}</li>`)}</ul></section>`}`
}

function row({ line, item, bought, isBought }: LineToBuy, index: number, lengthsIn: LengthsIn): Html {
  const box = attributes({ id: `item.${index}`, name: 'item', value: item, checked: isBought })
  const note = bought > 0 && html` <span class="hint">${boughtText(bought, line)}</span>`
  return html`<tr${isBought && html` class="secondary"`}><td><input type="checkbox"${box}></td><th scope="row"><label for="item.${index}">${inUnits(line.description, lengthsIn)}</label>${note}</th><td data-label="To buy">${quantityOf(line.toBuy, line)}</td><td data-label="Packs">${line.packSize > 1 ? `${line.packs} × ${quantityText(line.packSize)}` : line.packs}</td><td data-label="Amount">${line.amount ?? '–'}</td></tr>
`
}

function boughtText(bought: number, line: BillLine): string {
  return `bought ${quantityText(bought)} of ${quantityOf(line.toBuy, line)}`
}
