import { type Answer, nullable, number, object, word } from '../plan/fields/answer.ts'
import type { MethodLimits } from '../plan/rows/bender.ts'

export interface MethodCase {
  readonly work: 'loose-rail' | 'assembled'
  readonly wantedRadiusMm: number
  readonly overbendRatio: number
  /** Moment under load. */
  readonly momentNmm: number
  /** Joints of this rail that lie in the curve. */
  readonly jointsInBend: number
}

const WEIGHED = ['assembled', 'hand-force', 'overbend', 'joints'] as const
export const METHODS = ['hand', 'machine'] as const
export const METHOD_REASONS = [...WEIGHED, 'within-limits'] as const

type Method = (typeof METHODS)[number]
type MethodReason = (typeof METHOD_REASONS)[number]

export const METHOD_CHECK = object({
  reason: word(WEIGHED),
  value: nullable(number('In the unit of its limit: N, a ratio or mm; null where the check has no figure.')),
  limit: nullable(number()),
  favours: word(METHODS),
})

type MethodCheck = Answer<typeof METHOD_CHECK>

export interface MethodAdvice {
  readonly method: Method
  /** The first check that asks for a machine, in the order of `checks`. */
  readonly reason: MethodReason
  readonly checks: readonly MethodCheck[]
}

/**
 * By hand or by machine, and the reason that decides, in this order:
 *
 * - assembled track: bending both rails and their ties at once needs a machine;
 * - hand force: a hand at each end of the grip makes the moment M with F = M/grip;
 * - overbend: wanted over forming radius; the more springback, the more uneven bending by hand shows;
 * - joints in the curve: hands hold half a grip at each end of a stick, which stays straight; two such ends make a flat
 *   of one grip, over which the curve should stand off grip²/(8R).
 *
 * Force alone rarely decides: one rail at 2438 mm takes 8–26 N over 300 mm in every metal (derived;
 * tests/published/bending-table.test.ts). Checked in tests/bending/method.test.ts.
 */
export function adviseMethod(bend: MethodCase, limits: MethodLimits): MethodAdvice {
  const checks: MethodCheck[] = [
    { reason: 'assembled', value: null, limit: null, favours: bend.work === 'assembled' ? 'machine' : 'hand' },
    check('hand-force', handForceN(bend.momentNmm, limits.grip), limits.handForceN),
    check('overbend', bend.overbendRatio, limits.overbendRatio),
    check('joints', bend.jointsInBend > 0 ? jointFlatMm(bend.wantedRadiusMm, limits.grip) : 0, limits.jointFlat),
  ]
  const decisive = checks.find(({ favours }) => favours === 'machine')
  return { method: decisive ? 'machine' : 'hand', reason: decisive?.reason ?? 'within-limits', checks }
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

function check(reason: MethodCheck['reason'], value: number, limit: number): MethodCheck {
  return { reason, value, limit, favours: value > limit ? 'machine' : 'hand' }
}
