import { type Html, html } from '../../html.ts'
import { turnoutRails } from '../built-turnouts.ts'
import { careCard } from '../care.ts'
import { part } from '../part.ts'
import type { SheetContext } from '../sheet.ts'
import { cutList } from './cut-list.ts'
import { readyMadeCuts } from './ready-made.ts'

/** What to saw from which stick, and from which ready-made piece. */
export function sawSheet({ worked, lengthsIn }: SheetContext): Html {
  const { estimate } = worked
  const { readyMade, cautions } = estimate
  const cuts = readyMade && readyMadeCuts(estimate, readyMade, lengthsIn)
  return html`${part('cutting', 'Cut list', html`${cutList(worked, lengthsIn)}${turnoutRails(estimate, lengthsIn)}`)}
${cuts && part('ready-made', 'Ready-made track', cuts)}
${careCard('saw', cautions)}`
}
