import { placeName } from '../form/place-names.ts'
import { type Html, html } from '../html.ts'
import { type Difference, saidIn } from './plan-differences.ts'
import { timeOf } from './saved-pages.ts'

/** Somebody else saved, or deleted, the plan while it was being edited here. */
export type Conflict =
  | { readonly kind: 'deleted' }
  | {
      readonly kind: 'saved'
      readonly revision: number
      readonly name: string
      readonly updatedAt: string
      readonly differences: readonly Difference[]
    }

/** Both facts, and what can be done; nothing that was typed is lost. */
export function conflictNotice(conflict: Conflict, id: string, begunFrom: number): Html {
  if (conflict.kind === 'deleted')
    return html`<section class="card notice" role="alert"><h2>This plan was deleted while you were at it</h2>
<p>What you typed is all here, but not saved. You can save it as a new plan.</p></section>`
  return html`<section class="card notice" role="alert"><h2>Somebody else saved this plan while you were at it</h2>
<p>You began with revision ${begunFrom}. Since then revision ${conflict.revision}, “${conflict.name}”, was saved ${timeOf(conflict.updatedAt)}.
What you typed is all here below, but not saved.</p>
<p><a href="/plans/${id}/revisions/${conflict.revision}" target="_blank" rel="noopener">See revision ${conflict.revision}</a> (opens beside this page), then
save yours as a new plan or over theirs. Theirs stays among the earlier revisions either way.</p>
${differenceList(conflict.differences)}
<p><a href="#keep">To the save buttons</a></p></section>`
}

function differenceList(differences: readonly Difference[]): Html {
  if (differences.length === 0) return html`<p>Both plans say the same.</p>`
  return html`<p>Where the two plans differ:</p>
<ul>${differences
    .slice(0, MOST_DIFFERENCES)
    .map(
      ({ path, theirs, mine }) =>
        html`<li>${placeName(path)}: theirs “${saidIn(theirs)}”, yours “${saidIn(mine)}”</li>`,
    )}</ul>
${differences.length > MOST_DIFFERENCES && html`<p>… and ${differences.length - MOST_DIFFERENCES} more.</p>`}`
}

const MOST_DIFFERENCES = 20
