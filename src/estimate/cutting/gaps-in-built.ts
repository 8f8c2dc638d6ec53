import { openPerMm } from '../../laying/gaps.ts'
import type { OpenJoint } from '../../laying/shortened-pieces.ts'
import type { TurnoutType } from '../../plan/rows/turnouts.ts'
import type { TurnoutRail } from '../../track/turnout/rails.ts'
import type { Plan } from '../plan.ts'
import { layingConditions } from '../track/expansion.ts'

/** A rail of a turnout as it is laid at its temperature. */
export interface GapsOfRail {
  /** What its gaps take off it. */
  readonly offMm: { readonly start: number; readonly end: number }
  /** The gap to the rail that follows it in the turnout; null where none does, or gaps are not known. */
  readonly aheadMm: number | null
}

const NONE: GapsOfRail = { offMm: { start: 0, end: 0 }, aheadMm: null }

/**
 * The gaps between the rails of a turnout that is built by hand, by the rule of all joints: half of what each rail grows
 * until the gaps are closed lies at each of its joints, and of an insulator half on each side.
 *
 * L = (S − k)/(1 + n/2·a), gap = a/2·(L₁ + L₂) + insulator
 *
 * S a rail from joint to joint, k what insulators take off it, n how many joints it has within the turnout, a what rail
 * grows per millimetre (`openPerMm`). At the ends of the turnout the track beside it leaves the gap (`gapsIn`). Clamped rail
 * has no gaps but insulators. Checked by hand in tests/estimate/gaps-in-built.test.ts.
 *
 * @param rails of one turnout, in their order
 */
export function gapsInBuilt(
  rails: readonly Pick<TurnoutRail, 'parts' | 'lengthMm'>[],
  type: Pick<TurnoutType, 'frog'>,
  plan: Pick<Plan, 'climate' | 'joints' | 'metal' | 'power'>,
): GapsOfRail[] {
  const weather = layingConditions(plan)
  if (!weather) return rails.map(() => NONE)
  const perMm = weather.joints === 'sliding' && !weather.held ? openPerMm(weather) : 0
  const isLive = type.frog === 'live' && plan.power !== null && plan.power !== 'none'
  const keptMm = (index: number) =>
    isLive && rails[index]?.parts.at(-1) === 'closure-rail' ? weather.insulatorThicknessMm : 0
  const joints = (index: number) => Number(isJoinedBehind(rails, index)) + Number(isJoinedAhead(rails[index]!))
  const laidMm = rails.map(
    ({ lengthMm }, index) => (lengthMm - (keptMm(index - 1) + keptMm(index)) / 2) / (1 + (joints(index) / 2) * perMm),
  )
  const off = (index: number, kept: number) => kept / 2 + (perMm / 2) * laidMm[index]!
  return rails.map((rail, index) => {
    const ahead = isJoinedAhead(rail)
    return {
      offMm: {
        start: isJoinedBehind(rails, index) ? off(index, keptMm(index - 1)) : 0,
        end: ahead ? off(index, keptMm(index)) : 0,
      },
      aheadMm: ahead ? off(index, keptMm(index)) + off(index + 1, keptMm(index)) : null,
    }
  })
}

/**
 * Whether another rail of the turnout begins where a rail ends: at the heel of the switch, and where the wing rail begins
 * at the toe of the frog. Each such place takes a joiner: common practice, no source.
 */
export function isJoinedAhead({ parts }: Pick<TurnoutRail, 'parts'>): boolean {
  return parts.at(-1) === 'switch-rail' || parts.at(-1) === 'closure-rail'
}

function isJoinedBehind(rails: readonly Pick<TurnoutRail, 'parts'>[], index: number): boolean {
  return index > 0 && isJoinedAhead(rails[index - 1]!)
}

/** The same as joints of a rail of the cut plan. */
export function openJointsOf({ offMm }: GapsOfRail, rail: number, lengthMm: number): OpenJoint[] {
  const of = { track: rail >> 1, rail: rail % 2 === 0 ? 'left' : 'right' } as const
  return [
    ...(offMm.start > 0 ? [{ ...of, atMm: 0, offMm: { before: 0, after: offMm.start } }] : []),
    ...(offMm.end > 0 ? [{ ...of, atMm: lengthMm, offMm: { before: offMm.end, after: 0 } }] : []),
  ]
}
