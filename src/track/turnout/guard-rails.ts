import type { TurnoutGeometry } from './types.ts'

/** How far guard rails reach ahead of and behind the point of the frog, in gauges. Own choice, no source. */
const AHEAD_GAUGES = 1
const BEHIND_GAUGES = 0.5

export function aheadOfFrogMm(gaugeMm: number): number {
  return AHEAD_GAUGES * gaugeMm
}

/** Wing rails reach as far behind it. */
export function behindFrogMm(gaugeMm: number): number {
  return BEHIND_GAUGES * gaugeMm
}

/** The guard rails opposite the frog, one for each leg, from the points; within the turnout. */
export function guardRailsOf({ leadMm, legs }: TurnoutGeometry, gaugeMm: number): { fromMm: number; toMm: number }[] {
  return [legs.through, legs.diverging].map(({ end }) => ({
    fromMm: Math.max(0, leadMm - aheadOfFrogMm(gaugeMm)),
    toMm: Math.min(Math.max(leadMm, end.xMm), leadMm + behindFrogMm(gaugeMm)),
  }))
}
