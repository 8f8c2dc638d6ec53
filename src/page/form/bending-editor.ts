import { type Html, html } from '../html.ts'
import {
  faultNote,
  field,
  fieldRow,
  fieldsBut,
  foldedGroup,
  inner,
  isInUse,
  open,
  type Placed,
  preservedField,
} from './controls.ts'
import { tableEditor } from './table-editor.ts'

const AT_THE_BENCH = ['work', 'fixedEnd']

/** The bender, the chords for measuring, and test bends of the rail. */
export function bendingEditor(plan: Placed, action: string): Html {
  const bender = inner(plan, 'bender')
  const limits = inner(bender, 'limits')
  const rail = inner(plan, 'rail')
  const isOpen = isInUse(plan, 'bender', 'resolution', 'chords') || isInUse(rail, 'calibration')
  return html`<details class="card"${open(isOpen)} id="bender">
<summary>Bending <span class="hint">roller bender, test bends, chords</span></summary>
${preservedField(bender)}${faultNote('bender', plan.faults.get('bender') ?? [])}
<div class="fields">${AT_THE_BENCH.map((key) => field(bender, key))}${field(plan, 'chords')}${field(plan, 'resolution')}</div>
<fieldset><legend>Roller bender</legend>
<p class="hint">For a bender with three rollers, or a press. Fill in “Roller span”, “Outer roller radius”, “Rollers bear on” and “Bending method” together, or leave all four blank if you bend by hand.</p>
${fieldRow(bender, fieldsBut(bender, ...AT_THE_BENCH))}</fieldset>
${tableEditor(rail, action, {
  table: 'calibration',
  caption: 'Test bends of this rail',
  className: 'tests',
  row: 'test bend',
  add: 'Add a test bend',
  first: ['formedRadius', 'restingRadius', 'depth', 'turns'],
})}
<p class="hint">In each row, enter how far it was bent: the radius of the rail’s middle line under load, or the depth or turns of your bender in one pass of a straight piece. Then what it kept: a chord and the ordinate measured on it after springback, or beside a radius the radius after springback.</p>
${foldedGroup(limits, { isOpen: isInUse(bender, 'limits'), summary: 'Limits for bending by hand' }, fieldRow(limits, fieldsBut(limits)))}
</details>`
}
