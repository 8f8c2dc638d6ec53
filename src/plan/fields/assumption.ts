import { type Answer, component, text } from './answer.ts'

export const ASSUMPTION = component('Assumption', 'A default that was used, and why.', {
  field: text('What the default stands for, as a JSON Pointer.'),
  value: text('As people write it.'),
  reason: text(),
})

export type Assumption = Answer<typeof ASSUMPTION>
