import { type Html, html } from '../../html.ts'
import { careCard } from '../care.ts'
import { part } from '../part.ts'
import type { SheetContext } from '../sheet.ts'
import { assumptionList } from './assumptions.ts'

/** What the plan took for granted, its notes, the same plan in other metals, and every caution. */
export function recordSheet({ worked: { estimate } }: SheetContext, notes: string, metals: Html, editor: Html): Html {
  return html`${notes && part('noted', 'Notes', html`<p class="notes-text">${notes}</p>`)}
${part('assumed', 'Assumptions', assumptionList(estimate))}
${metals}
${editor}
${careCard('record', estimate.cautions)}`
}
