import { defineConfig } from 'vitest/config'

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    include: ['tests/**/*.test.ts'],
    passWithNoTests: false,
    allowOnly: !process.env['CI'],
    hookTimeout: 30_000,
    testTimeout: 30_000,
    reporters: ['default'],
  },
})
