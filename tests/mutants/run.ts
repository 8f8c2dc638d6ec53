import { dirname } from 'node:path'
import { Stryker } from '@stryker-mutator/core'

/*
 * Mutation tests of the pure rooms: changes the sources in small ways, one at a time, and counts how many of the changes
 * the tests notice. What survives is listed, and shown in its place in .mutants/*.html.
 *
 *     npm run mutants                                     all of the folders below: hours
 *     npm run mutants -- 'src/track/**'                   a room, with its folders
 *     npm run mutants -- src/bending/springback.ts:30-80  a file, or some lines of it
 *
 * The second time only what has changed is tried again.
 */

interface Folder {
  /** Tests besides those in the folder of the same name. */
  readonly alsoTests?: string
  /** Whether what is worked out as a module is loaded is changed too: each such change takes all the tests. */
  readonly constants?: boolean
}

const FOLDERS: Readonly<Record<string, Folder>> = {
  measure: { constants: true },
  catalogue: { constants: true, alsoTests: 'published' },
  track: { constants: true, alsoTests: 'published' },
  bending: { alsoTests: 'published' },
  'bending/bend-check': {},
  'bending/calibration': {},
  'bending/forming': {},
  'bending/numeric': {},
  'bending/roller': {},
  'bending/setting-out': {},
  survey: { alsoTests: 'published' },
  'estimate/earthworks': { alsoTests: 'published' },
  laying: {},
  'laying/cutting': {},
  checking: {},
}

type Results = Awaited<ReturnType<Stryker['runMutationTest']>>

function attack(name: string, mutate: string[]): Promise<Results> {
  const { alsoTests, constants = false } = FOLDERS[name]!
  process.env.MUTANTS_TESTS = [name, ...(alsoTests ? [alsoTests] : [])].join()
  const report = `.mutants/${name.replace('/', '-')}`
  return new Stryker({
    mutate,
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: 'tests/mutants/vitest.config.ts', related: true },
    coverageAnalysis: 'perTest',
    ignoreStatic: !constants,
    // Most texts are sentences for people.
    mutator: { excludedMutations: ['StringLiteral'] },
    incremental: true,
    incrementalFile: `${report}.json`,
    htmlReporter: { fileName: `${report}.html` },
    reporters: ['clear-text', 'progress-append-only', 'html'],
    clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
    allowConsoleColors: false,
    concurrency: 2,
    dryRunTimeoutMinutes: 20,
    timeoutMS: 10_000,
    ignorePatterns: ['dist', 'data', '.mutants', 'openapi', 'drizzle'],
    tempDirName: '.mutants/sandbox',
    cleanTempDir: 'always',
    // It does not know TypeScript 7, and need not.
    disableTypeChecks: false,
    tsconfigFile: 'none',
  }).runMutationTest()
}

/** What of a folder is asked for. */
function askedOf(folder: string, asked: readonly string[]): string[] {
  const all = [`${folder}/*.ts`]
  if (asked.length === 0) return all
  return asked.flatMap((path) => {
    if (/\.ts(:|$)/.test(path) && !path.includes('*')) return dirname(path) === folder ? [path] : []
    const top = path.replace(/\/\*.*$/, '')
    return folder === top || folder.startsWith(`${top}/`) ? all : []
  })
}

const scores: string[] = []
for (const name of Object.keys(FOLDERS)) {
  const mutate = askedOf(`src/${name}`, process.argv.slice(2))
  if (mutate.length === 0) continue
  const results = await attack(name, mutate)
  const count = (...among: Results[number]['status'][]) => results.filter(({ status }) => among.includes(status)).length
  const [noticed, tried] = [count('Killed', 'Timeout'), count('Killed', 'Timeout', 'Survived', 'NoCoverage')]
  scores.push(`${name}: ${noticed} of ${tried} noticed, ${((100 * noticed) / Math.max(1, tried)).toFixed(1)} %`)
}
console.log(`\n${scores.join('\n')}`)
