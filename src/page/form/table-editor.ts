import { attributes, type Html, html } from '../html.ts'
import {
  control,
  type Field,
  faultsAt,
  faultText,
  keptField,
  type Placed,
  pathTo,
  rowButton,
  rowsOf,
  textAt,
} from './controls.ts'

interface Column extends Field {
  /** A box to tick in place of a text field. */
  readonly tick?: boolean
  /** A second control in the same cell, in front of the first. */
  readonly before?: Field
}

export interface TableEditor {
  readonly table: string
  /** Names the table for those who cannot see it, and styles it. */
  readonly caption: string
  readonly className: string
  /** What one row is called, in the names of its controls. */
  readonly row: string
  readonly columns: readonly Column[]
  readonly add: string
}

/** A table of the form: a row of controls for each of its entries, buttons to insert and remove rows, faults below each row. */
export function tableEditor(placed: Placed, action: string, spec: TableEditor): Html {
  const path = pathTo(placed, spec.table)
  const faults = faultsAt(placed, spec.table)
  return html`${faults.length > 0 && html`<p class="fault" id="${path}.fault">${faults.map(faultText)}</p>`}
<table class="edit ${spec.className}" id="${path}">
<caption>${spec.caption}</caption>
<thead><tr><th scope="col">#</th>${spec.columns.map(({ label }) => html`<th scope="col">${label}</th>`)}<th scope="col"><span class="unseen">Rows</span></th></tr></thead>
<tbody>
${rowsOf(placed, spec.table).map((row, index) => rowEditor(row, action, spec, index))}
</tbody>
</table>
<p class="below">${rowButton(action, `add ${path}`, path, spec.add)}</p>`
}

function rowEditor(row: Placed, action: string, spec: TableEditor, index: number): Html {
  const name = `${spec.row} ${index + 1}`
  const notes = rowFaults(row, spec, name)
  return html`<tr id="${row.path}"${attributes({ class: notes ? 'faulty' : null })}><th scope="row">${index + 1}${keptField(row)}</th>${spec.columns.map(
    (column) => html`<td>${cellControls(row, column, name)}</td>`,
  )}<td>${rowButton(action, `insert ${row.path}`, row.path, '+', `Insert a row above ${name}`)}${rowButton(action, `remove ${row.path}`, row.path, '×', `Remove ${name}`)}</td></tr>
${notes}`
}

function cellControls(row: Placed, column: Column, name: string): Html {
  const described = (key: string) => (faultsAt(row, key).length > 0 ? `${row.path}.fault` : null)
  const marks = (field: Field) => ({
    id: faultsAt(row, field.key).length > 0 ? pathTo(row, field.key) : null,
    'aria-label': `${field.label}, ${name}`,
    'aria-describedby': described(field.key),
  })
  if (column.tick)
    return html`<input type="checkbox"${attributes({ name: pathTo(row, column.key), ...marks(column), checked: textAt(row, column.key) !== '' })}>`
  return html`${column.before && control(row, column.before, marks(column.before))}${control(row, column, marks(column))}`
}

function rowFaults(row: Placed, spec: TableEditor, name: string): Html | null {
  const whole = (row.faults.get(row.path) ?? []).map((fault) => html`<li>${faultText(fault)}</li>`)
  const single = spec.columns
    .flatMap((column) => [column, ...(column.before ? [column.before] : [])])
    .flatMap((field) =>
      faultsAt(row, field.key).map((fault) => html`<li><b>${field.label}:</b> ${faultText(fault)}</li>`),
    )
  const notes = [...whole, ...single]
  if (notes.length === 0) return null
  return html`<tr class="notes"><td colspan="${spec.columns.length + 2}"><ul class="fault" id="${row.path}.fault" aria-label="${name}">${notes}</ul></td></tr>
`
}
