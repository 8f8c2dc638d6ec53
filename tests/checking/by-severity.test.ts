import { expect, test } from 'vitest'
import { bySeverity } from '../../src/checking/by-severity.ts'
import type { Finding } from '../../src/checking/finding.ts'

test('findings come the gravest first, otherwise as they are met', () => {
  const of = (severity: Finding['severity'], element: number): Finding => ({
    rule: 'closure',
    severity,
    track: 'main',
    element,
    message: '',
    measured: null,
    limit: null,
    unit: null,
    cure: '',
  })
  const list = (['note', 'stop', 'warn', 'stop'] as const).map(of)
  expect(bySeverity(list).map(({ element }) => element)).toEqual([1, 3, 2, 0])
  expect(list.map(({ element }) => element)).toEqual([0, 1, 2, 3])
})
