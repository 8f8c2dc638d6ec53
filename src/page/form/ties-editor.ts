import { type Html, html } from '../html.ts'
import { field, fieldGroup, isInUse, open, type Placed } from './controls.ts'

/** Fields of ties that stand folded away. */
export const IN_MORE_ABOUT_TIES = ['jointTies']

/** Other ways to count and buy ties. */
export function tiesEditor(ties: Placed): Html {
  const isOpen = isInUse(ties, 'perLength', 'strip', ...IN_MORE_ABOUT_TIES)
  return html`<details${open(isOpen)}>
<summary>More tie options <span class="hint">ties per length, tie strips, ties at joints</span></summary>
${IN_MORE_ABOUT_TIES.map((key) => field(ties, key))}
${fieldGroup(ties, 'perLength', 'Ties per length')}
${fieldGroup(ties, 'strip', 'Tie strips')}
</details>`
}
