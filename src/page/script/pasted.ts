import { type RowValues, type Snapshot, snapshotOf } from './element-rows.ts'
import { controlsIn, mainControl, rowsOf } from './places.ts'

/** What columns of a spreadsheet are called, and the fields they stand for. */
const COLUMNS: Readonly<Record<string, string>> = {
  kind: 'kind',
  length: 'length',
  radius: 'across',
  diameter: 'across',
  degree: 'across',
  chord: 'chord',
  angle: 'angle',
  turn: 'turn',
  label: 'label',
  remark: 'label',
}

/** Words for choices beside those of the form. */
const WORDS: Readonly<Record<string, string>> = {
  straight: 'tangent',
  curve: 'arc',
  l: 'left',
  r: 'right',
}

/**
 * The rows of a table with what was copied from a spreadsheet put in, from the cell with the focus on; a first row with
 * the names of columns says what they are. Null for a text of one cell, which is pasted as any text.
 */
export function pastedRows(
  text: string,
  table: HTMLTableElement,
  target: Element,
): { readonly snapshot: Snapshot; readonly said: string } | null {
  if (!/[\t\n]/.test(text.trimEnd())) return null
  const lines = text.replaceAll('\r', '').replace(/\n+$/, '').split('\n')
  const cells = lines.map((line) => line.split('\t').map((cell) => cell.trim()))
  const row = target.closest('tr')
  const start = row ? rowsOf(table).indexOf(row) : -1
  const column = target.closest('td')?.cellIndex
  if (!row || start < 0 || column === undefined) return null

  const named = namedColumns(cells[0] ?? []) ?? labelledColumns(cells[0] ?? [], table, row)
  const columns = named ?? fieldsOf(row).slice(column - 1)
  const rows = [...snapshotOf(table)]
  let unknown = 0
  for (const [n, line] of (named ? cells.slice(1) : cells).entries()) {
    const values: Record<string, string> = { ...(rows[start + n] ?? {}) }
    for (const [index, cell] of line.entries()) {
      const field = columns[index]
      if (!field) continue
      const value = valueFor(row, field, cell)
      if (value === null) unknown += 1
      else Object.assign(values, value)
    }
    rows[start + n] = values
  }
  const count = named ? cells.length - 1 : cells.length
  const left =
    unknown === 0 ? '' : ` ${unknown} ${unknown === 1 ? 'cell was' : 'cells were'} not understood and left out.`
  return { snapshot: rows as RowValues[], said: `${count} ${count === 1 ? 'row is' : 'rows are'} pasted.${left}` }
}

interface Column {
  readonly key: string
  /** A unit in its heading, for numbers without one. */
  readonly unit: string
  readonly acrossIs?: string
}

/** Null if the first line has anything but names of columns. */
function namedColumns(line: readonly string[]): (Column | null)[] | null {
  const columns = line.map((heading): Column | null => {
    const [, name = '', unit = ''] = /^([a-z]+)\s*(?:\(([^)]*)\))?$/.exec(heading.toLowerCase()) ?? []
    const key = COLUMNS[name]
    if (key === undefined) return null
    return { key, unit, ...(key === 'across' && { acrossIs: name }) }
  })
  return columns.some((column) => column?.key === 'kind') ? columns : null
}

/** The columns by the headings of the table itself; null if the first line has anything else. */
function labelledColumns(line: readonly string[], table: HTMLTableElement, row: HTMLTableRowElement): Column[] | null {
  const labels = [...(table.tHead?.rows[0]?.cells ?? [])]
    .slice(1, -1)
    .map((cell) => cell.textContent?.trim().toLowerCase())
  const fields = fieldsOf(row)
  const columns = line.flatMap((heading) => fields[labels.indexOf(heading.toLowerCase())] ?? [])
  return columns.length === line.length ? columns : null
}

/** The field of each cell of a row: the size of a curve, where its cell has more than one. */
function fieldsOf(row: HTMLTableRowElement): Column[] {
  return [...row.cells].slice(1, -1).map((cell) => {
    const name = mainControl(cell)?.name ?? ''
    return { key: name.slice(row.id.length + 1), unit: '' }
  })
}

/** Null for a choice that the form does not have. */
function valueFor(row: HTMLTableRowElement, { key, unit, acrossIs }: Column, cell: string): RowValues | null {
  const control = controlsIn(row).find(({ name }) => name === `${row.id}.${key}`)
  if (control instanceof HTMLSelectElement) {
    const word = cell.toLowerCase()
    const option = [...control.options].find(
      ({ value, text }) => value === (WORDS[word] ?? word) || text.toLowerCase() === word,
    )
    return option ? { [key]: option.value } : null
  }
  const isBare = /^[-+]?[\d.,]+$/.test(cell)
  const value = isBare && unit !== '' && key !== 'angle' && acrossIs !== 'degree' ? `${cell} ${unit}` : cell
  return { [key]: value, ...(acrossIs && cell !== '' && { acrossIs }) }
}
