import { nullable, number, text, word } from './fields/answer.ts'

export const SEVERITIES = ['stop', 'warn', 'note'] as const

/** What every finding says, of a plan or of readings: what was measured, what the limit is, and how to cure it. */
export const FINDING_FIELDS = {
  rule: text({ says: 'The rule, as listed at /docs/problems.', title: 'Rule', vocabulary: 'rules' }),
  severity: word(SEVERITIES, {
    says: 'stop: cannot be built as drawn; warn: can be built, but breaks a rule; note: worth knowing.',
    title: 'How grave',
  }),
  message: text({ title: 'What is the matter' }),
  measured: nullable(number({ title: 'Measured' })),
  limit: nullable(number({ title: 'Limit' })),
  unit: nullable(text({ title: 'Unit' })),
  cure: text({ title: 'What helps' }),
}
