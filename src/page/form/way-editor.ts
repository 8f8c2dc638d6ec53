import { type Html, html } from '../html.ts'
import {
  faultNote,
  field,
  fieldRow,
  fieldsBut,
  hasFaultUnder,
  inner,
  isFilledIn,
  keptField,
  open,
  type Placed,
} from './controls.ts'
import { tableEditor } from './table-editor.ts'

/** Fields of ties that stand folded away. */
export const IN_MORE_ABOUT_TIES = ['jointTies']

/** Other ways to count and to buy ties. */
export function tiesEditor(ties: Placed): Html {
  const isOpen =
    hasFaultUnder(ties, 'perLength', 'strip', ...IN_MORE_ABOUT_TIES) ||
    isFilledIn(ties, IN_MORE_ABOUT_TIES) ||
    isFilledIn(inner(ties, 'perLength')) ||
    isFilledIn(inner(ties, 'strip'))
  return html`<details${open(isOpen)}>
<summary>More about ties <span class="hint">by count, in strips, at joints</span></summary>
${IN_MORE_ABOUT_TIES.map((key) => field(ties, key))}
${group(ties, 'perLength', 'Ties to a length')}
${group(ties, 'strip', 'Moulded strips')}
</details>`
}

/** Ballast, current, and whatever else goes on the list. */
export function wayEditor(plan: Placed, action: string): Html {
  const roadbed = inner(plan, 'roadbed')
  const power = inner(plan, 'power')
  return html`<details class="card"${open(hasFaultUnder(plan, 'roadbed', 'power', 'extras'))} id="way-fields">
<summary>Bed, current and extras <span class="hint">ballast, feeders, anything else to buy</span></summary>
${group(plan, 'roadbed', 'Ballast')}
${group(roadbed, 'tie', 'Size of a tie')}
${group(roadbed, 'bag', 'How ballast is sold')}
${group(plan, 'power', 'Current in the rails')}
${group(power, 'feeder', 'Feeders')}
${tableEditor(plan, action, {
  table: 'extras',
  caption: 'Anything else for the list',
  className: 'extras',
  row: 'extra',
  add: 'One more item',
})}
</details>`
}

function group(placed: Placed, key: string, legend: string): Html {
  const own = inner(placed, key)
  return html`<fieldset id="${own.path}"><legend>${legend}</legend>
${keptField(own)}${faultNote(own.path, placed.faults.get(own.path) ?? [])}
${fieldRow(own, fieldsBut(own))}</fieldset>`
}
