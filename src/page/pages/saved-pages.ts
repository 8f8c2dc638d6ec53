import type { ProjectSummary, RevisionSummary } from '../../projects/store.ts'
import { type Html, html } from '../html.ts'
import { counted } from '../words.ts'

/** A time in UTC: the service does not know the user's time zone. */
export function timeOf(timestamp: string): Html {
  const text = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short', timeZone: 'UTC' }).format(
    new Date(timestamp),
  )
  return html`<time datetime="${timestamp}">${text} UTC</time>`
}

/** The revisions of a saved plan, newest first. */
export function revisionsPage(id: string, name: string, revisions: readonly RevisionSummary[]): Html {
  const newest = revisions.at(-1)?.revision
  return html`<h1>Revisions of ${name}</h1>
<ul class="plans card">${revisions
    .toReversed()
    .map(
      (each) =>
        html`<li><a href="/plans/${id}${each.revision !== newest && `/revisions/${each.revision}`}">Revision ${each.revision}: ${each.name}</a> <span class="hint">saved ${timeOf(each.createdAt)}${each.revision === newest && ', the latest'}</span>${each.revision > 1 && html` <a href="/plans/${id}/compare?from=${each.revision - 1}&amp;to=${each.revision}">compared with revision ${each.revision - 1}</a>`}</li>`,
    )}</ul>
<p class="buttons">${revisions.length > 1 && html`<a class="button" href="/plans/${id}/compare">Compare two revisions</a> `}<a class="button" href="/plans/${id}">Back to the plan</a></p>`
}

/** Asks for confirmation before a plan is deleted. */
export function deletePage(id: string, name: string, revision: number): Html {
  return html`<h1>Delete “${name}”?</h1>
<section class="card"><p>This deletes the plan and all its revisions (${revision} in total). You can restore it for 30 days. What the shed keeps for it is free at once, and its links for spreadsheets stop working.</p>
<form method="post" action="/plans/${id}/delete" class="buttons"><input type="hidden" name="revision" value="${revision}">
<button class="danger">Delete</button> <a class="button" href="/plans/${id}">Cancel</a></form></section>`
}

/** The plans that were deleted, each with a button that restores it. */
export function deletedPlansPage({ items, next }: { items: readonly ProjectSummary[]; next: string | null }): Html {
  return html`<h1>Deleted in the last 30 days</h1>
<section class="card">
${items.length === 0 ? html`<p class="hint">None.</p>` : html`<ul class="plans">${items.map(deletedPlan)}</ul>`}
${next && html`<p><a href="/deleted?after=${encodeURIComponent(next)}">Older plans</a></p>`}
<p class="hint">A restored plan is as it was, with all its revisions and links. Stock in the shed is kept for it again as far as there is any left.</p>
</section>
<p><a class="button" href="/#saved">Back to the saved plans</a></p>`
}

function deletedPlan({ id, name, deletedAt, revision }: ProjectSummary): Html {
  return html`<li>${name} <span class="hint">deleted ${deletedAt && timeOf(deletedAt)}, ${counted(revision, 'revision')}</span>
<form method="post" action="/plans/${id}/restore" class="inline"><button class="small" aria-label="Restore ${name}">Restore</button></form></li>`
}
