import { expect, it } from 'vitest'
import { reasonInWords } from '../../../src/bending/forming/reason.ts'
import { DEFAULT_METHOD_LIMITS, type MethodAdvice, type MethodReason } from '../../../src/bending/method.ts'

const advice = (reason: MethodReason): MethodAdvice => ({
  method: 'machine',
  reason,
  checks: [
    { reason: 'assembled', value: null, limit: null, favours: 'machine' },
    { reason: 'hand-force', value: 123.4, limit: 100, favours: 'machine' },
    { reason: 'overbend', value: 2.345, limit: 2, favours: 'machine' },
    { reason: 'joints', value: 7.56, limit: 2, favours: 'machine' },
  ],
})

it.each([
  ['assembled', 'Assembled track is bent with both rails'],
  ['hand-force', 'It takes 123 N of each hand over a grip of 300 mm; 100 N are comfortable.'],
  ['overbend', 'It must be bent 2.35 times as tight as it shall stay; by hand and eye up to 2 times'],
  ['joints', 'at a joint in this curve the rail would stand 7.6 mm off; 2 mm are allowed.'],
  ['within-limits', 'within what hands do evenly'],
] as const)('%s is told with the figure that decided', (reason, said) => {
  expect(reasonInWords(advice(reason), DEFAULT_METHOD_LIMITS)).toContain(said)
})
