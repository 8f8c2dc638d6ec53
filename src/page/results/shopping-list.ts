import type { Bill, BillLine } from '../../estimate/answer.ts'
import { type Html, html } from '../html.ts'
import { counted } from '../words.ts'

/** What to buy, with boxes to tick in the shop; below it what is there already. */
export function shoppingList({ lines, total, currency, unpricedLines }: Bill): Html {
  const toBuy = lines.filter((line) => line.toBuy > 0)
  const there = lines.filter((line) => line.toBuy === 0)
  return html`<div class="scroll" role="region" aria-label="Shopping list" tabindex="0"><table class="figures shopping">
<thead><tr><th scope="col"><span class="unseen">Done</span></th><th scope="col">Item</th><th scope="col">Needed</th><th scope="col">On hand</th><th scope="col">To buy</th><th scope="col">Packs</th><th scope="col">Price of a pack</th><th scope="col">Amount</th></tr></thead>
<tbody>${toBuy.map((line) => row(line, true))}${there.map((line) => row(line, false))}</tbody>
<tfoot><tr><th scope="row" colspan="7">Total in ${currency}${unpricedLines > 0 && html` <span class="hint">without ${counted(unpricedLines, 'line')} that ${unpricedLines === 1 ? 'has' : 'have'} no price</span>`}</th><td>${total}</td></tr></tfoot>
</table></div>`
}

function row(line: BillLine, buy: boolean): Html {
  const packs = line.packSize > 1 ? `${line.packs} × ${line.packSize}` : String(line.packs)
  return html`<tr${!buy && html` class="there"`}><td>${buy ? html`<span class="box"></span>` : ''}</td><th scope="row">${line.description}</th><td>${line.required}</td><td>${line.onHand}</td><td><b>${line.toBuy}</b></td><td>${buy ? packs : '–'}</td><td>${line.unitPrice ?? 'no price'}</td><td>${line.amount ?? '–'}</td></tr>
`
}
