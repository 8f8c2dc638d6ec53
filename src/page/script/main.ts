import { asking } from './asked.ts'
import { cellKeys } from './cell-keys.ts'
import { choosing } from './chosen.ts'
import { drawings } from './drawing.ts'
import { editing } from './edit.ts'
import { finishing } from './finished.ts'
import { follow } from './follow.ts'
import { keeping, keptHere } from './kept.ts'
import { planForm } from './places.ts'
import { rowTools } from './row-tools.ts'
import { working } from './working.ts'

/* The page's only script. The page works without it; each of these makes one part of it handier. */

const form = planForm()
if (form) begin(form)
editing(begin)
if (document.getElementById('start')) keptHere()
choosing()
drawings()
finishing()

function begin(form: HTMLFormElement): void {
  keeping(form)
  working(form)
  for (const table of form.querySelectorAll<HTMLTableElement>('table.edit[id]')) rowTools(table)
  asking(form)
  cellKeys(form)
  const live = document.getElementById('live')
  if (live) follow(form, live)
}
