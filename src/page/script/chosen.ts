import { RESULTS } from './follow.ts'
import { placeOfRow, typedRow } from './places.ts'

/*
 * One element or joint at a time is chosen, by its place such as `0.3`: in the drawing, in the form, in the tables and
 * among the findings alike.
 */

let chosen: string | null = null

export function choosing(): void {
  document.addEventListener('click', ({ target }) => {
    const marked = target instanceof Element ? target.closest('[data-at]') : null
    const at = marked?.getAttribute('data-at') ?? null
    if (marked === null || at === null) return
    choose(at)
    if (marked instanceof SVGElement) showRow(at)
    else if (!(target instanceof Element && target.closest('button, a, summary'))) showInDrawing(at)
  })
  document.addEventListener('focusin', ({ target }) => {
    const row = target instanceof Element ? target.closest('tr') : null
    const marked = target instanceof Element ? target.closest('[data-at]') : null
    const at = marked?.getAttribute('data-at') ?? (row && placeOfRow(row))
    if (at) choose(at)
  })
  document.addEventListener(RESULTS, show)
}

function choose(at: string): void {
  chosen = at
  show()
}

function show(): void {
  for (const old of document.querySelectorAll('.chosen')) old.classList.remove('chosen')
  if (chosen === null) return
  for (const marked of document.querySelectorAll(`[data-at="${chosen}"]`)) marked.classList.add('chosen')
  formRow(chosen)?.classList.add('chosen')
}

function formRow(at: string): HTMLTableRowElement | undefined {
  const [track, element] = at.split('.')
  return typedRow(`tracks.${track}.elements`, Number(element))
}

/** The row of the form, if that is open, or of the table beside a drawing of joints. */
function showRow(at: string): void {
  const row = formRow(at)
  if (row?.checkVisibility()) {
    row.scrollIntoView({ block: 'center' })
    row.querySelector<HTMLElement>('select, input:not([type="hidden"])')?.focus({ preventScroll: true })
  } else document.querySelector(`.joints-table tr[data-at="${at}"]`)?.scrollIntoView({ block: 'nearest' })
}

function showInDrawing(at: string): void {
  const drawing = document.querySelector(`.tapped [data-at="${at}"]`)?.closest('svg')
  drawing?.scrollIntoView({ block: 'nearest' })
}
