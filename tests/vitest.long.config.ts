import { defineConfig } from 'vitest/config'
import { shared } from './vitest.shared.ts'

/** Plans at random against independent checks: tests that count by `cases`, with all of them, and those too long for `npm test`. */
const manyCases = [
  'tests/**/*.long.test.ts',
  'tests/api/mutated-plans.test.ts',
  'tests/laying/cutting/checked-estimates.test.ts',
  'tests/laying/cutting/cut-list.test.ts',
  'tests/laying/cutting/cut-plan.test.ts',
  'tests/laying/cutting/exhaustive.test.ts',
]

export default defineConfig({ test: { ...shared, isolate: false, include: manyCases, env: { LONG_RUN: 'true' } } })
