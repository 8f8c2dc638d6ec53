import type { Estimate } from '../../src/estimate/answer.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { planFaults } from '../../src/estimate/faults/faults.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { ElementInput, TrackInput, Turn } from '../../src/plan/rows/track.ts'

/** Short ways to write plans in tests; angles in degrees. */
export const straight = (lengthMm: number): ElementInput => ({ kind: 'tangent', length: lengthMm })
export const easement = (lengthMm: number): ElementInput => ({ kind: 'easement', length: lengthMm })
export const arc = (radiusMm: number, angleDeg: number, turn: Turn = 'left'): ElementInput => ({
  kind: 'arc',
  radius: radiusMm,
  angle: angleDeg,
  turn,
})

export const BRASS_250 = { section: '250', material: 'brass', temper: 'half-hard' } as const

/** Any straight between reverse curves is enough, so that no finding says that it was not checked. */
const STANDARDS = { minimumTangentBetweenReverseCurves: 0 } as const

export function planOf(
  elements: ElementInput[],
  track: Partial<TrackInput> = {},
  plan: Partial<PlanInput> = {},
): PlanInput {
  return { rail: BRASS_250, standards: STANDARDS, tracks: [{ name: 'main', ...track, elements }], ...plan }
}

/** A plan that must be sound, as the program reads it once it is sent. */
export function asRead(sent: PlanInput): PlanInput {
  const read = readPlan(sent)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

/** The estimate of a plan that must be sound. */
export function estimateOf(plan: PlanInput): Estimate {
  const faults = planFaults(plan)
  if (faults.length > 0) throw new Error(JSON.stringify(faults))
  const result = estimate(plan)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.estimate
}
