import type { Bill, BillLine } from '../../estimate/answer.ts'
import { moneyMore } from '../../measure/money.ts'
import { type Html, html } from '../html.ts'
import { inUnits } from '../in-units.ts'
import { quantityOf, quantityText } from '../shopping/quantity.ts'
import type { LengthsIn } from '../show-length.ts'

/** A thing on either bill. */
interface ComparedLine {
  readonly line: BillLine
  readonly before: BillLine | null
  readonly after: BillLine | null
  /** How many more are to be bought. */
  readonly moreToBuy: number
}

/** The lines of two bills that differ in what is needed, what is to be bought, or what that costs. */
export function comparedLines(before: Bill, after: Bill): ComparedLine[] {
  const same = (a: BillLine) => (b: BillLine) => a.item === b.item && a.description === b.description
  const gone = before.lines.filter((line) => !after.lines.some(same(line)))
  const both = [
    ...after.lines.map((line) => ({ line, before: before.lines.find(same(line)) ?? null, after: line })),
    ...gone.map((line) => ({ line, before: line, after: null })),
  ]
  return both
    .map((each) => ({ ...each, moreToBuy: (each.after?.toBuy ?? 0) - (each.before?.toBuy ?? 0) }))
    .filter((each) => FIGURES.some((figure) => (each.before?.[figure] ?? 0) !== (each.after?.[figure] ?? 0)))
}

const FIGURES = ['required', 'toBuy', 'amount'] as const

/** The numbers of both revisions. */
export interface Numbers {
  readonly before: number
  readonly after: number
}

/** What is different in the shop, line by line, with the totals of both lists. */
export function comparedBills(before: Bill, after: Bill, revisions: Numbers, lengthsIn: LengthsIn): Html {
  const lines = comparedLines(before, after)
  if (lines.length === 0) return html`<p>Nothing: both need the same, at the same price.</p>`
  const [was, is] = [`Revision ${revisions.before}`, `Revision ${revisions.after}`]
  const figures = (label: string, a: string, b: string) =>
    html`<td data-label="${was}, ${label}">${a}</td><td data-label="${is}, ${label}">${b}</td>`
  return html`<div class="scroll" role="region" aria-label="Both lists" tabindex="0"><table class="figures buying since compared-bill">
<thead><tr><th scope="col">Item</th><th scope="col">${was}, needed</th><th scope="col">${is}, needed</th><th scope="col">${was}, to buy</th><th scope="col">${is}, to buy</th><th scope="col">Difference to buy</th></tr></thead>
<tbody>${lines.map(
    ({ line, before: a, after: b, moreToBuy }) =>
      html`<tr><th scope="row">${inUnits(line.description, lengthsIn)}</th>${figures('needed', quantityOf(a?.required ?? 0, line), quantityOf(b?.required ?? 0, line))}${figures('to buy', quantityOf(a?.toBuy ?? 0, line), quantityOf(b?.toBuy ?? 0, line))}<td data-label="Difference to buy"><b>${signed(moreToBuy)}</b></td></tr>
`,
  )}</tbody>
<tfoot><tr><th scope="row" colspan="3">Total${unpriced(before, after) && html` <span class="hint">excluding lines without a price</span>`}</th>${figures('total', `${before.total} ${before.currency}`, `${after.total} ${after.currency}`)}<td data-label="Difference">${signedMoney(before, after)}</td></tr></tfoot>
</table></div>`
}

function unpriced(...bills: readonly Bill[]): boolean {
  return bills.some(({ unpricedLines }) => unpricedLines > 0)
}

/** What the later list costs more or less, in words. */
export function costMore(before: Bill, after: Bill): string {
  if (before.currency !== after.currency) return 'in another currency'
  const more = moneyMore(after.total, before.total)
  if (Number(more) === 0) return 'at the same cost'
  return `${more.replace('-', '')} ${after.currency} ${more.startsWith('-') ? 'less' : 'more'} in all`
}

function signedMoney(before: Bill, after: Bill): string {
  if (before.currency !== after.currency) return '–'
  const more = moneyMore(after.total, before.total)
  return `${more.startsWith('-') ? '−' : '+'}${more.replace('-', '')} ${after.currency}`
}

function signed(count: number): string {
  return count === 0 ? '0' : `${count > 0 ? '+' : '−'}${quantityText(Math.abs(count))}`
}
