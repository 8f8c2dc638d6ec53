import type { Stock } from '../../estimate/shed/stock.ts'
import { formatFeetInches, formatMm } from '../../measure/length.ts'

/** What lies in the shed as people would say it, a line for each kind. */
export function stockInWords({ sticks, joiners, ties, fasteners }: Stock): string[] {
  const railName = ({ section, material }: { section: string; material: string }) => `code ${section} ${material}`
  return [
    ...sticks.map(
      (stick) =>
        `${stick.count} × ${formatMm(stick.lengthMm)} (${formatFeetInches(stick.lengthMm)}), ${railName(stick)}`,
    ),
    ...joiners.map((row) => `rail joiners: ${row.count}, ${railName(row)}`),
    ...(ties > 0 ? [`ties: ${ties}`] : []),
    ...(fasteners > 0 ? [`fasteners: ${fasteners}`] : []),
  ]
}
