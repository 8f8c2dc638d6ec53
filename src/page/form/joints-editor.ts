import { type Html, html } from '../html.ts'
import { faultNote, fieldRow, fieldsBut, hasFaultUnder, inner, keptField, open, type Placed } from './controls.ts'
import { tableEditor } from './table-editor.ts'

/** How rails are joined, and the temperatures they live through. */
export function jointsEditor(plan: Placed): Html {
  const climate = inner(plan, 'climate')
  const joints = inner(plan, 'joints')
  return html`<details class="card"${open(hasFaultUnder(plan, 'climate', 'joints'))} id="${climate.path}">
<summary>Joints and weather <span class="hint">stagger, gaps, clamps, expansion joints</span></summary>
${keptField(climate)}${faultNote(climate.path, plan.faults.get(climate.path) ?? [])}
<p class="hint">Weather: fill in the first three, or leave all blank if gaps do not matter.</p>
${fieldRow(climate, fieldsBut(climate))}
<div id="${joints.path}" role="group" aria-label="Joints">${keptField(joints)}${faultNote(joints.path, plan.faults.get(joints.path) ?? [])}
${fieldRow(joints, fieldsBut(joints))}</div>
</details>`
}

/** Where both rails of a track are divided, whatever the sticks are like. */
export function breaksEditor(track: Placed, action: string): Html {
  return tableEditor(track, action, {
    table: 'breaks',
    caption: 'Where both rails are divided, whatever the sticks are like',
    className: 'short breaks',
    row: 'break',
    add: 'One more break',
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
  })
}
