import { defineConfig } from 'vitest/config'
import { shared } from '../vitest.shared.ts'

/** The tests that mutants have to survive: those of the folders named by MUTANTS_TESTS. */
const folders = (process.env.MUTANTS_TESTS ?? '').split(',')

export default defineConfig({
  test: {
    ...shared,
    root: process.cwd(),
    include: folders.map((folder) => `tests/${folder}/*.test.ts`),
    exclude: ['**/*.long.test.ts', 'node_modules/**'],
    setupFiles: ['tests/mutants/setup.ts'],
  },
})
