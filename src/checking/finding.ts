import { REMEDIES } from '../fitting/json-patch.ts'
import { type Answer, component, extended, nullable, text } from '../plan/fields/answer.ts'
import { FINDING_FIELDS, type SEVERITIES } from '../plan/finding.ts'
import { ELEMENT_NUMBER } from '../track/types.ts'

export type Severity = (typeof SEVERITIES)[number]

export const FINDING = component('Finding', 'A note or warning about the plan.', {
  ...FINDING_FIELDS,
  track: nullable(text({ says: 'The track it concerns; null: the whole plan.', title: 'Track' })),
  element: nullable(ELEMENT_NUMBER, 'The element it concerns, counted from 0; null: the whole track.'),
})

export type Finding = Answer<typeof FINDING>

/** A finding of an estimate, with what cures it. */
export const PLAN_FINDING = extended(
  FINDING,
  'PlanFinding',
  'A note or warning about the plan, and what cures it.',
  REMEDIES,
)

export type PlanFinding = Answer<typeof PLAN_FINDING>

export function withoutRemedies(findings: readonly PlanFinding[]): Finding[] {
  return findings.map(({ remedy: _, otherRemedies: __, ...finding }) => finding)
}
