import type { Fault } from '../measure/fault.ts'
import { formatMm } from '../measure/length.ts'
import { faultsOf } from '../plan/reading/issues.ts'
import { readable, schemaOf } from '../plan/reading/schema.ts'
import { tooMany } from '../plan/reading/size.ts'
import { listAt } from '../plan/reading/value-at.ts'
import { LIMITS } from '../plan/rows/limits.ts'
import { ofRailParts } from '../plan/rows/parts.ts'
import { STOCK, STOCKED_PANEL, type StockedPanelWritten } from '../plan/rows/shed.ts'
import { alongArc, type Stock, type StockedPanel, tidy } from './stock.ts'

export type ReadStock = { readonly ok: true; readonly stock: Stock } | { readonly ok: false; readonly faults: Fault[] }

/** Reads the contents of the shed, with every fault they have. */
export function readStock(raw: unknown): ReadStock {
  const parsed = schemaOf(STOCK).safeParse(raw)
  if (!parsed.success) {
    const between = listAt(raw, ['panels']).flatMap((panel, index) =>
      lengthFaults(readable(STOCKED_PANEL, panel), index),
    )
    return { ok: false, faults: [...faultsOf(parsed.error.issues, raw), ...between] }
  }
  const { sticks = [], panels = [], tieStrips = [], ties = 0, fasteners = 0, ...parts } = parsed.data
  const faults = [
    ...panels.flatMap(lengthFaults),
    ...tooMany(['sticks'], countOf(sticks), LIMITS.stocked, 'sticks in total', 'leave out the shortest offcuts'),
    ...tooMany(
      ['panels'],
      countOf(panels),
      LIMITS.stocked,
      'ready-made pieces in total',
      'leave out the shortest ones',
    ),
  ]
  if (faults.length > 0) return { ok: false, faults }
  return {
    ok: true,
    stock: tidy({
      sticks: sticks.map(({ section, material, length: lengthMm, count }) => ({ section, material, lengthMm, count })),
      panels: panels.map(stockedPanel),
      ...ofRailParts((name) => parts[name] ?? []),
      ties,
      tieStrips,
      fasteners,
    }),
  }
}

function stockedPanel(panel: StockedPanelWritten): StockedPanel {
  const { section, material, ties = 0, count } = panel
  return { section, material, ...sizeOf(panel), ties, count }
}

function sizeOf(panel: StockedPanelWritten) {
  if (!('radius' in panel)) return { lengthMm: panel.length, radiusMm: null, angleDeg: null }
  const { radius, angle } = panel
  return { lengthMm: alongArc(radius, angle), radiusMm: radius, angleDeg: angle }
}

/** A length given with radius and angle may differ from theirs only by rounding. */
const SAME_LENGTH_MM = 1e-3

/** @param panel null where it could not be read and has been reported */
function lengthFaults(panel: StockedPanelWritten | null, index: number): Fault[] {
  if (!panel || !('radius' in panel) || panel.lengthMm === undefined) return []
  const alongMm = alongArc(panel.radius, panel.angle)
  if (Math.abs(panel.lengthMm - alongMm) <= SAME_LENGTH_MM) return []
  return [
    {
      path: ['panels', index, 'lengthMm'],
      code: 'contradictory',
      detail: `lengthMm is ${formatMm(panel.lengthMm, 3)}, but radius and angle give ${formatMm(alongMm, 3)}`,
      hint: 'leave out lengthMm for a curve',
    },
  ]
}

function countOf(rows: readonly { readonly count: number }[]): number {
  return rows.reduce((sum, { count }) => sum + count, 0)
}
