import { type Answer, component, text } from './answer.ts'

export const ASSUMPTION = component('Assumption', 'A value that was assumed because a field was left out, and why.', {
  field: text('The field that was left out, a JSON Pointer.'),
  value: text('The value that was used, as text with its unit.'),
  reason: text(),
})

export type Assumption = Answer<typeof ASSUMPTION>
