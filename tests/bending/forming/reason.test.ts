import { expect, it } from 'vitest'
import { reasonInWords } from '../../../src/bending/forming/reason.ts'
import type { MethodAdvice } from '../../../src/bending/method.ts'
import { USUAL_LIMITS } from '../rails.ts'

const advice = (reason: MethodAdvice['reason']): MethodAdvice => ({
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
  ['assembled', 'Assembled track, with both rails and its ties'],
  ['hand-force', 'It takes 123 N from each hand with the hands 300 mm apart; up to 100 N'],
  ['overbend', 'The overbend ratio is 2.35; by hand and eye, bends come out even up to a ratio of 2.'],
  ['joints', 'at a joint in this curve the rail would be 7.6 mm off; 2 mm is allowed.'],
  ['within-limits', 'within the limits for bending by hand'],
] as const)('%s is given with the figure that decided', (reason, said) => {
  expect(reasonInWords(advice(reason), USUAL_LIMITS)).toContain(said)
})
