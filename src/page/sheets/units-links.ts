import { attributes, type Html, html } from '../html.ts'
import type { LengthsIn } from '../show-length.ts'
import type { SheetLinks } from './sheet-links.ts'
import type { SheetName } from './sheet-names.ts'

const UNITS: readonly (readonly [LengthsIn, string])[] = [
  ['both', 'mm and feet'],
  ['metric', 'mm, °C'],
  ['feet', 'feet, °F'],
]

/** The same sheet in other units; null for a plan that is only in the form, which has a switch of its own. */
export function unitsLinks({ base, posted, lengthsIn }: SheetLinks, sheet: SheetName): Html | null {
  if (posted) return null
  const address = sheet === 'line' ? base : `${base}/${sheet}`
  return html`<nav class="hint no-print units-links" aria-label="Units">Units: ${UNITS.map(
    ([units, label], index) =>
      html`${index > 0 && ' · '}<a${attributes({ href: `${address}?show=${units}`, 'aria-current': units === lengthsIn ? 'true' : null })}>${label}</a>`,
  )}</nav>`
}
