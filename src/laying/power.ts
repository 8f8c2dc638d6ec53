import { roundedUp } from '../measure/counting.ts'
import { type Answer, count, length, nullable, number, object } from '../plan/fields/answer.ts'

/** A stretch of track that is fed separately, both rails. */
export interface Block {
  readonly lengthMm: number
  readonly closed: boolean
  /** Joints in both its rails together. */
  readonly joints: number
}

/** What a block draws and the resistances on the way. Resistances are for both directions. */
export interface Supply {
  readonly currentA: number
  readonly allowedDropV: number
  /** Of both rails, per metre of track, without joints. */
  readonly railsOhmPerM: number
  readonly jointOhm: number
  readonly feederOhm: number
}

export const FED_BLOCK = object({
  loopOhm: number('Resistance of both rails from end to end, or once round a loop, including joints, Ω.'),
  farEndDropV: number(
    'Voltage drop with one feeder at the start and the train at the far end, or half-way round a closed track, V.',
  ),
  feeders: nullable(
    count(
      'The smallest number of feeders that keeps to the allowed drop; null if the drop in the feeder alone is too large, or more than a thousand would be needed.',
    ),
  ),
  spacingMm: nullable(length('Distance between evenly spaced feeders, mm; null if there are fewer than two.')),
  widestSpacingMm: nullable(
    length('The widest spacing S of feeders, mm: I·(F/2 + r·S/4) = allowed drop, with the train half-way between two.'),
  ),
  endMm: nullable(length('Distance from either end of an open track to the nearest feeder, mm.')),
  worstDropV: nullable(number('Largest voltage drop with these feeders, wherever the train is, V.')),
})

type FedBlock = Answer<typeof FED_BLOCK>

/** More feeders than this along one stretch are not practical. */
export const MOST_FEEDERS = 1000

/**
 * Feeders for one load (a train) that draws the whole current anywhere in the block; the rails and their joints have a
 * uniform resistance r per metre of track, r = railsOhmPerM + joints·R_joint/L. Two neighbouring feeders share the load
 * between them; others are ignored, as they only help. With F a feeder's own resistance:
 *
 * - between two feeders S apart it is worst half-way:  ΔV = I·(F/2 + r·S/4)
 * - beyond the last feeder, e from it, at the open end: ΔV = I·(F + r·e)
 * - one feeder on a closed track: worst half-way round: ΔV = I·(F + r·L/4)
 *
 * so S = 4·(ΔV/I − F/2)/r and e = (ΔV/I − F)/r; an open track of L takes 1 + ⌈(L − 2e)/S⌉ feeders, a closed one 1 or
 * ⌈L/S⌉. They are then spread with S, and e or less at the ends. Closed form; tests/laying/power.test.ts compares it
 * with the network solved node by node.
 */
export function feedBlock({ lengthMm, closed, joints }: Block, supply: Supply): FedBlock {
  const { currentA, allowedDropV, railsOhmPerM, jointOhm, feederOhm } = supply
  const loopOhm = (railsOhmPerM * lengthMm) / 1000 + joints * jointOhm
  const ohmPerMm = loopOhm / lengthMm
  const farEndDropV = currentA * (feederOhm + (closed ? loopOhm / 4 : loopOhm))
  const none = {
    loopOhm,
    farEndDropV,
    feeders: null,
    spacingMm: null,
    widestSpacingMm: null,
    endMm: null,
    worstDropV: null,
  }

  const reachMm = (allowedDropV / currentA - feederOhm) / ohmPerMm
  if (!(reachMm > 0)) return none
  const widestSpacingMm = (4 * (allowedDropV / currentA - feederOhm / 2)) / ohmPerMm
  const between = (apartMm: number) => currentA * (feederOhm / 2 + (ohmPerMm * apartMm) / 4)

  if (closed) {
    const one = roundedUp(lengthMm / (4 * reachMm)) <= 1
    const feeders = one ? 1 : Math.max(2, roundedUp(lengthMm / widestSpacingMm))
    if (feeders > MOST_FEEDERS) return none
    const spacingMm = one ? null : lengthMm / feeders
    const worstDropV = spacingMm === null ? farEndDropV : between(spacingMm)
    return { loopOhm, farEndDropV, feeders, spacingMm, widestSpacingMm, endMm: null, worstDropV }
  }
  const feeders = 1 + Math.max(0, roundedUp((lengthMm - 2 * reachMm) / widestSpacingMm))
  if (feeders > MOST_FEEDERS) return none
  const endMm = feeders === 1 ? lengthMm / 2 : endOf(lengthMm, feeders, reachMm, widestSpacingMm)
  const spacingMm = feeders === 1 ? null : (lengthMm - 2 * endMm) / (feeders - 1)
  const atEnd = currentA * (feederOhm + ohmPerMm * endMm)
  const worstDropV = Math.max(atEnd, spacingMm === null ? 0 : between(spacingMm))
  return { loopOhm, farEndDropV, feeders, spacingMm, widestSpacingMm, endMm, worstDropV }
}

/** Ends and spacings reduced in proportion from their maximum to the actual length. */
function endOf(lengthMm: number, feeders: number, reachMm: number, widestSpacingMm: number): number {
  return (reachMm * lengthMm) / (2 * reachMm + (feeders - 1) * widestSpacingMm)
}
