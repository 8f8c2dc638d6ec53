import type { Finding } from '../../estimate/answer.ts'
import { type ColumnOf, elementNumber, number, text } from '../table.ts'

/** What is measured stands in its own unit, whatever lengths are asked in. */
export const FINDING_COLUMNS: readonly ColumnOf<Finding>[] = [
  text('rule', 'Rule', ({ rule }) => rule),
  text('severity', 'How grave', ({ severity }) => severity),
  text('track', 'Track', ({ track }) => track),
  elementNumber(({ element }) => element),
  text('message', 'What is the matter', ({ message }) => message),
  number('measured', 'Measured', ({ measured }) => measured),
  number('limit', 'Limit', ({ limit }) => limit),
  text('unit', 'Unit', ({ unit }) => unit),
  text('cure', 'What helps', ({ cure }) => cure),
]
