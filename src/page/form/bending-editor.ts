import { type Html, html } from '../html.ts'
import {
  faultNote,
  field,
  fieldRow,
  fieldsBut,
  foldedGroup,
  hasFaultUnder,
  inner,
  isFilledIn,
  keptField,
  open,
  type Placed,
} from './controls.ts'
import { tableEditor } from './table-editor.ts'

const AT_THE_BENCH = ['work', 'fixedEnd']

/** What one bends and measures with, and test bends of the rail. */
export function bendingEditor(plan: Placed, action: string): Html {
  const bender = inner(plan, 'bender')
  const limits = inner(bender, 'limits')
  const rail = inner(plan, 'rail')
  const saysLimits = hasFaultUnder(bender, 'limits') || isFilledIn(limits)
  const isOpen = hasFaultUnder(plan, 'bender', 'resolution', 'chords') || hasFaultUnder(rail, 'calibration')
  return html`<details class="card"${open(isOpen)} id="bender">
<summary>Bending <span class="hint">roller bender, test bends, chords</span></summary>
${keptField(bender)}${faultNote('bender', plan.faults.get('bender') ?? [])}
<div class="fields">${AT_THE_BENCH.map((key) => field(bender, key))}${field(plan, 'chords')}${field(plan, 'resolution')}</div>
<fieldset><legend>Roller bender</legend>
<p class="hint">With three rollers or a press. Span, radius, what they bear on and the way of bending go together; leave all blank if you bend by hand.</p>
${fieldRow(bender, fieldsBut(bender, ...AT_THE_BENCH))}</fieldset>
${tableEditor(rail, action, {
  table: 'calibration',
  caption: 'Test bends of this very rail',
  className: 'tests',
  row: 'test bend',
  add: 'One more test bend',
  first: ['formedRadius', 'restingRadius', 'depth', 'turns'],
})}
<p class="hint">In each row either the two radii of the rail’s middle, under load and let go; or the depth or the turns of your bender, with a chord and the ordinate measured on it after letting go.</p>
${foldedGroup(limits, { isOpen: saysLimits, summary: 'Up to where you bend by hand' }, fieldRow(limits, fieldsBut(limits)))}
</details>`
}
