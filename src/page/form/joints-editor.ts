import { type Html, html } from '../html.ts'
import {
  type Field,
  faultNote,
  field,
  hasFaultUnder,
  inner,
  keptField,
  type Option,
  type Placed,
  tickField,
} from './controls.ts'
import { tableEditor } from './table-editor.ts'
import { open } from './track-editor.ts'

const CLIMATE: readonly Field[] = [
  { key: 'laying', label: 'The rail, when you lay it', hint: 'in °C, or with its unit: 65 F' },
  { key: 'coldest', label: 'Coldest the air gets' },
  { key: 'hottest', label: 'Hottest the air gets' },
  { key: 'sunAllowance', label: 'Hotter in the sun by', hint: 'blank: 20 K; or 36 F' },
]

const PLACES: readonly Field[] = [
  {
    key: 'arrangement',
    label: 'Joints of the two rails',
    options: [
      { value: '', label: 'Usual: staggered' },
      { value: 'staggered', label: 'Staggered' },
      { value: 'square', label: 'Square: opposite each other' },
    ],
  },
  { key: 'stagger', label: 'Stagger, at least', hint: 'along the track; blank: they lie as they fall' },
]

const JOINTS: readonly Field[] = [
  {
    key: 'kind',
    label: 'How rails are joined',
    options: [
      { value: '', label: 'Usual: joiners that slide' },
      { value: 'sliding', label: 'Joiners that slide' },
      { value: 'clamped', label: 'Rigid clamps' },
    ],
  },
  { key: 'gapLimit', label: 'Widest gap of a joiner', hint: 'blank: 2.5 mm' },
  { key: 'expansionJointLimit', label: 'Widest gap of an expansion joint', hint: 'blank: 10 mm' },
  { key: 'insulatorThickness', label: 'Thickness of an insulator', hint: 'blank: 1 mm' },
]

/** How rails are joined, and the temperatures they live through. */
export function jointsEditor(plan: Placed): Html {
  const climate = inner(plan, 'climate')
  const joints = inner(plan, 'joints')
  return html`<details class="card"${open(hasFaultUnder(plan, 'climate', 'joints'))} id="${climate.path}">
<summary>Joints and weather <span class="hint">stagger, gaps, clamps, expansion joints</span></summary>
${keptField(climate)}${faultNote(climate.path, plan.faults.get(climate.path) ?? [])}
<p class="hint">Weather: fill in the first three, or leave all blank if gaps do not matter.</p>
<div class="fields">${CLIMATE.map((each) => field(climate, each))}</div>
<div id="${joints.path}" role="group" aria-label="Joints">${keptField(joints)}${faultNote(joints.path, plan.faults.get(joints.path) ?? [])}
<div class="fields">${PLACES.map((each) => field(joints, each))}</div>
<div class="ticks">${tickField(joints, 'betweenTies', 'Each joint lies midway between two ties')}</div>
<div class="fields">${JOINTS.map((each) => field(joints, each))}</div>
<div class="ticks">${tickField(joints, 'held', 'Clamped rail is held and cannot move')}</div></div>
</details>`
}

const BREAKS: readonly Option[] = [
  { value: '', label: '–' },
  { value: 'turnout', label: 'Turnout' },
  { value: 'insulated', label: 'Insulated joint' },
  { value: 'bridge-end', label: 'End of a bridge' },
  { value: 'expansion-joint', label: 'Expansion joint' },
]

/** Where both rails of a track are divided, whatever the sticks are like. */
export function breaksEditor(track: Placed, action: string): Html {
  return tableEditor(track, action, {
    table: 'breaks',
    caption: 'Where both rails are divided, whatever the sticks are like',
    className: 'short breaks',
    row: 'break',
    add: 'One more break',
    columns: [
      { key: 'at', label: 'Distance from the start' },
      { key: 'kind', label: 'What stands there', options: BREAKS },
    ],
  })
}

/** Where no joint may lie. */
export function keepOutEditor(track: Placed, action: string): Html {
  return tableEditor(track, action, {
    table: 'keepOut',
    caption: 'Stretches in which no joint may lie: a bridge, a road',
    className: 'stretches',
    row: 'stretch',
    add: 'One more stretch',
    columns: [
      { key: 'from', label: 'From, along the track' },
      { key: 'to', label: 'To' },
      { key: 'reason', label: 'Reason' },
    ],
  })
}
