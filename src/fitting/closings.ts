import { toDegrees, toRadians } from '../measure/angle.ts'
import { closureCure } from '../track/closure.ts'
import type { PlacedElement, Pose } from '../track/types.ts'
import type { Change } from './change.ts'
import { type Closing, loopOf, type Tolerances } from './loop.ts'
import { repeatedSlips } from './repeated-slips.ts'
import { slips } from './slips.ts'
import { trades } from './trades.ts'

/** Further ways to close a loop are not offered. */
const MOST_OFFERED = 12

/**
 * The ways to close a loop, best first: what people write wrongly comes first (one figure or one turn, then one figure
 * wherever it stands), then the fewest and smallest changes of angles and lengths. Radii stay at or above the minimum,
 * and every element keeps some length. Empty for a loop that closes, and for one that cannot be closed in these ways.
 */
export function closings(placed: readonly PlacedElement[], tolerances: Tolerances): Closing[] {
  if (placed.length === 0) return []
  const loop = loopOf(placed, tolerances)
  const single = [...slips(loop), ...repeatedSlips(loop)]
  const found = single.length >= MOST_OFFERED ? single : [...single, ...trades(loop)]
  const best = found.toSorted((a, b) => a.cost - b.cost).slice(0, MOST_OFFERED)
  return best.length > 0 ? best : byArcsAndStraights(placed, tolerances, placed[0]!.start)
}

/** To bring the end of a track to a place: the heading on one arc or on all, then two straights. */
export function byArcsAndStraights(placed: readonly PlacedElement[], tolerances: Tolerances, target: Pose): Closing[] {
  const { shapes } = loopOf(placed, tolerances)
  const cure = closureCure(placed, toDegrees(tolerances.headingRad), target)
  if (!cure || cure.lengthChanges === null) return []
  const angles = cure.angleChanges.map(({ element, changeRad }): Change => {
    const fromRad = Math.abs(shapes[element]!.turnedRad)
    return { element, field: 'angle', fromRad, toRad: fromRad + changeRad }
  })
  const lengths = cure.lengthChanges.map(({ element, changeMm }): Change => {
    const fromMm = shapes[element]!.lengthMm
    return { element, field: 'length', fromMm, toMm: fromMm + changeMm }
  })
  return [{ changes: [...angles, ...lengths], cost: 10_000 }]
}

/** The tolerances of a plan's standards. */
export function tolerancesOf(standards: {
  readonly closureGap: number
  readonly closureHeading: number
  readonly minimumRadius: number | null
}): Tolerances {
  return {
    gapMm: standards.closureGap,
    headingRad: toRadians(standards.closureHeading),
    minimumRadiusMm: standards.minimumRadius ?? 0,
  }
}
