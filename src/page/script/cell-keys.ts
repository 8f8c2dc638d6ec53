import { rowsOf } from './places.ts'

/*
 * Keys in the tables of the form: arrows from cell to cell, Enter to the next row. In a text the arrows to the sides move
 * within it first; in a choice those up and down choose.
 */

type Cell = HTMLInputElement | HTMLSelectElement

export function cellKeys(form: HTMLFormElement): void {
  form.addEventListener('focusin', ({ target }) => {
    if (target instanceof HTMLInputElement) target.dataset.before = target.value
  })
  form.addEventListener('keydown', (event) => {
    const { target, key, altKey, ctrlKey, metaKey, shiftKey } = event
    const table = target instanceof Element ? target.closest<HTMLTableElement>('table.edit') : null
    const isCell = target instanceof HTMLInputElement || target instanceof HTMLSelectElement
    if (!table || !isCell || altKey || ctrlKey || metaKey || event.isComposing) return
    const next =
      key === 'Enter' ? below(table, target, shiftKey ? -1 : 1) : shiftKey ? null : beside(table, target, key)
    if (!next) return
    event.preventDefault()
    next.focus()
    if (next instanceof HTMLInputElement) next.select()
  })
}

/** The cell that an arrow leads to; null where it moves within the present one. */
function beside(table: HTMLTableElement, cell: Cell, key: string): Cell | null {
  const isText = cell instanceof HTMLInputElement && cell.type !== 'checkbox'
  if (cell instanceof HTMLInputElement && (key === 'ArrowUp' || key === 'ArrowDown'))
    return inRow(table, cell, key === 'ArrowUp' ? -1 : 1)
  if (key !== 'ArrowLeft' && key !== 'ArrowRight') return null
  const atEdge =
    !isText ||
    (cell.selectionStart === cell.selectionEnd &&
      cell.selectionStart === (key === 'ArrowLeft' ? 0 : cell.value.length)) ||
    (cell.value !== '' && cell.selectionStart === 0 && cell.selectionEnd === cell.value.length)
  if (!atEdge) return null
  const cells = seenIn(cell.closest('tr')!)
  return cells[cells.indexOf(cell) + (key === 'ArrowLeft' ? -1 : 1)] ?? null
}

/** The cell in the next row, which is added to a table of elements after its last one. */
function below(table: HTMLTableElement, cell: Cell, by: -1 | 1): Cell | null {
  const found = inRow(table, cell, by)
  if (found || by < 0) return found ?? cell
  table.dispatchEvent(new Event('row-below'))
  return inRow(table, cell, by) ?? cell
}

/** The cell of a neighbouring row that is nearest to the same column. */
function inRow(table: HTMLTableElement, cell: Cell, by: -1 | 1): Cell | null {
  const rows = rowsOf(table)
  const row = rows[rows.indexOf(cell.closest('tr')!) + by]
  if (!row) return null
  const column = (each: Cell) => each.closest('td')?.cellIndex ?? 0
  const key = cell.name.split('.').at(-1)
  const away = (each: Cell) => Math.abs(column(each) - column(cell)) + (each.name.split('.').at(-1) === key ? 0 : 0.5)
  return seenIn(row).toSorted((a, b) => away(a) - away(b))[0] ?? null
}

function seenIn(row: HTMLTableRowElement): Cell[] {
  return [...row.querySelectorAll<Cell>('input:not([type="hidden"]), select')].filter((cell) =>
    cell.checkVisibility({ visibilityProperty: true }),
  )
}
