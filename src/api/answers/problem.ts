import {
  type Answer,
  component,
  count,
  either,
  type Fixed,
  list,
  nullable,
  optional,
  text,
  word,
} from '../../plan/fields/answer.ts'
import { FAULTS, type FaultCode } from '../fault-catalogue.ts'

const FAULT_FIELDS = {
  code: word(Object.keys(FAULTS) as FaultCode[], { extensible: true }),
  detail: text('What was found, and what was expected.'),
  hint: optional(text('What to do about it.')),
}

const FAULT_IN_BODY = component('FaultInBody', 'A fault in the body.', {
  pointer: text({
    format: 'json-pointer',
    says: 'The place in the body, a JSON Pointer (RFC 6901); "" is the whole body. In a table: row and column, counted from 0.',
  }),
  ...FAULT_FIELDS,
  row: optional(count({ least: 1, says: 'Only if a table was sent: the row, counted from 1.' })),
  column: optional(nullable(text('Only if a table was sent: the column, A, B, …; null for the whole row.'))),
  sheet: optional(text('Only if a workbook was sent: the name of the sheet that was read.')),
})

const FAULT_IN_PARAMETER = component('FaultInParameter', 'A fault in a query parameter or a header.', {
  parameter: text('The name of a query parameter or a header.'),
  ...FAULT_FIELDS,
})

export const PROBLEM = component('Problem', 'What went wrong (RFC 9457), with every fault of the request.', {
  type: text({ format: 'uri-reference', says: 'Where this kind of problem is explained.' }),
  title: text(),
  status: count({ least: undefined }),
  detail: text(),
  instance: text('The id of the request, also in X-Request-Id and in the log.'),
  errors: list(either(FAULT_IN_BODY, FAULT_IN_PARAMETER)),
})

export type Problem = Fixed<Answer<typeof PROBLEM>>
