import { type Html, html } from '../html.ts'
import { field, fieldGroup, hasFaultUnder, inner, isFilledIn, open, type Placed } from './controls.ts'

/** Other ways to count and buy ties. */
export function tiesEditor(ties: Placed): Html {
  const isOpen =
    hasFaultUnder(ties, 'perLength', 'strip', 'jointTies') ||
    isFilledIn(ties, ['jointTies']) ||
    isFilledIn(inner(ties, 'perLength')) ||
    isFilledIn(inner(ties, 'strip'))
  return html`<details${open(isOpen)}>
<summary>More tie options <span class="hint">ties per length, tie strips, ties at joints</span></summary>
${field(ties, 'jointTies')}
${fieldGroup(ties, 'perLength', 'Ties per length')}
${fieldGroup(ties, 'strip', 'Tie strips')}
</details>`
}
