import { type Html, html } from '../../html.ts'
import { careCard } from '../care.ts'
import { part } from '../part.ts'
import type { SheetContext } from '../sheet.ts'
import { bendCards } from './bend-cards.ts'

/** How to bend each piece and how to check it. */
export function benchSheet({ worked: { estimate }, lengthsIn, links }: SheetContext): Html {
  return html`${part('bending', 'Bending', bendCards(estimate, lengthsIn, links))}
${careCard('bench', estimate.cautions)}`
}
