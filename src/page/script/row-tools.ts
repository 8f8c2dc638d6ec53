import { type RowValues, restore, type Snapshot, snapshotOf } from './element-rows.ts'
import { TableHistory } from './history.ts'
import { pastedRows } from './pasted.ts'
import { announce, button, rowsOf } from './places.ts'

/*
 * Buttons and keys for the rows of a table of elements: inserting, duplicating, moving, deleting, undoing. They act on
 * the row that had the focus last.
 */

export function rowTools(table: HTMLTableElement): void {
  const history = new TableHistory(snapshotOf(table))
  let current = 0

  const tools = document.createElement('div')
  tools.className = 'row-tools'
  tools.setAttribute('role', 'group')
  const track = table.closest('fieldset')?.querySelector('legend')?.textContent?.trim() ?? ''
  tools.setAttribute('aria-label', `Rows of ${track}`)
  const undoButton = button('Undo', () => stepTo(history.undo(), 'Undone'))
  const redoButton = button('Redo', () => stepTo(history.redo(), 'Done again'))
  tools.append(
    button('Insert above', () => insert(current)),
    button('Duplicate', () => duplicate()),
    button('Move up', () => move(-1)),
    button('Move down', () => move(1)),
    button('Delete', () => remove(current)),
    undoButton,
    redoButton,
  )
  const scroll = table.closest('.scroll') ?? table
  scroll.before(tools)
  showSteps()

  table.addEventListener('focusin', (event) => {
    const row = (event.target as Element).closest('tr')
    const index = row ? rowsOf(table).indexOf(row) : -1
    if (index >= 0) setCurrent(index)
  })
  table.addEventListener('change', () => noted())
  table.addEventListener('click', (event) => {
    const pressed = (event.target as Element).closest('button')
    const [, verb, path] = /^(insert|remove) (.+)$/.exec(pressed?.value ?? '') ?? []
    const index = rowsOf(table).findIndex((row) => row.id === path)
    if (index < 0) return
    event.preventDefault()
    if (verb === 'insert') insert(index)
    else remove(index)
  })
  table.addEventListener('keydown', (event) => {
    const { key, altKey, ctrlKey, metaKey, shiftKey } = event
    if (altKey && (key === 'ArrowUp' || key === 'ArrowDown')) {
      event.preventDefault()
      move(key === 'ArrowUp' ? -1 : 1, true)
    }
    const steps = (ctrlKey || metaKey) && !altKey && key.toLowerCase() === 'z'
    // A text that is being typed has a history of its own.
    if (!steps || isBeingTyped(event.target)) return
    event.preventDefault()
    if (shiftKey) stepTo(history.redo(), 'Done again')
    else stepTo(history.undo(), 'Undone')
  })
  table.addEventListener('paste', (event) => {
    const target = event.target as Element
    const rows = pastedRows(event.clipboardData?.getData('text/plain') ?? '', table, target)
    if (!rows) return
    event.preventDefault()
    change(rows.snapshot, current)
    announce(rows.said)
  })
  table.addEventListener('row-below', () => {
    const rows = snapshotOf(table)
    change([...rows, {}], rows.length)
  })

  function insert(at: number): void {
    change(snapshotOf(table).toSpliced(at, 0, {}), at)
    announce(`A row is inserted above element ${at + 2}.`)
  }

  function duplicate(): void {
    const rows = snapshotOf(table)
    change(rows.toSpliced(current, 0, rows[current] ?? {}), current + 1)
    announce(`Element ${current} is duplicated.`)
  }

  function move(by: -1 | 1, keepsFocus = false): void {
    const rows = snapshotOf(table)
    const to = current + by
    const moved = rows[current]
    if (moved === undefined || to < 0 || to >= rows.length) return
    const column = keepsFocus ? columnWithFocus() : null
    change(rows.toSpliced(current, 1).toSpliced(to, 0, moved), to)
    if (column !== null) rowsOf(table)[to]?.cells[column]?.querySelector<HTMLElement>('input, select')?.focus()
    announce(`Element ${to - by + 1} is now element ${to + 1}.`)
  }

  function remove(at: number): void {
    const rows = snapshotOf(table)
    const left: readonly RowValues[] = rows.toSpliced(at, 1)
    change(left.length === 0 ? [{}] : left, Math.min(at, left.length - 1))
    announce(`Element ${at + 1} is deleted.`)
  }

  function change(rows: Snapshot, next: number): void {
    restore(table, rows)
    noted()
    setCurrent(Math.max(0, next))
    table.dispatchEvent(new Event('input', { bubbles: true }))
  }

  function stepTo(rows: Snapshot | null, said: string): void {
    if (!rows) return
    restore(table, rows)
    setCurrent(Math.min(current, rows.length - 1))
    keepFocus()
    showSteps()
    announce(said)
    table.dispatchEvent(new Event('input', { bubbles: true }))
  }

  /** A cell that its row no longer asks for cannot have the focus. */
  function keepFocus(): void {
    const focused = document.activeElement
    if (!focused || !table.contains(focused) || focused.checkVisibility({ visibilityProperty: true })) return
    rowsOf(table)[current]?.querySelector<HTMLElement>('select, input:not([type="hidden"])')?.focus()
  }

  function noted(): void {
    history.note(snapshotOf(table))
    showSteps()
  }

  function showSteps(): void {
    undoButton.disabled = !history.canUndo
    redoButton.disabled = !history.canRedo
  }

  function setCurrent(index: number): void {
    current = index
    for (const [n, row] of rowsOf(table).entries()) row.classList.toggle('current', n === index)
  }
}

function isBeingTyped(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLInputElement &&
    target.matches(':focus') &&
    target.dataset.before !== undefined &&
    target.dataset.before !== target.value
  )
}

function columnWithFocus(): number | null {
  return document.activeElement?.closest('td')?.cellIndex ?? null
}
