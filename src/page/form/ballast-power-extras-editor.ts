import { type Html, html } from '../html.ts'
import { fieldGroup, inner, isInUse, open, type Placed } from './controls.ts'
import { tableEditor } from './table-editor.ts'

/** Ballast, track power, and extra items for the shopping list. */
export function ballastPowerExtrasEditor(plan: Placed, action: string): Html {
  const roadbed = inner(plan, 'roadbed')
  const power = inner(plan, 'power')
  return html`<details class="card"${open(isInUse(plan, 'roadbed', 'earthworks', 'power', 'extras'))} id="ballast-power-extras">
<summary>Ballast, power and extras <span class="hint">roadbed, cut and fill, feeders, extra items to buy</span></summary>
${fieldGroup(plan, 'roadbed', 'Ballast')}
${fieldGroup(roadbed, 'tie', 'Tie size')}
${fieldGroup(roadbed, 'bag', 'Ballast bags')}
${fieldGroup(plan, 'earthworks', 'Cut and fill')}
${fieldGroup(plan, 'power', 'Track power')}
${fieldGroup(power, 'feeder', 'Feeders')}
${tableEditor(plan, action, {
  table: 'extras',
  caption: 'Extra items for the shopping list',
  className: 'extras',
  row: 'extra item',
  add: 'Add an item',
})}
</details>`
}
