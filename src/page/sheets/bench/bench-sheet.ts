import { open } from '../../form/controls.ts'
import { type Html, html } from '../../html.ts'
import { turnoutKinks } from '../built-turnouts.ts'
import { careCard } from '../care.ts'
import { part } from '../part.ts'
import type { SheetContext } from '../sheet.ts'
import { beforeBending, curveCards } from './bend-cards.ts'
import { pieceCards } from './piece-cards.ts'

/** How to bend each piece and how to check it; behind the cards, how the figures of each curve come about. */
export function benchSheet({ worked, lengthsIn, links, finished = null }: SheetContext): Html {
  const { estimate, plan } = worked
  const curves = curveCards(estimate, lengthsIn)
  const before = beforeBending(estimate, lengthsIn, links)
  return html`${part('bending', 'Bending', html`${before}${pieceCards(worked, lengthsIn, finished)}${turnoutKinks(estimate, lengthsIn)}`)}
${
  curves &&
  html`<details class="card theory" id="curves"${open(plan.bender?.work === 'assembled')}><summary>The curves and their figures <span class="hint">every ordinate, why by hand or by machine, springback, strain, passes, easements</span></summary>
${curves}</details>`
}
${careCard('bench', estimate.cautions)}`
}
