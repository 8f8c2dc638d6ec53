import { expect, onTestFinished, test } from 'vitest'
import { unpackPart } from '../../src/projects/everything.ts'
import type { Everything } from '../../src/projects/everything-types.ts'
import { exampleExport } from '../../src/projects/example-export.ts'
import { linesOf } from '../../src/projects/journal/lines-of.ts'
import { openStore } from '../../src/projects/open-store.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { NOTHING } from '../../src/shed/stock.ts'
import { type DatabaseKind, databaseKinds } from '../servers/databases.ts'

const HOW = { dryRun: false, replace: false }

async function opened(kind: DatabaseKind): Promise<ProjectStore> {
  const database = await kind.make()
  const store = await openStore(database.place, { onProgress: () => {} })
  onTestFinished(async () => {
    await store.close()
    await database.dispose()
  })
  return store
}

async function textOf(parts: Everything): Promise<string> {
  return Buffer.concat(await Promise.all(parts.map((part) => unpackPart(part)))).toString()
}

/** The lines of a text that arrives in small parts, also in the middle of a letter. */
const linesIn = (text: string) => linesOf(inParts(Buffer.from(text)))

async function* inParts(bytes: Uint8Array) {
  for (let from = 0; from < bytes.length; from += 7) yield bytes.subarray(from, from + 7)
}

const exported = async (store: ProjectStore) => textOf(await store.exportAll())

async function fill(store: ProjectStore): Promise<string> {
  const plan = { b: 1, a: [1e21, 0.1], 'ü\n"\\': '\ud83d\ude82 },"row":', rail: null }
  const { id } = await store.create({ name: 'Quarry', notes: 'a\nb', plan })
  await store.replace(id, { name: 'Quarry', notes: '', plan: { ...plan, more: true } }, 'any')
  await store.addLink(id, 'sheet', 'x'.repeat(43))
  await store.restock({ ...NOTHING }, 'any')
  const gone = await store.create({ name: 'Gone', notes: '', plan: {} })
  await store.remove(gone.id, 'any')
  await store.build(id, 'any', () => ({ ok: true, taken: NOTHING, returned: NOTHING }))
  return id
}

const KINDS = databaseKinds()
const PAIRS = KINDS.map((from, n) => ({ from, to: KINDS[(n + 1) % KINDS.length]! }))

test.each(PAIRS)(
  'everything goes from $from.name to $to.name, byte for byte',
  async ({ from, to }) => {
    const [source, target] = [await opened(from), await opened(to)]
    const id = await fill(source)
    const text = await exported(source)
    const before = await exported(target)
    const changes = [{ id, name: 'Quarry', change: 'added' }]
    expect(await target.importAll(linesIn(text), { ...HOW, dryRun: true })).toEqual({
      ...{ projects: 1, revisions: 2, replacedProjects: 0, changes },
      // All but the first line and the last.
      rows: text.trimEnd().split('\n').length - 2,
    })
    expect(await exported(target)).toBe(before)
    expect(await target.importAll(linesIn(text), HOW)).toMatchObject({ projects: 1, revisions: 2 })
    expect(await exported(target)).toBe(text)
    expect(await target.get(id)).toEqual(await source.get(id))
    expect(JSON.stringify((await target.get(id))?.plan)).toBe(JSON.stringify((await source.get(id))?.plan))
    expect(await target.builds(id)).toEqual(await source.builds(id))

    await target.create({ name: 'Mine', notes: '', plan: {} })
    const mine = await exported(target)
    expect(await target.importAll(linesIn(text), HOW)).toEqual({ kind: 'not-empty', projects: 3 })
    const all = text.trimEnd().split('\n')
    const [head, second, ...rest] = all
    for (const [wrong, line] of [
      [[head, second!.replace('{', '['), ...rest], 2],
      [[head, ...rest.map((row, n) => (n === 1 ? row.slice(0, -1) : row))], 3],
      [['nonsense'], 1],
      [[second], 1],
      [[head, head], 2],
      [[head, all.at(-1), all.at(-1)], 3],
      [[all.at(-1)], 1],
    ] as const)
      expect(await target.importAll(linesIn(wrong.join('\n')), { ...HOW, replace: true })).toEqual({
        kind: 'not-an-export',
        line,
      })
    for (const cutOff of [all.slice(0, -1), all.slice(0, 3), [head]])
      expect(await target.importAll(linesIn(cutOff.join('\n')), { ...HOW, replace: true })).toEqual({ kind: 'cut-off' })
    expect(await target.importAll(linesIn(''), { ...HOW, replace: true })).toMatchObject({ kind: 'not-an-export' })
    expect(await exported(target)).toBe(mine)
    expect(await target.importAll(linesIn(text), { ...HOW, replace: true })).toMatchObject({
      replacedProjects: 2,
      changes: [{ name: 'Mine', change: 'removed' }],
    })
    expect(await exported(target)).toBe(text)
  },
  120_000,
)

test.each(KINDS)('a copy of $name has what is written while it is made, and keeps nobody waiting', async (kind) => {
  const [source, target] = [await opened(kind), await opened(kind)]
  for (let n = 0; n < 60; n += 1) await source.create({ name: `Plan ${n}`, notes: '', plan: { n } })
  const { items } = await source.list({ limit: 60, after: null })
  const lines: string[] = []
  let wrote = false
  await source.copyTo(async (part) => {
    lines.push(part.toString())
    if (wrote || lines.length < 10) return
    wrote = true
    await source.remove(items.at(-1)!.id, 'any')
    await source.remove(items[0]!.id, 'any')
    await source.replace(items[30]!.id, { name: 'Changed', notes: '', plan: {} }, 'any')
    await source.create({ name: 'New', notes: '', plan: {} })
  })
  expect(wrote).toBe(true)
  expect(await target.importAll(linesIn(lines.join('')), HOW)).not.toHaveProperty('kind')
  const names = (await target.list({ limit: 100, after: null })).items.map(({ name }) => name)
  // On a server it is of the moment when it began, embedded of the moment when it ended.
  const changed = kind.name === 'the embedded database'
  expect([names.includes('Changed'), names.includes('New'), names.length]).toEqual([
    changed,
    changed,
    changed ? 59 : 60,
  ])
  if (changed) expect(await exported(target)).toBe(await exported(source))
})

test.each(KINDS)('everything in $name is copied in small parts, and each row once', async (kind) => {
  const source = await opened(kind)
  const text = 'x'.repeat(300_000)
  for (let n = 0; n < 12; n += 1)
    await source.create({ name: `Plan ${n}`, notes: '', plan: n % 3 === 0 ? { text } : {} })
  const sizes: number[] = []
  let copy = ''
  await source.copyTo(async (part) => {
    sizes.push(part.length)
    copy += part
  })
  expect(Math.max(...sizes)).toBeLessThan(2_500_000)
  expect(copy.match(/"table":"projects"/g)).toHaveLength(12)
  expect(copy).toBe(await exported(source))
})

test.each(KINDS)('the export that is shown as an example is one of this version, in $name', async (kind) => {
  const target = await opened(kind)
  expect(await target.importAll(linesIn(exampleExport()), HOW)).toMatchObject({ projects: 1, revisions: 1 })
  expect(await exported(target)).toBe(exampleExport())
})
