import { type RowValues, restore, type Snapshot, snapshotOf } from './element-rows.ts'
import { TableHistory } from './history.ts'
import { pastedRows } from './pasted.ts'
import { announce, button, controlsIn, mainControl, rowsOf } from './places.ts'
import { toolbar } from './toolbar.ts'

/*
 * Buttons and keys for the rows of a table of the form: inserting, duplicating, moving, deleting, undoing. They act on
 * the row that had the focus last. Those of the elements are always there, others once their table has the focus.
 */

export function rowTools(table: HTMLTableElement): void {
  const history = new TableHistory(snapshotOf(table))
  let current = 0

  const name = rowName(table)
  const Name = name.charAt(0).toUpperCase() + name.slice(1)
  const undoButton = button('Undo', () => stepTo(history.undo(), 'Undone'))
  const redoButton = button('Redo', () => stepTo(history.redo(), 'Done again'))
  const buttons = [
    button('Insert above', () => insert(current)),
    button('Duplicate', () => duplicate()),
    button('Move up', () => move(-1)),
    button('Move down', () => move(1)),
    button('Delete', () => remove(current)),
    undoButton,
    redoButton,
  ]
  const tools = toolbar(`Rows of ${labelOf(table)}`, buttons)
  const around = table.closest('.scroll') ?? table
  if (table.matches('.elements')) around.before(tools)
  else {
    tools.hidden = true
    const end = table.nextElementSibling?.matches('.below') ? table.nextElementSibling : around
    end.after(tools)
    table.addEventListener('focusin', () => {
      tools.hidden = false
    })
  }
  oneStopACell(table)
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
    announce(`A row is inserted above ${name} ${at + 2}.`)
  }

  function duplicate(): void {
    const rows = snapshotOf(table)
    change(rows.toSpliced(current, 0, rows[current] ?? {}), current + 1)
    announce(`${Name} ${current} is duplicated.`)
  }

  function move(by: -1 | 1, keepsFocus = false): void {
    const rows = snapshotOf(table)
    const to = current + by
    const moved = rows[current]
    if (moved === undefined || to < 0 || to >= rows.length) return
    const column = keepsFocus ? columnWithFocus() : null
    change(rows.toSpliced(current, 1).toSpliced(to, 0, moved), to)
    if (column !== null) rowsOf(table)[to]?.cells[column]?.querySelector<HTMLElement>('input, select')?.focus()
    announce(`${Name} ${to - by + 1} is now ${name} ${to + 1}.`)
  }

  function remove(at: number): void {
    const rows = snapshotOf(table)
    const left: readonly RowValues[] = rows.toSpliced(at, 1)
    change(left.length === 0 ? [{}] : left, Math.min(at, left.length - 1))
    announce(`${Name} ${at + 1} is deleted.`)
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
    // A button that is switched off would take the focus with it.
    if (undoButton.matches(':focus') && !history.canUndo) buttons[0]?.focus()
    if (redoButton.matches(':focus') && !history.canRedo) buttons[0]?.focus()
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

/** What a row is called, by its own buttons: `element`. */
function rowName(table: HTMLTableElement): string {
  const label = table.querySelector('button[value^="remove "]')?.getAttribute('aria-label') ?? ''
  return /^Remove (.+) \d+$/.exec(label)?.[1] ?? 'row'
}

/** The part of the form that a table is in, or its caption. */
function labelOf(table: HTMLTableElement): string {
  const legend = table.closest('fieldset')?.querySelector('legend')?.textContent?.trim()
  const caption = table.caption?.textContent?.trim() ?? ''
  return table.matches('.elements') && legend ? legend : caption
}

/** The tab key goes from cell to cell; arrows reach what else is in a cell, and the tools do what the row's buttons do. */
function oneStopACell(table: HTMLTableElement): void {
  for (const row of rowsOf(table)) {
    for (const cell of row.cells)
      for (const control of controlsIn(cell))
        if (control !== mainControl(cell) && !control.matches('.of-degree')) control.tabIndex = -1
    for (const pressed of row.querySelectorAll('button')) pressed.tabIndex = -1
  }
}
