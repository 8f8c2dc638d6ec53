import { inUnits } from '../measure/in-units.ts'
import type { Assumption } from '../plan/fields/assumption.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { Bend, Estimate } from './answer.ts'

/**
 * An estimate with its sentences in the units of its plan: findings, cures, assumptions and reasons. Numbers have the unit
 * their field says, and a line of the bill keeps its description, which is the name it is known by.
 */
export function inUnitsOfPlan(estimate: Estimate, { units }: Pick<PlanInput, 'units'>): Estimate {
  if (units === undefined) return estimate
  const words = (text: string) => inUnits(text, units)
  return {
    ...estimate,
    bends: estimate.bends.map(
      ({ forming, ...bend }): Bend => ({
        ...bend,
        forming: { ...forming, reason: words(forming.reason) },
      }),
    ),
    readyMade: estimate.readyMade && {
      ...estimate.readyMade,
      loose: estimate.readyMade.loose.map((each) => ({ ...each, reason: words(each.reason) })),
    },
    bill: {
      ...estimate.bill,
      lines: estimate.bill.lines.map((line) => ({
        ...line,
        reasons: line.reasons.map((reason) => ({ ...reason, text: words(reason.text) })),
      })),
    },
    findings: estimate.findings.map((finding) => ({
      ...finding,
      message: words(finding.message),
      cure: words(finding.cure),
    })),
    assumptions: assumptionsIn(estimate.assumptions, { units }),
    cautions: estimate.cautions.map(words),
  }
}

export function assumptionsIn(assumptions: readonly Assumption[], { units }: Pick<PlanInput, 'units'>): Assumption[] {
  return assumptions.map((assumption) => ({
    ...assumption,
    value: inUnits(assumption.value, units),
    reason: inUnits(assumption.reason, units),
  }))
}
