import type { ProjectSummary } from '../../projects/store.ts'
import { type Html, html } from '../html.ts'
import type { LengthsIn } from '../show-length.ts'
import { startCard } from '../start/start-card.ts'
import { counted } from '../words.ts'
import { timeOf } from './saved-pages.ts'

/** What the service does, where to start, and the saved plans. */
export function welcome(plans: {
  items: readonly ProjectSummary[]
  next: string | null
  /** Whether there are deleted plans that can be restored. */
  anyDeleted: boolean
  lengthsIn: LengthsIn
}): Html {
  return html`<div class="welcome">
<div><h1>From a track plan to bent rail and a shopping list</h1>
<p>Enter the straights, curves and easements of a 45 mm garden railway. You get a drawing to scale, the length of each rail,
how far to bend each rail so that it springs back to its radius, which pieces to cut from which stick, how many ties and joiners you need, and the total cost.</p>
<p class="buttons"><a class="button first" href="/demo">Open the demo plan</a> <a class="button" href="#start">Start your own</a></p>
<p>Already bent or laid? <a href="/check">Check a bend or a laid curve</a> with a few readings along it.
Not sure where things are? <a href="/survey">Survey the garden</a> with a tape and a level.
Using a spreadsheet? <a href="/docs/spreadsheets">Load the numbers into its cells</a>.</p></div>
<section class="card" id="saved" aria-labelledby="saved-title"><h2 id="saved-title">Saved plans</h2>
${plans.items.length === 0 ? html`<p class="hint">None yet. Plans you save are listed here.</p>` : planList(plans)}
<p><a href="/copies">Keep a copy</a> of everything, or put one back.${plans.anyDeleted && html` <a href="/deleted">Deleted plans</a>`}</p>
</section></div>
${startCard(plans.lengthsIn)}`
}

function planList({ items, next }: { items: readonly ProjectSummary[]; next: string | null }): Html {
  return html`<ul class="plans">${items.map(
    ({ id, name, updatedAt, revision, builtRevision }) =>
      html`<li><a href="/plans/${id}">${name}</a> <span class="hint">saved ${timeOf(updatedAt)}${revision > 1 && `, ${counted(revision, 'revision')}`}${builtWord(revision, builtRevision)}</span></li>`,
  )}</ul>
${next && html`<p><a href="/?after=${encodeURIComponent(next)}#saved">Older plans</a></p>`}`
}

function builtWord(revision: number, built: number | null): string {
  if (built === null) return ''
  return built === revision ? ', built' : `, revision ${built} built`
}
