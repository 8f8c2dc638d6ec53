import { defineConfig } from 'vitest/config'
import { chromiumPath } from './browser/chromium.ts'

/** Tests that need PostgreSQL servers; the others are spared the two seconds that starting them takes. */
const onServers = ['tests/projects/**/*.test.ts', 'tests/service/**/*.test.ts']

/** Tests that drive Chromium. Where there is none they are left out, but not in CI: there they fail. */
const inBrowser = ['tests/browser/**/*.test.ts']
const browserProject = { extends: true as const, test: { name: 'browser', include: inBrowser } }
const browserProjects = chromiumPath() !== null || process.env.CI ? [browserProject] : []
if (browserProjects.length === 0)
  console.log('No Chromium on the PATH: the tests of the page in a browser are left out.')

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
        test: {
          name: 'alone',
          include: ['tests/**/*.test.ts'],
          exclude: [...onServers, ...inBrowser, 'node_modules/**'],
        },
      },
      ...browserProjects,
    ],
    passWithNoTests: false,
    allowOnly: !process.env.CI,
    hookTimeout: 30_000,
    testTimeout: 30_000,
    reporters: ['default'],
  },
})
