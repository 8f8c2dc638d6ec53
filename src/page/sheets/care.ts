import { type Html, html } from '../html.ts'
import { part } from './part.ts'
import type { SheetName } from './sheet-names.ts'

/** The cautions that also stand on the sheet of their job, by the word they begin with. */
const OF_SHEET: Readonly<Record<Exclude<SheetName, 'line' | 'record'>, readonly string[]>> = {
  shop: ['Lifting'],
  saw: ['Cutting', 'Lifting'],
  bench: ['Bending', 'Twist', 'Rollers'],
  garden: [
    'Live steam',
    'Hills',
    'Ground',
    'Digging',
    'Rock',
    'Retaining walls',
    'Heat',
    'Current in the rails',
    'Mains power',
  ],
}

/** The cautions of a sheet, in the order of the plan. */
export function cautionsOn(sheet: keyof typeof OF_SHEET, cautions: readonly string[]): string[] {
  return cautions.filter((caution) => OF_SHEET[sheet].some((word) => caution.startsWith(word)))
}

/** The cautions of a job, or all of them on the record. */
export function careCard(sheet: keyof typeof OF_SHEET | 'record', cautions: readonly string[]): Html | null {
  const own = sheet === 'record' ? cautions : cautionsOn(sheet, cautions)
  if (own.length === 0) return null
  return part('care', 'Take care', html`<ul class="cautions">${own.map((caution) => html`<li>${caution}</li>`)}</ul>`)
}
