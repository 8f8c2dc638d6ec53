import type { Fault } from '../../measure/fault.ts'
import { partFaults } from '../../plan/faults/faults.ts'
import { pegFaults } from '../../plan/faults/pegs.ts'
import type { PlanDraft } from '../../plan/reading/draft.ts'
import { pegPlaceFaults } from '../pegs/placed-pegs.ts'
import { ballastAndPowerFaults } from './ballast-and-power.ts'
import { benderInputFaults, railFaults } from './rail.ts'
import { turnoutSizeFaults } from './turnouts.ts'

/** Contradictions between the parts of a plan, each with its place. Empty: the plan is sound. */
export function planFaults(draft: PlanDraft): Fault[] {
  return [
    ...railFaults(draft.rail, draft.bender),
    ...benderInputFaults(draft.bender),
    ...partFaults(draft),
    ...turnoutSizeFaults(draft),
    ...pegsOf(draft),
    ...ballastAndPowerFaults({ ...draft, ties: draft.supplies?.ties }),
  ]
}

/** Where pegs are is worked out once they are named rightly. */
function pegsOf(draft: PlanDraft): Fault[] {
  const faults = pegFaults(draft)
  return faults.length > 0 ? faults : pegPlaceFaults(draft)
}
