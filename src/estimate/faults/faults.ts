import type { Fault } from '../../measure/fault.ts'
import { partFaults } from '../../plan/faults/faults.ts'
import type { PlanDraft } from '../../plan/reading/draft.ts'
import { benderInputFaults, railFaults } from './rail.ts'
import { wayFaults } from './way.ts'

/** What a plan says that cannot be: contradictions between its parts, each with its place. Empty: the plan is sound. */
export function planFaults(draft: PlanDraft): Fault[] {
  return [
    ...railFaults(draft.rail, draft.bender),
    ...benderInputFaults(draft.bender),
    ...partFaults(draft),
    ...wayFaults({ ...draft, ties: draft.supplies?.ties }),
  ]
}
