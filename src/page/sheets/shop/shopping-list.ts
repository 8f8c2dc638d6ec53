import type { Bill, BillLine } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'
import { inUnits } from '../../in-units.ts'
import { quantityOf, quantityText } from '../../shopping/quantity.ts'
import type { LengthsIn } from '../../show-length.ts'
import { counted } from '../../words.ts'

/** What to buy, with boxes to tick, then what is in stock. Each line opens to show what it is for. */
export function shoppingList(bill: Bill, lengthsIn: LengthsIn): Html {
  const toBuy = bill.lines.filter((line) => line.toBuy > 0)
  const inStock = bill.lines.filter((line) => line.toBuy === 0)
  return html`<div class="scroll" role="region" aria-label="Table of what to buy" tabindex="0"><table class="figures shopping">
<thead><tr><th scope="col"><span class="unseen">Done</span></th><th scope="col">Item</th><th scope="col">Needed</th><th scope="col">On hand</th><th scope="col">To buy</th><th scope="col">Packs</th><th scope="col">Price per pack</th><th scope="col">Amount</th></tr></thead>
<tbody>${toBuy.map((line) => row(line, true, lengthsIn))}${inStock.map((line) => row(line, false, lengthsIn))}</tbody>
<tfoot>${totals(bill)}</tfoot>
</table></div>
${mass(bill)}`
}

function row(line: BillLine, buy: boolean, lengthsIn: LengthsIn): Html {
  const packs = line.packSize > 1 ? `${line.packs} × ${shown(line.packSize)}` : String(line.packs)
  return html`<tr${!buy && html` class="secondary"`}><td>${buy ? html`<span class="box"></span>` : ''}</td><th scope="row">${item(line, lengthsIn)}</th><td>${amountOf(line.required, line)}</td><td>${amountOf(line.onHand, line)}</td><td><b>${amountOf(line.toBuy, line)}</b></td><td>${buy ? packs : '–'}</td><td>${line.unitPrice ?? 'no price'}</td><td>${line.amount ?? '–'}</td></tr>
`
}

function item(line: BillLine, lengthsIn: LengthsIn): Html {
  const description = inUnits(line.description, lengthsIn)
  const { reasons, spares, sparePct } = line
  if (reasons.length === 0) return html`${description}`
  return html`<details><summary>${description}</summary><ul class="reasons">${reasons.map(
    ({ text, track, quantity }) =>
      html`<li>${amountOf(quantity, line)}: ${track !== null && html`${track}, `}${text}</li>`,
  )}${spares > 0 && html`<li>${amountOf(spares, line)}: spares, ${sparePct} %</li>`}</ul></details>`
}

function totals({ total, currency, unpricedLines, taxRatePct, tax, gross }: Bill): Html {
  const without =
    unpricedLines > 0 && html` <span class="hint">excluding ${counted(unpricedLines, 'line')} without a price</span>`
  const sum = (name: string, amount: string | null, note: Html | false = false) =>
    html`<tr><th scope="row" colspan="7">${name}${note}</th><td>${amount}</td></tr>`
  const net = sum(`Total in ${currency}`, total, without)
  if (taxRatePct === null) return net
  return html`${net}${sum(`Tax, ${taxRatePct} %`, tax)}${sum(`Total with tax in ${currency}`, gross)}`
}

function mass({ massKg, linesWithoutMass }: Bill): Html | null {
  if (massKg === 0) return null
  const unknown = linesWithoutMass > 0 && `, plus ${counted(linesWithoutMass, 'line')} of unknown weight`
  return html`<p class="hint">Weight of items to buy: ${shown(massKg)} kg${unknown}.</p>`
}

/** Negative numbers have a minus sign, not a hyphen. */
function amountOf(quantity: number, line: BillLine): string {
  return quantityOf(quantity, line).replace('-', '−')
}

function shown(quantity: number): string {
  return quantityText(quantity).replace('-', '−')
}
