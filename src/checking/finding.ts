import { type Answer, component, nullable, text } from '../plan/fields/answer.ts'
import { FINDING_FIELDS, type SEVERITIES } from '../plan/finding.ts'
import { ELEMENT_NUMBER } from '../track/types.ts'

export type Severity = (typeof SEVERITIES)[number]

export const FINDING = component('Finding', 'Something a reader of the plan should know.', {
  ...FINDING_FIELDS,
  track: nullable(text({ says: 'Null: the whole plan.', title: 'Track' })),
  element: nullable(ELEMENT_NUMBER, 'Null: the whole track.'),
})

export type Finding = Answer<typeof FINDING>
