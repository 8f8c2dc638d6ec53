import { type Html, html } from '../html.ts'
import { faultNote, fieldRow, fieldsBut, inner, isInUse, open, type Placed, preservedField } from './controls.ts'
import { tableEditor } from './table-editor.ts'

/** How rails are joined, and the temperatures they are exposed to. */
export function jointsEditor(plan: Placed): Html {
  const climate = inner(plan, 'climate')
  const joints = inner(plan, 'joints')
  return html`<details class="card"${open(isInUse(plan, 'climate', 'joints'))} id="${climate.path}">
<summary>Joints and temperatures <span class="hint">stagger, gaps, clamps, expansion joints</span></summary>
${preservedField(climate)}${faultNote(climate.path, plan.faults.get(climate.path) ?? [])}
<p class="hint">Fill in the first three temperatures to get the gap for each joint, or leave all of them blank.</p>
${fieldRow(climate, fieldsBut(climate))}
<div id="${joints.path}" role="group" aria-label="Joints">${preservedField(joints)}${faultNote(joints.path, plan.faults.get(joints.path) ?? [])}
${fieldRow(joints, fieldsBut(joints))}</div>
</details>`
}

/** Where both rails of a track must be divided. */
export function breaksEditor(track: Placed, action: string): Html {
  return tableEditor(track, action, {
    table: 'breaks',
    caption: 'Places where both rails must be divided',
    className: 'short breaks',
    row: 'break',
    add: 'Add a break',
  })
}

/** Where joints are not allowed. */
export function keepOutEditor(track: Placed, action: string): Html {
  return tableEditor(track, action, {
    table: 'keepOut',
    caption: 'Stretches without joints, such as bridges and roads, by distance from the start',
    className: 'stretches',
    row: 'stretch',
    add: 'Add a stretch',
  })
}
