import { type Html, html } from '../html.ts'
import {
  type Field,
  faultNote,
  field,
  fieldRow,
  foldedGroup,
  hasFaultUnder,
  inner,
  isFilledIn,
  keptField,
  type Placed,
} from './controls.ts'
import { tableEditor } from './table-editor.ts'
import { open } from './track-editor.ts'

const WORK: Field = {
  key: 'work',
  label: 'What is bent',
  options: [
    { value: '', label: 'Usual: loose rail' },
    { value: 'loose-rail', label: 'Loose rail' },
    { value: 'assembled', label: 'Assembled track, both rails at once' },
  ],
}

const FIXED_END: Field = {
  key: 'fixedEnd',
  label: 'Assembled track is held at',
  hint: 'the inner rail creeps out at the other end',
  options: [
    { value: '', label: 'Usual: its start' },
    { value: 'start', label: 'Its start' },
    { value: 'end', label: 'Its end' },
  ],
}

const ROLLERS: readonly Field[] = [
  { key: 'span', label: 'Span of the rollers', hint: 'between the centres of the outer two' },
  { key: 'outerRollerRadius', label: 'Radius of the outer rollers', hint: '0 for knife edges' },
  {
    key: 'bearsOn',
    label: 'Rollers bear on',
    options: [
      { value: '', label: 'Choose …' },
      { value: 'head', label: 'The head' },
      { value: 'web', label: 'The web' },
      { value: 'foot', label: 'The foot' },
    ],
  },
  {
    key: 'mode',
    label: 'Way of bending',
    options: [
      { value: '', label: 'Choose …' },
      { value: 'rolled', label: 'Rolled: drawn through under load' },
      { value: 'pressed', label: 'Pressed, then moved on' },
    ],
  },
  { key: 'maxPerPass', label: 'Deepest step of a pass', hint: 'blank: all in one pass' },
  { key: 'screwPitch', label: 'Pitch of the screw', hint: 'blank: no turns are told' },
  {
    key: 'ends',
    label: 'Ends that stay straight',
    options: [
      { value: '', label: 'Usual: finished by hand' },
      { value: 'finish-by-hand', label: 'Finished by hand' },
      { value: 'trim', label: 'Cut off' },
      { value: 'join-and-roll-through', label: 'Joined first, rolled through' },
    ],
  },
]

const LIMITS: readonly Field[] = [
  { key: 'overbendRatio', label: 'Bent as many times as tight', hint: 'blank: 2', numeric: true },
  { key: 'grip', label: 'Grip between the hands', hint: 'blank: 300 mm' },
  { key: 'handForceN', label: 'Force of each hand, newtons', hint: 'blank: 100', numeric: true },
  { key: 'jointFlat', label: 'Off the curve at a joint', hint: 'blank: 2 mm' },
]

/** What one bends and measures with, and test bends of the rail. */
export function bendingEditor(plan: Placed, action: string): Html {
  const bender = inner(plan, 'bender')
  const limits = inner(bender, 'limits')
  const rail = inner(plan, 'rail')
  const limitKeys = LIMITS.map(({ key }) => key)
  const saysLimits = hasFaultUnder(bender, 'limits') || isFilledIn(limits, limitKeys)
  const isOpen = hasFaultUnder(plan, 'bender', 'resolution', 'chords') || hasFaultUnder(rail, 'calibration')
  return html`<details class="card"${open(isOpen)} id="bender">
<summary>Bending <span class="hint">roller bender, test bends, chords</span></summary>
${keptField(bender)}${faultNote('bender', plan.faults.get('bender') ?? [])}
<div class="fields">${field(bender, WORK)}${field(bender, FIXED_END)}
${field(plan, { key: 'chords', label: 'Chords you measure bends with', hint: 'with commas between; blank: 300 mm, 500 mm' })}
${field(plan, { key: 'resolution', label: 'You read ordinates to', hint: 'may be off by this, either way; blank: 0.5 mm' })}</div>
<fieldset><legend>Roller bender</legend>
<p class="hint">With three rollers or a press. Span, radius, what they bear on and the way of bending go together; leave all blank if you bend by hand.</p>
${fieldRow(bender, ROLLERS)}</fieldset>
${tableEditor(rail, action, {
  table: 'calibration',
  caption: 'Test bends of this very rail',
  className: 'tests',
  row: 'test bend',
  add: 'One more test bend',
  columns: [
    { key: 'formedRadius', label: 'Bent to radius' },
    { key: 'restingRadius', label: 'Kept radius' },
    { key: 'depth', label: 'or depth' },
    { key: 'turns', label: 'or turns', numeric: true },
    { key: 'chord', label: 'with chord' },
    { key: 'ordinate', label: 'and ordinate' },
  ],
})}
<p class="hint">In each row either the two radii of the rail’s middle, under load and let go; or the depth or the turns of your bender, with a chord and the ordinate measured on it after letting go.</p>
${foldedGroup(limits, { isOpen: saysLimits, summary: 'Up to where you bend by hand' }, fieldRow(limits, LIMITS))}
</details>`
}
