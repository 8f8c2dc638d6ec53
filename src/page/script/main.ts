import { cellKeys } from './cell-keys.ts'
import { follow } from './follow.ts'
import { planForm } from './places.ts'
import { rowTools } from './row-tools.ts'

/* The page's only script. The page works without it; each of these makes one part of it handier. */

const form = planForm()
const live = document.getElementById('live')
if (form) {
  for (const table of form.querySelectorAll<HTMLTableElement>('table.elements')) rowTools(table)
  cellKeys(form)
  if (live) follow(form, live)
}
