import type { Fault } from '../../measure/fault.ts'
import type { previewBuilding } from '../../projects/building.ts'
import type { Build, Project } from '../../projects/store.ts'
import type { Stock } from '../../shed/stock.ts'
import { type Html, html } from '../html.ts'
import { inUnits } from '../in-units.ts'
import { stockInWords } from '../shed/stock-words.ts'
import type { LengthsIn } from '../show-length.ts'
import { counted } from '../words.ts'
import { timeOf } from './saved-pages.ts'

/** Asks for confirmation before stock is moved, and lists what has been built of a plan so far. */
export function builtPage(
  { id, name, revision }: Project,
  builds: readonly Build[],
  foreseen: Awaited<ReturnType<typeof previewBuilding>>,
  stale: boolean,
  lengthsIn: LengthsIn,
): Html {
  const already = builds.find((build) => build.revision === revision)
  return html`<h1>Mark “${name}” as built?</h1>
${stale && html`<p class="card notice" role="alert">Nothing has been changed: someone else saved revision ${revision} of this plan in the meantime.</p>`}
${already ? builtAlready(id, already) : foreseen.ok ? confirmation(id, revision, foreseen, lengthsIn) : cannotCalculate(id, foreseen.faults, lengthsIn)}
${builds.length > 0 && html`<section class="card" aria-labelledby="builds"><h2 id="builds">Built so far</h2><ul>${builds.map((build) => buildItem(build, lengthsIn))}</ul></section>`}`
}

/** Says that a saved plan is built, with the way to extend it. */
export function builtLine({
  id,
  revision,
  opened,
  builds,
}: {
  readonly id: string
  readonly revision: number
  readonly opened: { readonly revision: number } | null
  readonly builds: readonly Build[]
}): Html | null {
  const build = builds.at(-1)
  if (!build) return null
  const shown = opened?.revision ?? revision
  const here = build.revision === shown && opened !== null
  return html`<p class="card notice built"><b>Built</b>: revision ${build.revision} was built on ${timeOf(build.builtAt)}.
${here ? 'The figures below are as it was built.' : `Revision ${shown} is not built.`} <a class="button no-print" href="/plans/${id}/extend">Extend what is built</a></p>`
}

/** Over a plan that extends what was built. */
export function extendsLine({ revision }: Build): Html {
  return html`<p class="card notice">This extends revision ${revision}, which is built: its tracks are existing and nothing of them is bought again. What you had on hand for it is used up, so only what is in the shed counts now. Draw the new track and save: that makes the next revision.</p>`
}

function confirmation(
  id: string,
  revision: number,
  { taken, returned }: { taken: Stock; returned: Stock },
  lengthsIn: LengthsIn,
): Html {
  return html`<section class="card"><p>Revision ${revision} then takes its reserved stock from the shed, and what is left over is returned. Items that had to be bought are treated as bought and used. This cannot be undone, but you can always edit the shed itself.</p>
${stockList('Taken from the shed', taken, lengthsIn)}
${stockList('Returned to the shed', returned, lengthsIn)}
<form method="post" action="/plans/${id}/built" class="buttons"><input type="hidden" name="revision" value="${revision}">
<button class="first">Mark as built</button> <a class="button" href="/plans/${id}">Cancel</a></form></section>`
}

function builtAlready(id: string, { revision, builtAt }: Build): Html {
  return html`<section class="card"><p>Revision ${revision} was built on ${timeOf(builtAt)}. Save further changes as a new revision, with the laid track marked as existing: “Extend what is built” begins one.</p>
<p class="buttons"><a class="button first" href="/plans/${id}/extend">Extend what is built</a> <a class="button" href="/plans/${id}">Back to the plan</a> <a class="button" href="/shed">Go to the shed</a></p></section>`
}

function cannotCalculate(id: string, faults: readonly Fault[], lengthsIn: LengthsIn): Html {
  return html`<section class="card notice"><p>This plan cannot be calculated, so it is not known what it uses. ${counted(faults.length, 'problem')} to fix first.</p>
<ul>${faults.slice(0, MOST_LISTED).map((fault) => html`<li>${inUnits(fault.detail, lengthsIn)}</li>`)}</ul>
<p class="buttons"><a class="button first" href="/plans/${id}">Back to the plan</a></p></section>`
}

const MOST_LISTED = 10

function stockList(title: string, stock: Stock, lengthsIn: LengthsIn): Html {
  const words = stockInWords(stock, lengthsIn)
  return html`<h2>${title}</h2>
${words.length === 0 ? html`<p class="hint">Nothing.</p>` : html`<ul>${words.map((line) => html`<li>${line}</li>`)}</ul>`}`
}

function buildItem({ revision, builtAt, taken, returned }: Build, lengthsIn: LengthsIn): Html {
  const text = (stock: Stock) => stockInWords(stock, lengthsIn).join('; ') || 'nothing'
  return html`<li>Revision ${revision}, ${timeOf(builtAt)}. <span class="hint">Taken from the shed: ${text(taken)}. Returned: ${text(returned)}.</span></li>`
}
