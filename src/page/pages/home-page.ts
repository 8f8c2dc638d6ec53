import type { ProjectSummary } from '../../projects/store.ts'
import { type Html, html } from '../html.ts'
import { counted } from '../words.ts'
import { timeOf } from './saved-pages.ts'

/** What the service does, where to begin, and the plans that are kept; the blank form follows. */
export function welcome(plans: { items: readonly ProjectSummary[]; next: string | null }): Html {
  return html`<div class="welcome">
<div><h1>From a track plan to bent rail and a shopping list</h1>
<p>Write down the straights, curves and easements of a 45 mm garden line. You get it drawn to scale, the length of either rail,
how far to bend each rail so that it springs back to its radius, what to saw from which stick, how many ties and joiners it takes, and what it all costs.</p>
<p class="buttons"><a class="button first" href="/demo">Open the demo plan</a> <a class="button" href="#plan">Write your own</a></p>
<p>Bent it already, or laid it? <a href="/check">Check a bend or a laid curve</a> by a few readings along it.
Keep your lists in a spreadsheet? <a href="/docs/spreadsheets">Have the numbers in its cells</a>.</p></div>
<section class="card" id="saved" aria-labelledby="saved-title"><h2 id="saved-title">Saved plans</h2>
${plans.items.length === 0 ? html`<p class="hint">None yet. A plan you save shows up here.</p>` : planList(plans)}
</section></div>`
}

function planList({ items, next }: { items: readonly ProjectSummary[]; next: string | null }): Html {
  return html`<ul class="plans">${items.map(
    ({ id, name, updatedAt, revision }) =>
      html`<li><a href="/plans/${id}">${name}</a> <span class="hint">saved ${timeOf(updatedAt)}${revision > 1 && `, ${counted(revision, 'revision')}`}</span></li>`,
  )}</ul>
${next && html`<p><a href="/?after=${encodeURIComponent(next)}#saved">Older plans</a></p>`}`
}
