import { formatFeetInches, formatMm } from '../../measure/length.ts'
import { nameOf } from '../../shed/panels-from-stock.ts'
import type { RailKind, Stock } from '../../shed/stock.ts'

/** Parts that are counted by rail, in the order of display. */
export const PARTS = [
  { key: 'joiners', one: 'Rail joiner', many: 'rail joiners' },
  { key: 'insulatedJoiners', one: 'Insulated joiner', many: 'insulated joiners' },
  { key: 'transitionJoiners', one: 'Transition joiner', many: 'transition joiners' },
  { key: 'expansionJoints', one: 'Expansion joint', many: 'expansion joints' },
] as const

/** The stock as texts, one for each item. */
export function stockInWords(stock: Stock): string[] {
  const railName = ({ section, material }: RailKind) => `code ${section} ${material}`
  return [
    ...stock.sticks.map(
      (stick) =>
        `${stick.count} × ${formatMm(stick.lengthMm)} (${formatFeetInches(stick.lengthMm)}), ${railName(stick)}`,
    ),
    ...stock.panels.map((row) => `${row.count} × ${nameOf(row)}, ${railName(row)}`),
    ...PARTS.flatMap(({ key, many }) => stock[key].map((row) => `${many}: ${row.count}, ${railName(row)}`)),
    ...(stock.ties > 0 ? [`ties: ${stock.ties}`] : []),
    ...stock.tieStrips.map(({ ties, count }) => `tie strips of ${ties} ties: ${count}`),
    ...(stock.fasteners > 0 ? [`fasteners: ${stock.fasteners}`] : []),
  ]
}
