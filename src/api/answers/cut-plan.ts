import { type CutListPlan, PLANNED_STICK } from '../../laying/cutting/cut-list.ts'
import { moneyOf, placesOf } from '../../measure/money.ts'
import { type Answer, component, count, flag, length, list, money, text } from '../../plan/fields/answer.ts'
import { ASSUMPTION, type Assumption } from '../../plan/fields/assumption.ts'

export const CUT_PLAN_ANSWER = component('CutPlan', 'How to cut runs from sticks at the least cost.', {
  sticks: list(PLANNED_STICK),
  cost: money('Cost of the sticks and joiners to buy, with joiners counted singly.'),
  costLowerBound: money('No plan costs less.'),
  gap: money('The most that a better plan could save: cost − costLowerBound.'),
  currency: text('Of the costs, ISO 4217 code.'),
  provenOptimal: flag('True if no plan costs less than this one.'),
  joints: count(),
  sticksUsed: count(),
  sticksLowerBound: count('No plan takes fewer sticks.'),
  shortestPieceMm: length(
    'Length of the shortest piece, mm; below the minimum only where a run cannot be divided in any other way.',
  ),
  assumptions: list(ASSUMPTION),
})

export type CutPlan = Answer<typeof CUT_PLAN_ANSWER>

/** A cut plan as it is answered. */
export function cutPlanAnswer(plan: CutListPlan, currency: string, assumptions: Assumption[]): CutPlan {
  const places = placesOf(currency)
  const { sticks, costCents, costLowerBoundCents, provenOptimal, joints, sticksLowerBound, shortestPieceMm } = plan
  return {
    sticks,
    cost: moneyOf(costCents, places),
    costLowerBound: moneyOf(costLowerBoundCents, places),
    gap: moneyOf(costCents - costLowerBoundCents, places),
    currency,
    provenOptimal,
    joints,
    sticksUsed: sticks.length,
    sticksLowerBound,
    shortestPieceMm,
    assumptions,
  }
}
