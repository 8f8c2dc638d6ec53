import { attributes, type Html, html } from '../html.ts'
import {
  control,
  type Field,
  faultsAt,
  faultText,
  type Placed,
  pathTo,
  preservedField,
  rowButton,
  rowsOf,
  textAt,
} from './controls.ts'
import type { Look, Shape } from './form-shape.ts'

export interface TableEditor {
  readonly table: string
  /** The table's caption and its class in the style sheet. */
  readonly caption: string
  readonly className: string
  /** The name of one row, for the names of its controls. */
  readonly row: string
  /** Columns to put first; the others follow in the order of their rows. */
  readonly first?: readonly string[]
  /** Columns that are not shown, because nothing is in them. */
  readonly without?: readonly string[]
  /** The lists of suggestions of columns, by their ids. */
  readonly lists?: Readonly<Record<string, string>>
  readonly add: string
  /** Whether a row shows all its cells, where the style sheet hides those that its kind does not ask for. */
  readonly showsAll?: (row: Placed) => boolean
}

interface Column extends Field {
  /** A second control in the same cell, before the first, and one after it. */
  readonly before?: Column | undefined
  readonly after?: Column | undefined
  /** The id of a list of suggestions. */
  readonly list?: string | undefined
}

/** A column for each field. The choice of radius, diameter or degree and the chord of a degree are in the cell of the curve size. */
function columnsOf(shape: Shape, { first = [], without = [], lists = {} }: TableEditor): Column[] {
  const { acrossIs } = shape.looks
  const chord = acrossIs && shape.looks.chord
  const beside = ['acrossIs', chord && 'chord']
  const looks = Object.fromEntries(Object.entries(shape.looks).filter(([key]) => !beside.includes(key)))
  const named = (key: string): Column => ({
    key,
    ...inTable(looks[key]!),
    list: lists[key],
    before: key === 'across' && acrossIs ? { key: 'acrossIs', ...acrossIs } : undefined,
    after: key === 'across' && chord ? { key: 'chord', ...chord } : undefined,
  })
  return [...first, ...Object.keys(looks).filter((key) => !first.includes(key) && !without.includes(key))].map(named)
}

/** A cell of a table has no room for a text about blank values. */
function inTable({ options, ...look }: Look): Look {
  return { ...look, options: options?.map((option) => (option.value === '' ? { value: '', label: '–' } : option)) }
}

/** A table of the form: a row of controls for each entry, buttons to insert and remove rows, faults below each row. */
export function tableEditor(placed: Placed, action: string, spec: TableEditor): Html {
  const path = pathTo(placed, spec.table)
  const faults = faultsAt(placed, spec.table)
  const columns = columnsOf(placed.shape.tables![spec.table]!, spec)
  return html`${faults.length > 0 && html`<p class="fault" id="${path}.fault">${faults.map(faultText)}</p>`}
<table class="edit ${spec.className}" id="${path}">
<caption>${spec.caption}</caption>
<thead><tr><th scope="col">#</th>${columns.map(({ label }) => html`<th scope="col">${label}</th>`)}<th scope="col"><span class="unseen">Rows</span></th></tr></thead>
<tbody>
${rowsOf(placed, spec.table).map((row, index) => rowEditor(row, action, spec, columns, index))}
</tbody>
</table>
<p class="below">${rowButton(action, `add ${path}`, path, spec.add)}</p>`
}

function rowEditor(row: Placed, action: string, spec: TableEditor, columns: readonly Column[], index: number): Html {
  const name = `${spec.row} ${index + 1}`
  const notes = rowFaults(row, columns, name)
  return html`<tr id="${row.path}"${attributes({ class: [notes && 'faulty', spec.showsAll?.(row) && 'full'].filter(Boolean).join(' ') || null })}><th scope="row">${index + 1}${preservedField(row)}</th>${columns.map(
    (column) => html`<td>${cellControls(row, column, name)}</td>`,
  )}<td>${rowButton(action, `insert ${row.path}`, row.path, '+', `Insert a row above ${name}`)}${rowButton(action, `remove ${row.path}`, row.path, '×', `Remove ${name}`)}</td></tr>
${notes}`
}

function cellControls(row: Placed, column: Column, name: string): Html {
  const described = (key: string) => (faultsAt(row, key).length > 0 ? `${row.path}.fault` : null)
  const marks = (field: Column) => ({
    id: faultsAt(row, field.key).length > 0 ? pathTo(row, field.key) : null,
    list: field.list ?? null,
    'aria-label': `${field.label}, ${name}`,
    'aria-describedby': described(field.key),
  })
  if (column.tick)
    return html`<input type="checkbox"${attributes({ name: pathTo(row, column.key), ...marks(column), checked: textAt(row, column.key) !== '' })}>`
  return html`${column.before && control(row, column.before, marks(column.before))}${control(row, column, marks(column))}${column.after && control(row, column.after, { ...marks(column.after), class: 'of-degree', placeholder: 'chord' })}`
}

function rowFaults(row: Placed, columns: readonly Column[], name: string): Html | null {
  const whole = (row.faults.get(row.path) ?? []).map((fault) => html`<li>${faultText(fault)}</li>`)
  const single = columns
    .flatMap((column) => [column, column.before ?? [], column.after ?? []].flat())
    .flatMap((field) =>
      faultsAt(row, field.key).map((fault) => html`<li><b>${field.label}:</b> ${faultText(fault)}</li>`),
    )
  const notes = [...whole, ...single]
  if (notes.length === 0) return null
  return html`<tr class="notes"><td colspan="${columns.length + 2}"><ul class="fault" id="${row.path}.fault" aria-label="${name}">${notes}</ul></td></tr>
`
}
