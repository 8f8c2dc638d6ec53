import { cpSync, existsSync, readdirSync, readFileSync, renameSync, statSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { repaired } from './driver-patch.mjs'

/*
 * Bundles the service into dist/main.js, which starts three times faster than the sources, and its worker threads into
 * dist/thread.js, what puts backups back into dist/restore.js, the command line into dist/longchord.js, and the script of
 * the page into dist/page-script.js. Plain JavaScript, because it runs before anything is built and the oldest supported
 * Node does not read TypeScript.
 *
 *     node src/build.mjs        builds
 *     node src/start.mjs        builds when needed, then runs
 */

const top = new URL('../', import.meta.url)
export const bundle = new URL('dist/main.js', top)

/** Packages that stay outside the bundle, because they read files from their own folder at run time. */
const EXTERNAL = ['@electric-sql/pglite', 'dejavu-fonts-ttf', 'pdfkit', 'piscina', 'swagger-ui-dist']

/** What is built, by name. The service comes last: its date says whether everything is built. */
const ENTRIES = {
  thread: 'src/thread.ts',
  restore: 'src/restore.ts',
  longchord: 'src/longchord.ts',
  main: 'src/main.ts',
}

/**
 * Files that the service uses at run time: what unpacks its database, its style sheet and the texts of the guides
 * (src/docs/shipped.ts).
 */
const COPIES = {
  'unpack.mjs': 'src/unpack.mjs',
  'style.css': 'src/page/style.css',
  'docs/pages': 'src/docs/pages',
  'docs/docs.css': 'src/docs/docs.css',
  'docs/examples': 'openapi/examples',
  'docs/CHANGELOG.md': 'openapi/CHANGELOG.md',
}

const REPAIRED_DRIVER = {
  name: 'repaired driver',
  setup(build) {
    build.onLoad({ filter: /postgres[/\\]src[/\\]connection\.js$/ }, async ({ path }) => ({
      contents: repaired(await readFile(path, 'utf8')),
    }))
  },
}

export async function build() {
  const esbuild = await import('esbuild')
  const unfinished = (name) => `${name}.${process.pid}`
  await esbuild.build({
    absWorkingDir: fileURLToPath(top),
    entryPoints: Object.fromEntries(Object.entries(ENTRIES).map(([name, source]) => [unfinished(name), source])),
    outdir: 'dist',
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    external: EXTERNAL,
    plugins: [REPAIRED_DRIVER],
    // Bundled CommonJS packages call require(), which an ES module does not have.
    banner: {
      js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);",
    },
    logLevel: 'warning',
  })
  // src/page/script-file.ts does the same where the sources run.
  await esbuild.build({
    ...JSON.parse(readFileSync(new URL('src/page/script/bundling.json', top), 'utf8')),
    absWorkingDir: fileURLToPath(top),
    entryPoints: ['src/page/script/main.ts'],
    outfile: `dist/${unfinished('page-script')}.js`,
  })
  await esbuild.stop()
  for (const [place, source] of Object.entries(COPIES))
    cpSync(new URL(source, top), new URL(`dist/${place}`, top), { recursive: true })
  // Each in one step, because another process may be starting from the bundle or building it too.
  for (const name of ['page-script', ...Object.keys(ENTRIES)])
    renameSync(new URL(`dist/${unfinished(name)}.js`, top), new URL(`dist/${name}.js`, top))
}

/** Folders whose files end up in dist. */
const SOURCES = ['src', 'openapi']

/** Whether the bundle is missing or older than a source or an installed package. A package (`npm pack`) has no sources. */
export function isStale() {
  const built = statSync(bundle, { throwIfNoEntry: false })?.mtimeMs
  if (built === undefined) return true
  if (!existsSync(new URL(ENTRIES.main, top))) return false
  const sources = SOURCES.flatMap((folder) =>
    readdirSync(new URL(folder, top), { recursive: true }).map((path) => `${folder}/${path}`),
  )
  return [...sources, 'package-lock.json'].some((path) => statSync(new URL(path, top)).mtimeMs > built)
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await build()
