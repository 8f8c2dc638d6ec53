import { defineConfig } from 'vitest/config'

/** Tests that need PostgreSQL servers; the others are spared the two seconds that starting them takes. */
const onServers = ['tests/projects/**/*.test.ts', 'tests/service/**/*.test.ts']

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    projects: [
      {
        extends: true,
        test: { name: 'servers', include: onServers, globalSetup: ['tests/servers/global-setup.ts'] },
      },
      {
        extends: true,
        test: { name: 'alone', include: ['tests/**/*.test.ts'], exclude: [...onServers, 'node_modules/**'] },
      },
    ],
    passWithNoTests: false,
    allowOnly: !process.env['CI'],
    hookTimeout: 30_000,
    testTimeout: 30_000,
    reporters: ['default'],
  },
})
