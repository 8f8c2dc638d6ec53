import { type Control, controlsIn, rowsOf } from './places.ts'

/** What is typed in a row, by the keys of its fields. */
export type RowValues = Readonly<Record<string, string>>

/** The rows of a table as they are typed; equal texts are equal rows. */
export type Snapshot = readonly RowValues[]

const keyOf = (row: HTMLTableRowElement, { name }: Control) => name.slice(row.id.length + 1)

function typedValue(control: Control): string {
  if (control instanceof HTMLInputElement && control.type === 'checkbox') return control.checked ? 'on' : ''
  return control.value
}

export function valuesOf(row: HTMLTableRowElement): RowValues {
  return Object.fromEntries(controlsIn(row).map((control) => [keyOf(row, control), typedValue(control)]))
}

export function snapshotOf(table: HTMLTableElement): Snapshot {
  return rowsOf(table).map(valuesOf)
}

/** Fills a row; what the values do not name is cleared. */
function fillRow(row: HTMLTableRowElement, values: RowValues): void {
  row.querySelector('input[type="hidden"]')?.remove()
  const { preserved } = values
  if (preserved !== undefined) {
    const hidden = document.createElement('input')
    Object.assign(hidden, { type: 'hidden', name: `${row.id}.preserved`, value: preserved })
    row.cells[0]?.append(hidden)
  }
  for (const control of controlsIn(row)) {
    const key = keyOf(row, control)
    if (key === 'preserved') continue
    if (control instanceof HTMLInputElement && control.type === 'checkbox') control.checked = values[key] === 'on'
    else if (control instanceof HTMLSelectElement) choose(control, values[key] ?? '')
    else control.value = values[key] ?? ''
  }
}

/** The first option stands for nothing chosen where there is no blank one. */
function choose(select: HTMLSelectElement, value: string): void {
  select.value = value
  if (select.selectedIndex < 0) select.selectedIndex = 0
}

/** Makes the rows of a table those of a snapshot. */
export function restore(table: HTMLTableElement, snapshot: Snapshot): void {
  for (const note of table.querySelectorAll('tr.notes')) note.remove()
  const rows = rowsOf(table)
  const [first] = rows
  if (!first) return
  for (const row of rows.slice(Math.max(1, snapshot.length))) row.remove()
  while (rowsOf(table).length < snapshot.length) table.tBodies[0]!.append(first.cloneNode(true))
  for (const [index, row] of rowsOf(table).entries()) {
    number(table, row, index)
    row.classList.remove('faulty', 'full')
    fillRow(row, snapshot[index] ?? {})
  }
}

const NUMBERED = ['id', 'name', 'aria-label', 'aria-describedby', 'title', 'formaction']

/** Gives a row and everything in it the names of its place in the table. */
function number(table: HTMLTableElement, row: HTMLTableRowElement, index: number): void {
  const was = row.id
  const is = `${table.id}.${index}`
  if (was === is) return
  const before = Number(was.slice(table.id.length + 1)) + 1
  const renamed = (text: string) => text.replaceAll(was, is).replace(new RegExp(`(\\D )${before}$`), `$1${index + 1}`)
  row.id = is
  const heading = row.cells[0]?.firstChild
  if (heading) heading.nodeValue = String(index + 1)
  for (const part of row.querySelectorAll('[name], [id], button')) {
    for (const key of [...NUMBERED, ...(part.localName === 'button' ? ['value'] : [])]) {
      const text = part.getAttribute(key)
      if (text !== null) part.setAttribute(key, renamed(text))
    }
  }
}
