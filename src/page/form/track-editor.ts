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
  rowButton,
  rowsOf,
  textAt,
} from './controls.ts'
import { breaksEditor, keepOutEditor } from './joints-editor.ts'
import { ROWS, ROWS_FILE } from './rows-from-table.ts'
import { tableEditor } from './table-editor.ts'

/** One track: its name, where it starts, its elements and its grade line. `only`: there is no other to keep instead. */
export function trackEditor(track: Placed, action: string, index: number, only: boolean): Html {
  const start = inner(track, 'start')
  const joins = inner(track, 'joinsExisting')
  const grades = rowsOf(track, 'gradeLine').some((row) => isFilledIn(row, ['at', 'elevation']))
  const breaks = rowsOf(track, 'breaks').some((row) => isFilledIn(row, ['at', 'kind']))
  const keepOut = rowsOf(track, 'keepOut').some((row) => isFilledIn(row, ['from', 'to', 'reason']))
  const own = track.faults.get(track.path) ?? []
  return html`<fieldset class="card track" id="${track.path}">
<legend>Track ${index + 1}${textAt(track, 'name') && html`: ${textAt(track, 'name')}`}</legend>
${keptField(track)}${faultNote(track.path, own)}
<div class="fields">
${fieldsBut(track, 'closed').map((each) => field(track, each))}
</div>
<div class="ticks" id="${joins.path}" role="group" aria-label="Ends of the track">
${keptField(joins)}
${field(track, 'closed')}
${field(joins, 'start')}
${field(joins, 'end')}
${faultNote(joins.path, track.faults.get(joins.path) ?? [])}
</div>
${tableEditor(track, action, {
  table: 'elements',
  caption: 'Elements, in the order the train meets them',
  className: 'elements',
  row: 'element',
  add: 'Five more rows',
  first: ['kind', 'length', 'across', 'angle', 'turn', 'label'],
})}
<p class="hint">A straight or an easement needs a length. A curve needs its diameter or radius (of the centre line), its
angle or its length, and which way it turns. An easement runs from the curvature before it to the curvature after it.</p>
${fromSpreadsheet(track)}
${foldedGroup(
  start,
  { isOpen: isFilledIn(start) || hasFaultUnder(track, 'start'), summary: 'Where it starts' },
  html`<p class="hint">x to the right and y up the sheet, heading counter-clockwise from x. Blank: 0.</p>
${fieldRow(start, fieldsBut(start))}`,
)}
<details${open(grades || hasFaultUnder(track, 'gradeLine'))}>
<summary>Grade line</summary>
${tableEditor(track, action, {
  table: 'gradeLine',
  caption: 'How high the rail stands, and where; the grade between is straight',
  className: 'short',
  row: 'point',
  add: 'One more point',
})}
</details>
<details${open(breaks || hasFaultUnder(track, 'breaks'))}>
<summary>Breaks in the rails</summary>
${breaksEditor(track, action)}
</details>
<details${open(keepOut || hasFaultUnder(track, 'keepOut'))}>
<summary>Stretches without joints</summary>
${keepOutEditor(track, action)}
</details>
${!only && html`<p class="below">${rowButton(action, `remove ${track.path}`, 'tracks', `Remove track ${index + 1}`)}</p>`}
</fieldset>`
}

/** Rows that were typed in a spreadsheet, to stand in the place of the elements above. */
function fromSpreadsheet(track: Placed): Html {
  const text = textAt(track, ROWS)
  const rows = `${track.path}.${ROWS}`
  const file = `${track.path}.${ROWS_FILE}`
  return html`<details${open(text !== '')}>
<summary>Elements from a spreadsheet</summary>
<p class="hint">Copy the rows there and paste them here, or choose a CSV or XLSX file. The first row names the columns, in any order: kind, length, radius or diameter,
angle, turn, label. A unit may stand in the header, <code>length (ft)</code>, or in the cell; without one, millimetres. The rows take the place of the elements above; nothing else changes.</p>
<div class="field wide"><label for="${rows}">Rows</label><textarea id="${rows}" name="${rows}" rows="4" spellcheck="false">
${text}</textarea></div>
<div class="field"><label for="${file}">or a file</label><input type="file" id="${file}" name="${file}" accept=".csv,.tsv,.txt,.xlsx,text/csv"></div>
<p class="below"><button name="do" value="rows ${track.path}" formenctype="multipart/form-data" class="small">Take these rows</button></p>
</details>`
}
