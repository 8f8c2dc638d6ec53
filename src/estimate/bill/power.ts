import type { Finding } from '../../checking/finding.ts'
import { dropNotKept, resistivityUnknown } from '../../checking/power.ts'
import type { Need } from '../../laying/bill.ts'
import { type Block, feedBlock } from '../../laying/power.ts'
import { awgAreaMm2, COPPER_OHM_M, ohmsPerMetre } from '../../laying/wire.ts'
import type { PowerSupply } from '../../plan/rows/ballast-power-extras.ts'
import type { FeedAnswer, PowerAnswer } from '../answer.ts'
import type { Plan } from '../plan.ts'

/** A stretch of a track that is fed separately. */
export interface TrackBlock extends Block {
  readonly track: string
  /** Stations on the centre line; on a loop the end may be beyond its length, past the start. */
  readonly fromMm: number
  readonly toMm: number
}

/** The live frogs of a track, by the names of their turnouts: each has a wire of its own. */
interface FedFrogs {
  readonly track: string
  readonly turnouts: readonly string[]
}

/** Silver, the best conductor, has 1.6e-8: a much smaller value is an empty field or an error. */
const LEAST_OHM_M = 1e-12

/**
 * Current in the rails: voltage at the far ends, feeders and their wire, and the findings.
 *
 * @param drawnW what a train draws from the rails, W
 */
export function powerOf(
  { power, metal, section }: Pick<Plan, 'power' | 'metal' | 'section'>,
  blocks: readonly TrackBlock[],
  drawnW: (train: string) => number,
  frogs: readonly FedFrogs[] = [],
): { answer: PowerAnswer | null; needs: Need[]; findings: Finding[] } {
  if (power === null || power === 'none') return { answer: null, needs: [], findings: [] }
  const { resistivityOhmM } = metal
  if (resistivityOhmM === null || resistivityOhmM < LEAST_OHM_M)
    return { answer: null, needs: [], findings: [resistivityUnknown()] }

  const { supplyVoltageV, maximumDropPct, maximumDropV, jointResistanceOhm } = power
  const currentA = power.currentA ?? drawnW(power.train!) / supplyVoltageV
  const allowedDropV = maximumDropV ?? (supplyVoltageV * maximumDropPct) / 100
  const feeder = power.feeder && { ...power.feeder, areaMm2: power.feeder.areaMm2 ?? awgAreaMm2(power.feeder.awg!) }
  const railOhmPerM = ohmsPerMetre(resistivityOhmM, section.properties.areaMm2)
  const feederOhm = feeder ? (2 * ohmsPerMetre(COPPER_OHM_M, feeder.areaMm2) * feeder.length) / 1000 : 0
  const supply = { currentA, allowedDropV, railsOhmPerM: 2 * railOhmPerM, jointOhm: jointResistanceOhm, feederOhm }
  const fed = blocks.map((block): FeedAnswer => {
    const { farEndDropV, ...rest } = feedBlock(block, supply)
    const { track, fromMm, toMm, joints } = block
    return { track, fromMm, toMm, joints, ...rest, farEndDropV, farEndV: Math.max(0, supplyVoltageV - farEndDropV) }
  })
  const short = fed.some(({ feeders }) => feeders === null)
  const total = fed.reduce((sum, { feeders }) => sum + (feeders ?? 0), 0)
  const answer: PowerAnswer = {
    currentA,
    supplyVoltageV,
    allowedDropV,
    railOhmPerM,
    jointResistanceOhm,
    feeder: feeder && {
      areaMm2: feeder.areaMm2,
      lengthMm: feeder.length,
      resistanceOhm: feederOhm,
      dropV: currentA * feederOhm,
    },
    blocks: fed,
    feeders: short ? null : total,
    wireMm: feeder && !short ? 2 * feeder.length * total : null,
  }
  return {
    answer,
    needs: feeder && !short ? [wireNeed(feeder, fed, frogs)] : [],
    findings: short ? [dropNotKept(currentA * feederOhm, allowedDropV)] : [],
  }
}

/** Single wire, there and back, by the metre. */
function wireNeed(
  feeder: NonNullable<PowerSupply['feeder']>,
  fed: readonly FeedAnswer[],
  frogs: readonly FedFrogs[],
): Need {
  const { awg, areaMm2, length: lengthMm, pricePerM, onHand: onHandMm, sparePct } = feeder
  const metresEach = (2 * lengthMm) / 1000
  return {
    item: 'feeder-wire',
    description: `Feeder wire, copper, ${awg === null ? `${areaMm2} mm²` : `AWG ${awg}`}`,
    unit: 'm',
    reasons: [
      ...fed.map(({ track, feeders }) => ({
        text: `${feeders} ${feeders === 1 ? 'feeder' : 'feeders'} of ${metresEach.toFixed(2)} m, there and back`,
        track,
        quantity: feeders! * metresEach,
      })),
      ...frogs.map(({ track, turnouts }) => ({
        text: `a single wire of ${(lengthMm / 1000).toFixed(2)} m to the live frog of ${turnouts.join(', ')}`,
        track,
        quantity: (turnouts.length * lengthMm) / 1000,
      })),
    ],
    pack: { packSize: 1, pricePerPack: pricePerM, onHand: onHandMm / 1000, sparePct, massEachG: null },
  }
}
