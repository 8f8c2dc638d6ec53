import type { TurnoutGeometry } from './types.ts'

/** How far guard rails reach ahead of and behind the point of the frog, in gauges. Own choice, no source. */
const AHEAD_GAUGES = 1
const BEHIND_GAUGES = 0.5

/** The guard rails opposite the frog, one for each leg, from the points; within the turnout. */
export function guardRailsOf({ leadMm, legs }: TurnoutGeometry, gaugeMm: number): { fromMm: number; toMm: number }[] {
  return [legs.through, legs.diverging].map(({ end }) => ({
    fromMm: Math.max(0, leadMm - AHEAD_GAUGES * gaugeMm),
    toMm: Math.min(Math.max(leadMm, end.xMm), leadMm + BEHIND_GAUGES * gaugeMm),
  }))
}
