import { type Answer, count, length, nullable, number, object } from '../plan/fields/answer.ts'
import { bestOnOpenTrack, spacingInLongRowMm, worstOnLoopOhm } from './feeder-network.ts'

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
      'The smallest number of feeders that keeps to the allowed drop; null if more than a thousand would be needed.',
    ),
  ),
  spacingMm: nullable(length('Distance between evenly spaced feeders, mm; null if there are fewer than two.')),
  widestSpacingMm: nullable(
    length('The widest spacing of feeders that keeps to the allowed drop along a very long track, mm.'),
  ),
  endMm: nullable(length('Distance from either end of an open track to the nearest feeder, mm.')),
  worstDropV: nullable(
    number('Largest voltage drop with these feeders, wherever the train is, V. All feeders supply the train.'),
  ),
})

type FedBlock = Answer<typeof FED_BLOCK>

/** More feeders than this along one stretch are not practical. */
export const MOST_FEEDERS = 1000

/** A drop that exceeds the allowed one by no more than this share is a rounding error. */
const DROP_SLACK = 1e-9

/**
 * The smallest number of feeders for one load (a train) that draws the whole current anywhere in the block, and the
 * drop at the worst place, by the resistive network of feeder-network.ts: all feeders supply the train, on a closed
 * track both ways round. The rails and their joints have a uniform resistance r per metre of track,
 * r = railsOhmPerM + joints·R_joint/L. More feeders always help, so the number is found by doubling and halving.
 * Checked by hand and against the network solved node by node in tests/laying/power.test.ts.
 */
export function feedBlock({ lengthMm, closed, joints }: Block, supply: Supply): FedBlock {
  const { currentA, allowedDropV, railsOhmPerM, jointOhm, feederOhm } = supply
  const loopOhm = (railsOhmPerM * lengthMm) / 1000 + joints * jointOhm
  const ohmPerMm = loopOhm / lengthMm
  const farEndDropV = currentA * (feederOhm + (closed ? loopOhm / 4 : loopOhm))
  const withFeeders = (feeders: number) => {
    const row = { feeders, lengthMm, ohmPerMm, feederOhm }
    return closed ? { endMm: null, worstOhm: worstOnLoopOhm(row) } : bestOnOpenTrack(row)
  }
  const feeders = leastCount(
    (count) => currentA * withFeeders(count).worstOhm <= allowedDropV * (1 + DROP_SLACK),
    MOST_FEEDERS,
  )
  if (feeders === null)
    return { loopOhm, farEndDropV, feeders, spacingMm: null, widestSpacingMm: null, endMm: null, worstDropV: null }
  const { endMm, worstOhm } = withFeeders(feeders)
  const spacings = closed ? feeders : feeders - 1
  return {
    loopOhm,
    farEndDropV,
    feeders,
    spacingMm: feeders === 1 ? null : (lengthMm - 2 * (endMm ?? 0)) / spacings,
    widestSpacingMm: spacingInLongRowMm(allowedDropV / currentA, ohmPerMm, feederOhm),
    endMm,
    worstDropV: currentA * worstOhm,
  }
}

/** The least count up to `most` that is enough, given that more than enough is enough too; null if none is. */
function leastCount(isEnough: (count: number) => boolean, most: number): number | null {
  let high = 1
  while (!isEnough(high)) {
    if (high === most) return null
    high = Math.min(2 * high, most)
  }
  let low = Math.floor(high / 2)
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (isEnough(middle)) high = middle
    else low = middle
  }
  return high
}
