import { readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative, resolve } from 'node:path'
import { describe, expect, it } from 'vitest'

const SRC = resolve(import.meta.dirname, '../../src')

/** The pure rooms, lowest first: each may import from those before it, but for the exceptions below. */
const PURE = [
  'measure',
  'plan/fields',
  'catalogue',
  'plan',
  'track',
  'survey',
  'room',
  'hauling',
  'bending',
  'laying',
  'network',
  'fitting',
  'checking',
  'estimate',
  'shed',
]

const below = (room: string) => PURE.slice(0, PURE.indexOf(room))

/** Which rooms each room may import from, beside itself. */
const ROOMS: Record<string, readonly string[]> = {
  ...Object.fromEntries(PURE.map((room) => [room, below(room)])),
  laying: ['measure', 'plan/fields', 'catalogue', 'plan', 'track'],
  workers: PURE,
  access: [],
  projects: ['config', 'workers', ...PURE],
  paper: PURE,
  // The examples of the API document are files of their own.
  api: ['openapi', 'access', 'paper', 'projects', 'workers', ...PURE],
  page: ['access', 'paper', 'projects', 'workers', ...PURE],
  print: ['paper', 'page', ...PURE],
  docs: ['access', 'api', 'page', 'paper', ...PURE],
  log: [],
  metrics: ['log', 'projects'],
  config: ['access', 'log'],
  elsewhere: ['api', 'page', 'projects', 'workers'],
  app: ['access', 'api', 'docs', 'elsewhere', 'log', 'page', 'print', 'projects', 'workers'],
  thread: ['app', 'log', 'projects', 'shed', 'workers'],
  serving: ['projects'],
  command: ['api', 'print', 'projects', 'workers'],
  longchord: ['command'],
  restore: ['config', 'projects'],
  main: ['app', 'config', 'log', 'metrics', 'projects', 'workers', 'serving'],
}

/** Packages a pure room may use: what looks at nothing but its arguments. */
const PURE_PACKAGES = ['big.js', 'fastest-levenshtein']

/** What makes a function depend on more than its arguments. */
const IMPURE =
  /\b(Date\.now|new Date\b|Math\.random|process\.|performance\.|globalThis\.|fetch\(|setTimeout|setInterval|console\.|crypto\.)/

const PACKAGES: Record<string, RegExp> = {
  zod: /^(zod|@hono\/zod-openapi)$/,
  'drizzle or a driver': /^(drizzle-orm|postgres|@electric-sql\/pglite)/,
  threads: /^(piscina|(node:)?worker_threads)$/,
  pino: /^pino$/,
  'prom-client': /^prom-client$/,
}
const KEEPERS: Record<string, readonly string[]> = {
  zod: ['plan/reading', 'api'],
  'drizzle or a driver': ['projects'],
  threads: ['workers'],
  pino: ['log'],
  'prom-client': ['metrics'],
}

/** `import … from 'x'` and `export … from 'x'` over several lines, `import 'x'`, `import('x')`. */
const IMPORTS =
  /^\s*(?:import|export)\s[^'`;]*?\bfrom\s*'([^'\n]+)'|^\s*import\s*'([^'\n]+)'|\bimport\(\s*'([^'\n]+)'/gm

interface Import {
  readonly from: string
  readonly room: string
  readonly target: string
}

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => join(entry.parentPath, entry.name))
}

/** What a field is stands below everything that declares some: a room of its own within `plan`. */
function roomOf(file: string): string {
  const path = relative(SRC, file).replace(/^\.\.\//, '')
  return path.startsWith('plan/fields/') ? 'plan/fields' : path.split(/[/.]/)[0]!
}

function importsOf(file: string, text: string): Import[] {
  const found = text.matchAll(IMPORTS)
  return [...found].map(([, from, bare, dynamic]) => ({
    from: relative(SRC, file),
    room: roomOf(file),
    target: (from ?? bare ?? dynamic)!,
  }))
}

/** What is wrong with an import; null when it is allowed. */
function complaint({ from, room, target }: Import): string | null {
  const allowed = ROOMS[room]
  if (!allowed) return `${from}: no room is called ${room}`
  if (target.startsWith('.')) {
    const other = roomOf(resolve(SRC, dirname(from), target))
    return other === room || allowed.includes(other) ? null : `${from} imports from ${other}`
  }
  const kept = Object.entries(PACKAGES).find(([, pattern]) => pattern.test(target))?.[0]
  const keepers = kept ? KEEPERS[kept]! : []
  if (keepers.some((keeper) => from.startsWith(`${keeper}/`))) return null
  if (PURE.includes(room)) return PURE_PACKAGES.includes(target) ? null : `${from}, a pure room, imports ${target}`
  return kept ? `${from} imports ${target}: only ${keepers.join(' and ')} know ${kept}` : null
}

/** A circle of files that import each other, types included; null where there is none. */
function circleIn(imports: readonly Import[]): string[] | null {
  const graph = new Map<string, string[]>()
  for (const { from, target } of imports) {
    if (!target.startsWith('.')) continue
    graph.set(from, [...(graph.get(from) ?? []), relative(SRC, resolve(SRC, dirname(from), target))])
  }
  const done = new Set<string>()
  const follow = (file: string, way: readonly string[]): string[] | null => {
    if (way.includes(file)) return [...way.slice(way.indexOf(file)), file]
    if (done.has(file)) return null
    for (const next of graph.get(file) ?? []) {
      const circle = follow(next, [...way, file])
      if (circle) return circle
    }
    done.add(file)
    return null
  }
  for (const file of graph.keys()) {
    const circle = follow(file, [])
    if (circle) return circle
  }
  return null
}

describe('the rooms of src', () => {
  const files = filesBelow(SRC)
  const imports = files.flatMap((file) => importsOf(file, readFileSync(file, 'utf8')))

  it('import only in the direction of the layout', () => {
    expect(files.length).toBeGreaterThan(60)
    expect(imports.length).toBeGreaterThan(200)
    expect(imports.map(complaint).filter((text) => text !== null)).toEqual([])
  })

  it('have no files that import each other in a circle', () => {
    expect(circleIn(imports)).toBeNull()
    const planted = importsOf(join(SRC, 'measure/sum.ts'), "import type { x } from '../paper/workbook.ts'")
    const back = importsOf(join(SRC, 'paper/workbook.ts'), "import { sum } from '../measure/sum.ts'")
    expect(circleIn([...imports, ...planted, ...back])).toHaveLength(3)
  })

  it('are all there', () => {
    expect(new Set(files.map(roomOf))).toEqual(new Set(Object.keys(ROOMS)))
  })

  it('the pure ones look at nothing but their arguments', () => {
    const pure = files.filter((file) => PURE.includes(roomOf(file)))
    expect(pure.length).toBeGreaterThan(40)
    expect(pure.filter((file) => IMPURE.test(readFileSync(file, 'utf8')))).toEqual([])
  })

  it.each([
    ['track/rails.ts', "import { x } from '../laying/ties.ts'", 'imports from laying'],
    ['laying/bill.ts', "import type { x } from '../estimate/plan.ts'", 'imports from estimate'],
    ['measure/length.ts', "import { readFileSync } from 'node:fs'", 'a pure room'],
    ['estimate/estimate.ts', "const z = await import('zod')", 'a pure room'],
    ['page/page.ts', "import { z } from 'zod'", 'only plan/reading and api know zod'],
    ['api/x.ts', "import { drizzle } from 'drizzle-orm/pglite'", 'only projects know drizzle'],
    ['page/x.ts', "import { Worker } from 'node:worker_threads'", 'only workers know threads'],
    ['estimate/x.ts', "import { Piscina } from 'piscina'", 'a pure room'],
    ['laying/x.ts', "import type { Workers } from '../workers/workers.ts'", 'imports from workers'],
    ['api/x.ts', "import { page } from '../page/page.ts'", 'imports from page'],
    ['plan/fields/x.ts', "import { SECTIONS } from '../../catalogue/sections.ts'", 'imports from catalogue'],
    ['api/x.ts', "import { createDocs } from '../docs/docs.ts'", 'imports from docs'],
    ['plan/rows/x.ts', "import { z } from 'zod'", 'a pure room'],
    ['helpers/x.ts', "import '../measure/length.ts'", 'no room'],
  ])('a wrong arrow would be seen: %s, %s', (file, text, expected) => {
    const [found] = importsOf(join(SRC, file), text)
    expect(complaint(found!)).toContain(expected)
  })
})
