import { defineConfig } from 'vitest/config'
import { chromiumPath } from './browser/chromium.ts'
import { officePrograms } from './spreadsheets/libre-office.ts'
import { shared } from './vitest.shared.ts'

/** Tests that need PostgreSQL servers; the others are spared the two seconds that starting them takes. */
const onServers = ['tests/projects/**/*.test.ts', 'tests/service/**/*.test.ts']

/** Tests that drive Chromium. Where there is none they are left out, but not in CI: there they fail. */
const inBrowser = ['tests/browser/**/*.test.ts']
const browserProject = { extends: true as const, test: { name: 'browser', include: inBrowser } }
const browserProjects = chromiumPath() !== null || process.env.CI ? [browserProject] : []
if (browserProjects.length === 0)
  console.log('No Chromium on the PATH: the tests of the page in a browser are left out.')

/** Tests that open spreadsheets in LibreOffice; left out and failed in the same way. */
const inOffice = ['tests/spreadsheets/**/*.test.ts']
const officeProject = { extends: true as const, test: { name: 'spreadsheets', include: inOffice } }
const officeProjects = officePrograms() !== null || process.env.CI ? [officeProject] : []
if (officeProjects.length === 0)
  console.log(
    'No LibreOffice Calc with its Python bridge: the tests of spreadsheets that call the service are left out.',
  )

export default defineConfig({
  test: {
    ...shared,
    projects: [
      {
        extends: true,
        test: { name: 'servers', include: onServers, globalSetup: ['tests/servers/global-setup.ts'] },
      },
      {
        extends: true,
        test: {
          name: 'alone',
          // Nothing here is changed for others: loading everything anew for each file took longer than many tests.
          isolate: false,
          include: ['tests/**/*.test.ts'],
          exclude: [...onServers, ...inBrowser, ...inOffice, 'tests/**/*.long.test.ts', 'node_modules/**'],
        },
      },
      ...browserProjects,
      ...officeProjects,
    ],
  },
})
