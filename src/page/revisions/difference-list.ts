import { placeName } from '../form/place-names.ts'
import { type Html, html } from '../html.ts'
import { type Difference, valueText } from '../pages/plan-differences.ts'

const MOST_DIFFERENCES = 50

/** Where the plans of two revisions differ, as they were written; the later one is the present one if null. */
export function differenceList(differences: readonly Difference[], before: number, after: number | null): Html {
  const now = after === null ? 'now' : `in revision ${after}`
  return html`<ul>${differences
    .slice(0, MOST_DIFFERENCES)
    .map(
      ({ path, theirs, mine }) =>
        html`<li>${placeName(path)}: “${valueText(theirs)}” in revision ${before}, ${now} “${valueText(mine)}”</li>`,
    )}</ul>
${differences.length > MOST_DIFFERENCES && html`<p>… and ${differences.length - MOST_DIFFERENCES} more.</p>`}`
}
