import type { Need } from '../../laying/bill.ts'
import { toDegrees } from '../../measure/angle.ts'
import { formatMm } from '../../measure/length.ts'
import { percentOf } from '../../measure/money.ts'
import { LEVEL_CLEARANCE_MM } from '../../network/crossings.ts'
import type { Plan } from '../plan.ts'
import { crossingsOfPlan, deckMm } from '../track/crossings-of-plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'

/**
 * A bridge for each place where a track passes over another, unless both are there already: as long as the clear span
 * along the upper track, so that what lies on the abutments comes on top. Its price is that of its length, halves of the
 * smallest coin up. Checked by hand in tests/estimate/over-crossings.test.ts.
 */
export function bridgeNeeds(drawn: readonly LaidTrack[], plan: Plan): Need[] {
  if (isFlat(drawn)) return []
  const pricePerM = plan.supplies.bridges?.pricePerM ?? null
  return crossingsOfPlan(drawn, plan).bridges.flatMap(({ upper, lower, angleRad, span }): Need[] => {
    const [above, below] = [drawn[upper.track]!, drawn[lower.track]!]
    if (above.state !== 'new' && below.state !== 'new') return []
    const under = above === below ? 'itself' : below.name
    const lengthMm = span ? span.toMm - span.fromMm : null
    const clear = span
      ? `span ${formatMm(span.squareMm)} square, ${formatMm(lengthMm!)} along the track`
      : 'span not known: no cars, or hardly a crossing'
    const how = `with ${formatMm(deckMm(plan))} of ties and deck, at ${Math.round(toDegrees(angleRad))}°`
    return [
      {
        item: 'bridge',
        description: `Bridge over ${under}, ${clear}`,
        ...(lengthMm !== null && { lengthMm }),
        reasons: [{ text: `${formatMm(upper.atMm, 0)} from its start, ${how}`, track: above.name, quantity: 1 }],
        pack: {
          packSize: 1,
          onHand: 0,
          pricePerPack: pricePerM === null || lengthMm === null ? null : percentOf(pricePerM, lengthMm / 10),
          sparePct: 0,
          massEachG: null,
        },
      },
    ]
  })
}

/** Heights so close together need not be looked at for bridges: not even a summit between them makes the difference. */
const FLAT_MM = LEVEL_CLEARANCE_MM / 2

/** Most plans: looking for crossings takes long, and a bill may be all that is asked for. */
function isFlat(drawn: readonly LaidTrack[]): boolean {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const { profile } of drawn)
    for (const { fromElevationMm, toElevationMm } of profile) {
      low = Math.min(low, fromElevationMm, toElevationMm)
      high = Math.max(high, fromElevationMm, toElevationMm)
    }
  return high - low < FLAT_MM
}
