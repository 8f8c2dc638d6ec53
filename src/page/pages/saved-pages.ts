import type { RevisionSummary } from '../../projects/store.ts'
import { type Html, html } from '../html.ts'

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
        html`<li><a href="/plans/${id}${each.revision !== newest && `/revisions/${each.revision}`}">Revision ${each.revision}: ${each.name}</a> <span class="hint">saved ${timeOf(each.createdAt)}${each.revision === newest && ', the latest'}</span></li>`,
    )}</ul>
<p><a class="button" href="/plans/${id}">Back to the plan</a></p>`
}

/** Asks for confirmation before a plan is deleted permanently. */
export function deletePage(id: string, name: string, revision: number): Html {
  return html`<h1>Delete “${name}”?</h1>
<section class="card"><p>This permanently deletes the plan and all its revisions (${revision} in total).</p>
<form method="post" action="/plans/${id}/delete" class="buttons"><input type="hidden" name="revision" value="${revision}">
<button class="danger">Delete permanently</button> <a class="button" href="/plans/${id}">Cancel</a></form></section>`
}
