import { type Html, html } from '../../html.ts'
import { lengthText } from '../../show-length.ts'
import { builtTurnouts } from '../built-turnouts.ts'
import { careCard } from '../care.ts'
import { part } from '../part.ts'
import { readyMadeCosts } from '../saw/ready-made.ts'
import type { SheetContext } from '../sheet.ts'
import { shoppingList } from './shopping-list.ts'

/** What to buy, what it costs, and what lies in the shed. */
export function shopSheet({ worked: { estimate }, lengthsIn }: SheetContext): Html {
  const { bill, rail, readyMade, cautions } = estimate
  return html`${part(
    'shopping',
    'Shopping list',
    html`${shoppingList(bill, lengthsIn)}
<p class="hint">Total rail: ${lengthText(rail.lengthMm, lengthsIn)} of ${rail.section === 'custom' ? 'a custom section' : `code ${rail.section}`} ${rail.material === 'own' ? 'a custom metal' : rail.material}${rail.massKg === null ? '' : `, ${rail.massKg.toFixed(2)} kg`}.</p>
${builtTurnouts(estimate)}
<p class="hint no-print">You can also load these numbers and tables <a href="/docs/spreadsheets">into your spreadsheet</a>.</p>`,
  )}
${readyMade && part('ready-made', 'Ready-made track', readyMadeCosts(estimate, readyMade))}
${careCard('shop', cautions)}`
}
