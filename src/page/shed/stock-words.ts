import { formatFeetInches, formatMm } from '../../measure/length.ts'
import { RAIL_PART_NAMES, RAIL_PARTS } from '../../plan/rows/parts.ts'
import { nameOf } from '../../shed/panels-from-stock.ts'
import type { RailKind, Stock } from '../../shed/stock.ts'
import { lowerFirst } from '../form/form-shape.ts'
import { inUnits } from '../in-units.ts'
import type { LengthsIn } from '../show-length.ts'

/** The stock as texts, one for each item. */
export function stockInWords(stock: Stock, lengthsIn: LengthsIn): string[] {
  const railName = ({ section, material }: RailKind) => `code ${section} ${material}`
  const words = [
    ...stock.sticks.map(
      (stick) =>
        `${stick.count} × ${formatMm(stick.lengthMm)} (${formatFeetInches(stick.lengthMm)}), ${railName(stick)}`,
    ),
    ...stock.panels.map((row) => `${row.count} × ${nameOf(row)}, ${railName(row)}`),
    ...RAIL_PART_NAMES.flatMap((name) =>
      stock[name].map((row) => `${lowerFirst(RAIL_PARTS[name].many)}: ${row.count}, ${railName(row)}`),
    ),
    ...(stock.ties > 0 ? [`ties: ${stock.ties}`] : []),
    ...stock.tieStrips.map(({ ties, count }) => `tie strips of ${ties} ties: ${count}`),
    ...(stock.fasteners > 0 ? [`fasteners: ${stock.fasteners}`] : []),
  ]
  return words.map((text) => inUnits(text, lengthsIn))
}
