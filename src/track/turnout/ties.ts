import { wholePiecesIn } from '../../measure/counting.ts'
import { poseAlong } from '../clothoid.ts'
import type { Pose } from '../types.ts'
import type { Leg, TurnoutGeometry } from './types.ts'

export interface TurnoutTie {
  /** Along either leg from the points. */
  readonly atMm: number
  readonly lengthMm: number
}

/**
 * Length of a plain tie, in gauges: 8 ft 6 in on 4 ft 8½ in (US Army TI 850-02) is 1.81, 82 mm on 45 mm (NEM 122) 1.82.
 */
const TIE_LENGTH_GAUGES = 1.82

export function plainTieMm(gaugeMm: number): number {
  return TIE_LENGTH_GAUGES * gaugeMm
}

/**
 * The ties of a turnout, each under both legs: as long as a tie of plain track and the distance of the centre lines where
 * it lies. Their middle is midway between the two centre lines. Beyond where each leg has room for ties of its own, which
 * is one tie's length apart, the list ends.
 *
 * l(s) = l₀ + |P(s) − Q(s)|, s from the points along each leg, P and Q the places on the two centre lines
 *
 * Source: common practice. Checked in tests/track/turnout/ties.test.ts.
 */
export function turnoutTies({ legs }: TurnoutGeometry, spacingMm: number, tieLengthMm: number): TurnoutTie[] {
  const reachMm = Math.min(legs.through.lengthMm, legs.diverging.lengthMm)
  const ties: TurnoutTie[] = []
  for (let index = 0; index <= wholePiecesIn(reachMm, spacingMm); index++) {
    const atMm = index * spacingMm
    const [through, diverging] = [poseOnLeg(legs.through, atMm), poseOnLeg(legs.diverging, atMm)]
    const apartMm = Math.hypot(diverging.xMm - through.xMm, diverging.yMm - through.yMm)
    if (apartMm > tieLengthMm) break
    ties.push({ atMm, lengthMm: tieLengthMm + apartMm })
  }
  return ties
}

/** The place on a leg at a distance from the points. */
export function poseOnLeg({ pieces, end }: Leg, atMm: number): Pose {
  let fromMm = 0
  for (const { lengthMm, startCurvature, endCurvature, start } of pieces) {
    if (atMm <= fromMm + lengthMm)
      return poseAlong(start, startCurvature, endCurvature, lengthMm, Math.max(0, atMm - fromMm))
    fromMm += lengthMm
  }
  return end
}
