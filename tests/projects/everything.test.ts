import { expect, onTestFinished, test } from 'vitest'
import { unpackPart } from '../../src/projects/everything.ts'
import type { Everything } from '../../src/projects/everything-types.ts'
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

/** The rows, in an order that does not depend on where the database keeps them. */
async function rowsIn(store: ProjectStore): Promise<string[]> {
  const [head, ...rows] = (await textOf(await store.exportAll())).trimEnd().split('\n')
  expect(head).toContain('"journal":1')
  return rows.toSorted()
}

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
    const text = await textOf(await source.exportAll())
    const before = await rowsIn(target)
    expect(await target.importAll(linesIn(text), { ...HOW, dryRun: true })).toEqual({
      ...{ projects: 1, revisions: 2, replacedProjects: 0 },
      rows: text.trimEnd().split('\n').length - 1,
    })
    expect(await rowsIn(target)).toEqual(before)
    expect(await target.importAll(linesIn(text), HOW)).toMatchObject({ projects: 1, revisions: 2 })
    expect(await rowsIn(target)).toEqual(await rowsIn(source))
    expect(await target.get(id)).toEqual(await source.get(id))
    expect(JSON.stringify((await target.get(id))?.plan)).toBe(JSON.stringify((await source.get(id))?.plan))
    expect(await target.builds(id)).toEqual(await source.builds(id))

    await target.create({ name: 'Mine', notes: '', plan: {} })
    const mine = await rowsIn(target)
    expect(await target.importAll(linesIn(text), HOW)).toEqual({ kind: 'not-empty', projects: 2 })
    const [head, second, ...rest] = text.trimEnd().split('\n')
    for (const [wrong, line] of [
      [[head, second!.replace('{', '['), ...rest], 2],
      [[head, ...rest.map((row, n) => (n === 1 ? row.slice(0, -1) : row))], 3],
      [['nonsense'], 1],
      [[second], 1],
      [[head, head], 2],
    ] as const)
      expect(await target.importAll(linesIn(wrong.join('\n')), { ...HOW, replace: true })).toEqual({
        kind: 'not-an-export',
        line,
      })
    expect(await target.importAll(linesIn(''), { ...HOW, replace: true })).toMatchObject({ kind: 'not-an-export' })
    expect(await rowsIn(target)).toEqual(mine)
    expect(await target.importAll(linesIn(text), { ...HOW, replace: true })).toMatchObject({ replacedProjects: 2 })
    expect(await rowsIn(target)).toEqual(await rowsIn(source))
  },
  120_000,
)
