import type { Bender } from '../bending/forming/types.ts'
import { completePlan } from '../plan/completing/plan.ts'
import type { Assumption } from '../plan/fields/complete.ts'
import type { PlanInput, WholePlan } from '../plan/rows/plan.ts'
import { benderOf } from './bender.ts'
import { metalOf, type PlanMetal, type PlanSection, sectionOf } from './rail.ts'

/** A completed plan, with the properties of its rail and its bender. */
export interface Plan extends Omit<WholePlan, 'bender'> {
  readonly section: PlanSection
  readonly metal: PlanMetal
  readonly bender: Bender
}

/** @param input a plan without faults (see reading.ts) */
export function preparePlan(input: PlanInput): { plan: Plan; assumptions: Assumption[] } {
  const { plan, assumptions } = completePlan(input)
  const { rail, bender } = plan
  return {
    plan: { ...plan, section: sectionOf(rail.section), metal: metalOf(rail), bender: benderOf(bender) },
    assumptions,
  }
}
