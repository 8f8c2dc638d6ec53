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
import { tableEditor } from './table-editor.ts'

/** What stands beside the line and must not be touched, the edge of the garden, its ground and pegs. */
export function obstaclesEditor(plan: Placed, action: string): Html {
  const obstacles = rowsOf(plan, 'obstacles')
  return html`<details class="card"${open(isInUse(plan, 'obstacles', 'outline', 'ground', 'pegs'))} id="obstacles">
<summary>Obstacles and garden <span class="hint">walls, trees, rocks, posts; the edge of the garden, its ground and pegs</span></summary>
${faultNote('obstacles', plan.faults.get('obstacles') ?? [])}
<p class="hint">Each is round, or has corners; measure them from the same place as the starts of the tracks. They are compared with the cars above.</p>
${obstacles.map((obstacle, index) => obstacleEditor(obstacle, action, index, obstacles.length))}
<p class="below">${rowButton(action, 'add obstacles', `obstacles.${obstacles.length}`, 'Add an obstacle')}</p>
${tableEditor(plan, action, {
  table: 'outline',
  caption: 'The edge of the garden: its corners, in order around it',
  className: 'corners',
  row: 'outline, corner',
  add: 'Add three corners',
})}
${tableEditor(plan, action, {
  table: 'ground',
  caption: 'How high the ground is at measured places, for cut and fill',
  className: 'corners',
  row: 'ground, place',
  add: 'Add a place',
})}
${tableEditor(plan, action, {
  table: 'pegs',
  caption: 'Pegs to mark the track from: by x and y, or by two distances from other pegs',
  className: 'plan-pegs',
  row: 'peg',
  add: 'Add a peg',
})}
</details>`
}

function obstacleEditor(obstacle: Placed, action: string, index: number, count: number): Html {
  const name = textAt(obstacle, 'name')
  const circle = inner(obstacle, 'circle')
  return html`<fieldset class="kind" id="${obstacle.path}">
<legend>Obstacle ${index + 1}${name && html`: ${name}`}</legend>
${preservedField(obstacle)}${faultNote(obstacle.path, obstacle.faults.get(obstacle.path) ?? [])}
${fieldRow(obstacle, fieldsBut(obstacle))}
<div id="${circle.path}" role="group" aria-label="Circle">${preservedField(circle)}
<p class="hint">If it is round:</p>
${faultNote(circle.path, obstacle.faults.get(circle.path) ?? [])}
${fieldRow(circle, fieldsBut(circle))}</div>
${tableEditor(obstacle, action, {
  table: 'polygon',
  caption: 'Otherwise its corners, in order around it',
  className: 'corners',
  row: `obstacle ${index + 1}, corner`,
  add: 'Add three corners',
})}
${partButtons(action, obstacle.path, `obstacle ${index + 1}`, count)}
</fieldset>`
}
