import {
  type Answer,
  component,
  count,
  type Fixed,
  length,
  list,
  nullable,
  number,
  object,
  text,
} from '../plan/fields/answer.ts'
import { ofRailParts, railPartLabel } from '../plan/rows/parts.ts'

/** A rail of the catalogue: stock of any other could not be told apart. */
const RAIL_KIND = object({ section: text(), material: text() })

const STOCKED_STICK = component('StockedStick', 'Sticks of one length; offcuts are sticks too.', {
  ...RAIL_KIND.fields,
  lengthMm: length(),
  count: count(),
})

const STOCKED_PANEL = component(
  'StockedPanel',
  'Pieces of ready-made track of one size: a curve by its radius and angle, a straight piece by its length.',
  {
    ...RAIL_KIND.fields,
    lengthMm: length('Length along the centre line, mm.'),
    radiusMm: nullable(length('Radius of the centre line, mm; null for straight pieces, like the angle.')),
    angleDeg: nullable(number()),
    ties: count('Ties on one piece; 0 for two rails without ties.'),
    count: count(),
  },
)

const STOCKED_PART = component('StockedJoiner', 'Joiners or joints for one rail section and material.', {
  ...RAIL_KIND.fields,
  count: count(),
})

const STOCKED_TIE_STRIP = component('StockedTieStrip', 'Moulded tie strips with the same number of ties.', {
  ties: count('Ties in one strip.'),
  count: count(),
})

export const STOCK = component(
  'Stock',
  'Stock in the shed, or a part of it, in single pieces, by section, material and length, the longest first. Offcuts count as sticks, offcuts of ready-made track as ready-made pieces.',
  {
    sticks: list(STOCKED_STICK),
    panels: list(STOCKED_PANEL),
    ...ofRailParts((name) => list(STOCKED_PART, `${railPartLabel(name, 'many')}.`)),
    ties: count(),
    tieStrips: list(STOCKED_TIE_STRIP),
    fasteners: count(),
  },
)

export type RailKind = Fixed<Answer<typeof RAIL_KIND>>
export type StockedPanel = Fixed<Answer<typeof STOCKED_PANEL>>
type StockedPart = Fixed<Answer<typeof STOCKED_PART>>
export type Stock = Fixed<Answer<typeof STOCK>>

export const NOTHING: Stock = {
  sticks: [],
  panels: [],
  ...ofRailParts(() => []),
  ties: 0,
  tieStrips: [],
  fasteners: 0,
}

/** Stock as stored: earlier versions stored fewer kinds of things. */
export type KeptStock = Partial<Stock>

/** Kinds that were not stored are empty. */
export function stockAsKept(kept: KeptStock): Stock {
  return { ...NOTHING, ...kept }
}

export function isNothing(stock: Stock): boolean {
  return countsOf(stock).every((count) => count === 0)
}

function countsOf({ ties, fasteners, ...rows }: Stock): number[] {
  return [ties, fasteners, ...Object.values(rows).flatMap((each) => each.map(({ count }) => count))]
}

export function sameRail(a: RailKind, b: RailKind): boolean {
  return a.section === b.section && a.material === b.material
}

/** Both together, each kind of thing once. */
export function plus(a: Stock, b: Stock): Stock {
  return tidy({
    sticks: [...a.sticks, ...b.sticks],
    panels: [...a.panels, ...b.panels],
    ...ofRailParts((name) => [...a[name], ...b[name]]),
    ties: a.ties + b.ties,
    tieStrips: [...a.tieStrips, ...b.tieStrips],
    fasteners: a.fasteners + b.fasteners,
  })
}

/** `whole` without `part`. Throws if `part` is more than there is. */
export function minus(whole: Stock, part: Stock): Stock {
  const negative = <T extends { count: number }>(rows: readonly T[]) =>
    rows.map((row) => ({ ...row, count: -row.count }))
  const left = plus(whole, {
    sticks: negative(part.sticks),
    panels: negative(part.panels),
    ...ofRailParts((name) => negative(part[name])),
    ties: -part.ties,
    tieStrips: negative(part.tieStrips),
    fasteners: -part.fasteners,
  })
  if (countsOf(left).some((count) => count < 0)) throw new RangeError('more is taken than there is')
  return left
}

/**
 * Stock in the order in which it is stored: by section, material, and length, the longest first, ready-made straights
 * before curves; equal rows summed, empty ones left out. Lengths are rounded to a millionth of a millimetre, the slack
 * of all counting, and angles to a billionth of a degree.
 */
export function tidy(stock: Stock): Stock {
  const parts = (rows: readonly StockedPart[]) => summed([...rows].sort(byRail), sameRail)
  return {
    sticks: summed(
      stock.sticks
        .map((stick) => ({ ...stick, lengthMm: rounded(stick.lengthMm, 1e6) }))
        .sort((a, b) => byRail(a, b) || b.lengthMm - a.lengthMm),
      (a, b) => sameRail(a, b) && a.lengthMm === b.lengthMm,
    ),
    panels: summed(stock.panels.map(tidyPanel).sort(byPanel), (a, b) => byPanel(a, b) === 0),
    ...ofRailParts((name) => parts(stock[name])),
    ties: stock.ties,
    tieStrips: summed(
      stock.tieStrips.toSorted((a, b) => b.ties - a.ties),
      (a, b) => a.ties === b.ties,
    ),
    fasteners: stock.fasteners,
  }
}

function tidyPanel(panel: StockedPanel): StockedPanel {
  if (panel.radiusMm === null || panel.angleDeg === null)
    return { ...panel, lengthMm: rounded(panel.lengthMm, 1e6), radiusMm: null, angleDeg: null }
  const radiusMm = rounded(panel.radiusMm, 1e6)
  const angleDeg = rounded(panel.angleDeg, 1e9)
  return { ...panel, lengthMm: rounded(alongArc(radiusMm, angleDeg), 1e6), radiusMm, angleDeg }
}

/** The length of an arc, mm. */
export function alongArc(radiusMm: number, angleDeg: number): number {
  return (radiusMm * angleDeg * Math.PI) / 180
}

/** @param steps how many steps there are to one */
function rounded(value: number, steps: number): number {
  return Math.round(value * steps) / steps
}

/** Order of tidy pieces: by radius, the longest first, and of the same size those with most ties first. */
function byPanel(a: StockedPanel, b: StockedPanel): number {
  const sizes = (a.radiusMm ?? 0) - (b.radiusMm ?? 0) || (b.angleDeg ?? b.lengthMm) - (a.angleDeg ?? a.lengthMm)
  return byRail(a, b) || sizes || b.ties - a.ties
}

function summed<T extends { readonly count: number }>(sorted: readonly T[], same: (a: T, b: T) => boolean): T[] {
  const rows: T[] = []
  for (const row of sorted) {
    const last = rows.at(-1)
    if (last && same(last, row)) rows[rows.length - 1] = { ...last, count: last.count + row.count }
    else rows.push(row)
  }
  return rows.filter(({ count }) => count !== 0)
}

function byRail(a: RailKind, b: RailKind): number {
  return compare(a.section, b.section) || compare(a.material, b.material)
}

/** By code unit: the order does not depend on the locale. */
function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0
}
