import { type Html, html } from '../html.ts'
import {
  faultNote,
  fieldRow,
  fieldsBut,
  inner,
  isInUse,
  open,
  type Placed,
  partButtons,
  preservedField,
  rowButton,
  rowsOf,
  textAt,
} from './controls.ts'

/** The id of the list of names of kinds of turnout, suggested where an element asks for one. */
export const TURNOUT_KINDS = 'turnout-kinds'

const ALWAYS_SHOWN = ['id', 'hand', 'number', 'across', 'acrossIs', 'angle', 'length', 'price', 'onHand', 'buyable']

/** The kinds of turnout that elements of the tracks use. */
export function turnoutsEditor(plan: Placed, action: string): Html {
  const kinds = rowsOf(plan, 'turnoutTypes')
  const names = [...new Set(kinds.map((kind) => textAt(kind, 'id').trim()))].filter((name) => name !== '')
  return html`<details class="card"${open(isInUse(plan, 'turnoutTypes'))} id="turnoutTypes">
<summary>Turnouts <span class="hint">the kinds that the tracks use</span></summary>
${faultNote('turnoutTypes', plan.faults.get('turnoutTypes') ?? [])}
<p class="hint">Describe each kind once: its frog number; or its diverging curve and the angle it turns; or, under “More about this kind”, how it
measures. Then choose Turnout as the kind of an element, and give it a name and one of these kinds. A track that begins or ends at a turnout says so under
“Start position” or “Where the end must be”.</p>
<datalist id="${TURNOUT_KINDS}">${names.map((name) => html`<option value="${name}"></option>`)}</datalist>
${kinds.map((kind, index) => kindEditor(kind, action, index, kinds.length))}
<p class="below">${rowButton(action, 'add turnoutTypes', `turnoutTypes.${kinds.length}`, 'Add a kind of turnout')}</p>
</details>`
}

function kindEditor(kind: Placed, action: string, index: number, count: number): Html {
  const measured = inner(kind, 'measured')
  const more = fieldsBut(kind, ...ALWAYS_SHOWN)
  const isOpen = isInUse(kind, 'measured', ...more.map(({ key }) => key))
  const name = textAt(kind, 'id')
  return html`<fieldset class="kind" id="${kind.path}">
<legend>Kind ${index + 1}${name && html`: ${name}`}</legend>
${preservedField(kind)}${faultNote(kind.path, kind.faults.get(kind.path) ?? [])}
${fieldRow(kind, ALWAYS_SHOWN)}
<details${open(isOpen)}>
<summary>More about this kind <span class="hint">form, switch and frog, as measured</span></summary>
${fieldRow(kind, more)}
<div id="${measured.path}" role="group" aria-label="As measured">${preservedField(measured)}
<p class="hint">As measured, instead of a frog number or an angle:</p>
${faultNote(measured.path, kind.faults.get(measured.path) ?? [])}
${fieldRow(measured, fieldsBut(measured))}</div>
</details>
${partButtons(action, kind.path, `kind ${index + 1}`, count)}
</fieldset>`
}
