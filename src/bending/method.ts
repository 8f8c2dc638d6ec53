import { type Answer, nullable, number, object, word } from '../plan/fields/answer.ts'
import type { MethodLimits } from '../plan/rows/bender.ts'
import { setEndsForceN } from './spring-in.ts'

export interface MethodCase {
  readonly work: 'loose-rail' | 'assembled'
  readonly wantedRadiusMm: number
  readonly tieSpacingMm: number
  /** Joints of this rail that lie in the curve. */
  readonly jointsInBend: number
  /** Sprung in: the moment the ties hold, and the share of the curvature that sets. */
  readonly springMomentNmm: number
  readonly setShare: number
  /** Bent: overbend ratio, moment under load, and the moment that bending by hand leaves to the ties. */
  readonly overbendRatio: number
  readonly momentNmm: number
  readonly leftToTiesNmm: number
}

/** From the least work to the most. */
export const METHODS = ['spring-in', 'hand', 'machine'] as const
/** Each for springing in. */
const SPRING_REASONS = ['set-share', 'tie-force', 'joint-force', 'spring-force'] as const
/** Each for bending by hand. */
const HAND_REASONS = ['assembled', 'hand-force', 'joints', 'overbend', 'left-to-ties'] as const
const WEIGHED = [...SPRING_REASONS, ...HAND_REASONS] as const
export const METHOD_REASONS = [...HAND_REASONS, 'within-limits', 'springs-in'] as const

type Method = (typeof METHODS)[number]
type MethodReason = (typeof METHOD_REASONS)[number]

export const METHOD_CHECK = object({
  reason: word(
    WEIGHED,
    'Whether the rail can be sprung in: set-share, tie-force, joint-force, spring-force. Otherwise whether it can be bent by hand: the others.',
  ),
  value: nullable(number('In the unit of its limit: N, a ratio, a share or mm; null where the check has no figure.')),
  limit: nullable(number()),
  favours: word(METHODS, 'The least work that this check alone allows.'),
})

type MethodCheck = Answer<typeof METHOD_CHECK>

export interface MethodAdvice {
  readonly method: Method
  /** The first check that asks for a machine, in the order of `checks`; otherwise that all are within their limits. */
  readonly reason: MethodReason
  readonly checks: readonly MethodCheck[]
}

/**
 * Sprung in, by hand or by machine: the first of these whose checks are all within their limits. No check turns against
 * a larger radius, so a gentler curve never needs more than a tighter one.
 *
 * Springing in, loose or assembled track:
 * - set share: what the rail keeps of the curvature; beyond the limit it is bent rather than sprung;
 * - tie force: the couple at the ends over the tie spacing, M/s;
 * - joint force, where joints lie in the curve: the same with set ends (see `springIn`);
 * - spring force: a hand at each end of the grip holds M with F = M/grip.
 *
 * Bending by hand:
 * - assembled track: bending both rails and their ties at once needs a machine;
 * - hand force: F = M/grip with the moment under load;
 * - joints in the curve: hands hold half a grip at each end of a stick, which stays straight. Two such ends make a flat
 *   of one grip, over which the curve should stand off grip²/(8R), or the ties must pull the ends in with M/s;
 * - overbend: wanted over forming radius. The more springback, the more uneven bending by hand shows; but what is
 *   missed may be left to the ties, so it counts only together with
 * - left to ties: what even bending leaves to them, over the tie spacing (see `leftToTies`).
 *
 * That half-hard brass of code 332 springs in at 8 to 10 ft, that stainless kinks there at its joints unless a machine
 * bends it, and that soft brass is bent by hand at 4 to 5 ft is common practice, no source; the usual limits are chosen
 * to say so (tests/bending/common-practice.test.ts). Force of hands rarely decides: one rail at 2438 mm takes 8–26 N over
 * 300 mm in every metal (derived; tests/published/bending-table.test.ts). Checked in tests/bending/method.test.ts.
 */
export function adviseMethod(bend: MethodCase, limits: MethodLimits): MethodAdvice {
  const spring = springChecks(bend, limits)
  const checks = [...spring, ...handChecks(bend, limits)]
  if (spring.every(({ favours }) => favours === 'spring-in'))
    return { method: 'spring-in', reason: 'springs-in', checks }
  const decisive = HAND_REASONS.find((id) =>
    checks.some(({ reason, favours }) => reason === id && favours === 'machine'),
  )
  return { method: decisive ? 'machine' : 'hand', reason: decisive ?? 'within-limits', checks }
}

function springChecks({ tieSpacingMm, jointsInBend, ...bend }: MethodCase, limits: MethodLimits): MethodCheck[] {
  const { springMomentNmm: moment, setShare } = bend
  const jointForceN = jointsInBend > 0 ? setEndsForceN(moment, tieSpacingMm) : 0
  const check = (reason: MethodCheck['reason'], value: number, limit: number): MethodCheck => ({
    reason,
    value,
    limit,
    favours: value > limit ? 'hand' : 'spring-in',
  })
  return [
    check('set-share', setShare, limits.setShare),
    check('tie-force', moment / tieSpacingMm, limits.tieForceN),
    check('joint-force', jointForceN, limits.jointForceN),
    check('spring-force', handForceN(moment, limits.grip), limits.handForceN),
  ]
}

function handChecks(bend: MethodCase, limits: MethodLimits): MethodCheck[] {
  const check = (
    reason: MethodCheck['reason'],
    value: number | null,
    limit: number | null,
    needsMachine: boolean,
  ): MethodCheck => ({ reason, value, limit, favours: needsMachine ? 'machine' : 'hand' })
  const forceN = handForceN(bend.momentNmm, limits.grip)
  const flatMm = bend.jointsInBend > 0 ? jointFlatMm(bend.wantedRadiusMm, limits.grip) : 0
  const pullsIn = bend.springMomentNmm / bend.tieSpacingMm <= limits.tieForceN
  const leftN = bend.leftToTiesNmm / bend.tieSpacingMm
  const leavesTooMuch = leftN > limits.tieForceN
  const { overbendRatio } = bend
  return [
    check('assembled', null, null, bend.work === 'assembled'),
    check('hand-force', forceN, limits.handForceN, forceN > limits.handForceN),
    check('joints', flatMm, limits.jointFlat, flatMm > limits.jointFlat && !pullsIn),
    check('overbend', overbendRatio, limits.overbendRatio, overbendRatio > limits.overbendRatio && leavesTooMuch),
    check('left-to-ties', leftN, limits.tieForceN, leavesTooMuch),
  ]
}

/** Force of each hand that produces a moment over a grip, N. */
export function handForceN(momentNmm: number, gripMm: number): number {
  return momentNmm / gripMm
}

/**
 * Ordinate of a curve over a flat, C²/(8R): the parabola's, within 2 % of the arc's while the flat is under half of R.
 */
export function jointFlatMm(radiusMm: number, flatMm: number): number {
  return (flatMm * flatMm) / (8 * radiusMm)
}
