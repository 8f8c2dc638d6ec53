import { placeName } from '../form/place-names.ts'
import { type Html, html } from '../html.ts'
import { type Difference, valueText } from './plan-differences.ts'
import { timeOf } from './saved-pages.ts'

/** Someone else saved or deleted the plan while it was being edited here. */
export type Conflict =
  | { readonly kind: 'deleted' }
  | {
      readonly kind: 'saved'
      readonly revision: number
      readonly name: string
      readonly updatedAt: string
      readonly differences: readonly Difference[]
    }

/** What happened and what the user can do; nothing that was typed is lost. */
export function conflictNotice(conflict: Conflict, id: string, basedOn: number): Html {
  if (conflict.kind === 'deleted')
    return html`<section class="card notice" role="alert"><h2>This plan was deleted while you were editing it</h2>
<p>Your changes are still here but not saved. You can save them as a new plan.</p></section>`
  return html`<section class="card notice" role="alert"><h2>Someone else saved this plan while you were editing it</h2>
<p>You started from revision ${basedOn}. Since then revision ${conflict.revision}, “${conflict.name}”, was saved ${timeOf(conflict.updatedAt)}.
Your changes are still here below but not saved.</p>
<p><a href="/plans/${id}/revisions/${conflict.revision}" target="_blank" rel="noopener">View revision ${conflict.revision}</a> (opens in a new tab), then
save your version as a new plan or over revision ${conflict.revision}. In both cases the other version is kept as an earlier revision.</p>
${differenceList(conflict.differences)}
<p><a href="#save">Go to the save buttons</a></p></section>`
}

function differenceList(differences: readonly Difference[]): Html {
  if (differences.length === 0) return html`<p>The two plans are the same.</p>`
  return html`<p>Differences between the two plans:</p>
<ul>${differences
    .slice(0, MOST_DIFFERENCES)
    .map(
      ({ path, theirs, mine }) =>
        html`<li>${placeName(path)}: theirs “${valueText(theirs)}”, yours “${valueText(mine)}”</li>`,
    )}</ul>
${differences.length > MOST_DIFFERENCES && html`<p>… and ${differences.length - MOST_DIFFERENCES} more.</p>`}`
}

const MOST_DIFFERENCES = 20
