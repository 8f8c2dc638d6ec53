/** Where rows and fields of the form are, by the same paths as in a plan: `tracks.0.elements.3.length`. */

export type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement

export function planForm(): HTMLFormElement | null {
  return document.querySelector<HTMLFormElement>('form#plan')
}

export function controlsIn(part: ParentNode): Control[] {
  return [...part.querySelectorAll<Control>('input[name], select[name], textarea[name]')]
}

/** The control of a cell that has more than one: the size of a curve, not what it is given by nor the chord of a degree. */
export function mainControl(cell: HTMLTableCellElement): Control | undefined {
  return controlsIn(cell).findLast((control) => !control.matches('.of-degree'))
}

/** The rows of a table of the form, without the notes between them. */
export function rowsOf(table: HTMLTableElement): HTMLTableRowElement[] {
  return [...(table.tBodies[0]?.rows ?? [])].filter((row) => !row.classList.contains('notes'))
}

/** Whether anything is filled in. Boxes, and a choice of radius or diameter beside a blank size, say nothing by themselves. */
export function isTyped(row: HTMLTableRowElement): boolean {
  return controlsIn(row).some(
    ({ type, value, name }) => type !== 'checkbox' && value !== '' && !name.endsWith('.acrossIs'),
  )
}

/** Row n of a plan, which has no blank rows. */
export function typedRow(table: string, n: number): HTMLTableRowElement | undefined {
  const found = document.getElementById(table)
  return found instanceof HTMLTableElement ? rowsOf(found).filter(isTyped)[n] : undefined
}

/** The place of an element in the plan, such as `0.3`, for a row of the form; null where nothing is typed in it. */
export function placeOfRow(row: HTMLTableRowElement): string | null {
  const [, track] = /^tracks\.(\d+)\.elements\.\d+$/.exec(row.id) ?? []
  const table = row.closest('table')
  if (track === undefined || !table) return null
  const n = rowsOf(table).filter(isTyped).indexOf(row)
  return n < 0 ? null : `${track}.${n}`
}

/** The place in the form for a place in the plan: rows of tables are counted without the blank ones. */
export function placeInForm(place: string): string {
  const parts = place.split('.')
  let path = ''
  parts.forEach((part, n) => {
    const row = /^\d+$/.test(part) && n > 0 ? typedRow(path, Number(part)) : undefined
    path = row?.id ?? (path === '' ? part : `${path}.${part}`)
  })
  return path
}

/** Whether a button takes a file along, so that the page stays. */
export function takesFile(pressed: HTMLElement | null): boolean {
  return pressed instanceof HTMLButtonElement && new URL(pressed.formAction).pathname.endsWith('.pdf')
}

/** Says something to those who do not see it. What rows became and what follows from them are said beside each other. */
export function announce(text: string, id: 'said' | 'followed' = 'said'): void {
  let status = document.getElementById(id)
  if (!status) {
    status = document.createElement('p')
    status.id = id
    status.className = 'unseen'
    status.setAttribute('role', 'status')
    document.querySelector('main')?.append(status)
  }
  status.textContent = text
}

export function button(label: string, pressed: () => void, name = label): HTMLButtonElement {
  const made = document.createElement('button')
  made.type = 'button'
  made.className = 'small'
  made.textContent = label
  if (name !== label) made.setAttribute('aria-label', name)
  made.addEventListener('click', pressed)
  return made
}
