import type { Fault } from '../../measure/fault.ts'
import type { previewBuilding } from '../../projects/building.ts'
import type { Build, Project } from '../../projects/store.ts'
import type { Stock } from '../../shed/stock.ts'
import { type Html, html } from '../html.ts'
import { stockInWords } from '../shed/stock-words.ts'
import { counted } from '../words.ts'
import { timeOf } from './saved-pages.ts'

/** Asks once more before stock is moved, and tells what has been built of a plan so far. */
export function builtPage(
  { id, name, revision }: Project,
  builds: readonly Build[],
  foreseen: Awaited<ReturnType<typeof previewBuilding>>,
  stale: boolean,
): Html {
  const already = builds.find((build) => build.revision === revision)
  return html`<h1>Is “${name}” built?</h1>
${stale && html`<p class="card notice" role="alert">Nothing is done yet: somebody saved revision ${revision} of this plan in the meantime.</p>`}
${already ? builtAlready(id, already) : foreseen.ok ? question(id, revision, foreseen) : cannot(id, foreseen.faults)}
${builds.length > 0 && html`<section class="card" aria-labelledby="builds"><h2 id="builds">Built so far</h2><ul>${builds.map(buildItem)}</ul></section>`}`
}

function question(id: string, revision: number, { taken, returned }: { taken: Stock; returned: Stock }): Html {
  return html`<section class="card"><p>Then revision ${revision} takes from the shed what was kept for it, and what is left over comes back. What had to be bought is taken as bought and used up. This is done once and cannot be taken back; the shed itself can always be put right.</p>
${stockList('Leaves the shed', taken)}
${stockList('Comes back', returned)}
<form method="post" action="/plans/${id}/built" class="buttons"><input type="hidden" name="revision" value="${revision}">
<button class="first">Yes, it is built</button> <a class="button" href="/plans/${id}">Not yet</a></form></section>`
}

function builtAlready(id: string, { revision, builtAt }: Build): Html {
  return html`<section class="card"><p>Revision ${revision} was built on ${timeOf(builtAt)}. Save what comes next as a new revision, with the track that is laid marked as existing.</p>
<p class="buttons"><a class="button first" href="/plans/${id}">Back to the plan</a> <a class="button" href="/shed">To the shed</a></p></section>`
}

function cannot(id: string, faults: readonly Fault[]): Html {
  return html`<section class="card notice"><p>This plan cannot be worked out, so nobody knows what it takes. ${counted(faults.length, 'thing')} to be put right first.</p>
<ul>${faults.slice(0, MOST_LISTED).map((fault) => html`<li>${fault.detail}</li>`)}</ul>
<p class="buttons"><a class="button first" href="/plans/${id}">Back to the plan</a></p></section>`
}

const MOST_LISTED = 10

function stockList(title: string, stock: Stock): Html {
  const words = stockInWords(stock)
  return html`<h2>${title}</h2>
${words.length === 0 ? html`<p class="hint">Nothing.</p>` : html`<ul>${words.map((line) => html`<li>${line}</li>`)}</ul>`}`
}

function buildItem({ revision, builtAt, taken, returned }: Build): Html {
  const said = (stock: Stock) => stockInWords(stock).join('; ') || 'nothing'
  return html`<li>Revision ${revision}, ${timeOf(builtAt)}. <span class="hint">From the shed: ${said(taken)}. Back to it: ${said(returned)}.</span></li>`
}
