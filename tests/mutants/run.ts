import { availableParallelism } from 'node:os'
import { Stryker } from '@stryker-mutator/core'

/*
 * Mutation tests of the pure rooms: changes the sources in small ways, one at a time, and counts which changes the tests
 * notice. What survives is listed, and shown in place in reports/mutants/ROOM.html.
 *
 *     npm run mutants                                     every room below, which takes hours
 *     npm run mutants -- 'src/track/**'                   one room
 *     npm run mutants -- src/bending/springback.ts:1-40   some files or lines of it
 */

interface Room {
  /** The folders of tests that have to do with it. */
  readonly tests: readonly string[]
  /** Whether what is worked out as a module is loaded is changed too: each such change takes all the tests. */
  readonly constants: boolean
}

const ROOMS: Readonly<Record<string, Room>> = {
  measure: { tests: ['measure'], constants: true },
  catalogue: { tests: ['catalogue', 'published'], constants: true },
  track: { tests: ['track', 'published'], constants: true },
  bending: { tests: ['bending', 'published'], constants: false },
  laying: { tests: ['laying', 'published'], constants: false },
  checking: { tests: ['checking'], constants: false },
}

async function attack(room: string, mutate: readonly string[]): Promise<void> {
  const { tests, constants } = ROOMS[room]!
  process.env.MUTANTS_TESTS = tests.join()
  await new Stryker({
    mutate: [...mutate],
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: 'tests/mutants/vitest.config.ts', related: true },
    coverageAnalysis: 'perTest',
    ignoreStatic: !constants,
    // Sentences for people are not code: tests compare those that matter.
    mutator: { excludedMutations: ['StringLiteral'] },
    incremental: true,
    incrementalFile: `reports/mutants/${room}.json`,
    reporters: ['clear-text', 'progress-append-only', 'html'],
    htmlReporter: { fileName: `reports/mutants/${room}.html` },
    clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
    concurrency: Math.min(2, availableParallelism()),
    timeoutMS: 10_000,
    ignorePatterns: ['dist', 'data', 'reports', 'openapi', 'drizzle'],
    tempDirName: 'reports/mutants/sandbox',
    thresholds: { high: 90, low: 80, break: null },
    // Neither is there anything to do for types, nor does it know TypeScript 7.
    disableTypeChecks: false,
    tsconfigFile: 'none',
    allowConsoleColors: false,
    cleanTempDir: 'always',
  }).runMutationTest()
}

const asked = process.argv.slice(2)
for (const room of Object.keys(ROOMS)) {
  const own = asked.filter((pattern) => pattern.startsWith(`src/${room}/`))
  if (asked.length === 0) await attack(room, [`src/${room}/**/*.ts`])
  else if (own.length > 0) await attack(room, own)
}
