import { type Html, html } from '../html.ts'
import { benchSheet } from './bench/bench-sheet.ts'
import { gardenSheet } from './garden/garden-sheet.ts'
import { sawSheet } from './saw/saw-sheet.ts'
import type { SheetContext } from './sheet.ts'
import type { SheetName } from './sheet-names.ts'
import { shopSheet } from './shop/shop-sheet.ts'

/** The sheets that need nothing but the worked plan; the line and the record also have parts of the form. */
export function jobSheet(name: Exclude<SheetName, 'line' | 'record'>, context: SheetContext): Html {
  return html`${{ shop: shopSheet, saw: sawSheet, bench: benchSheet, garden: gardenSheet }[name](context)}`
}
