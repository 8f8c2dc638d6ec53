import {
  appendFileSync,
  copyFileSync,
  cpSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { changeLine, headLine, readJournalLine } from '../../src/projects/journal/journal-lines.ts'
import { openStore } from '../../src/projects/open-store.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { NOTHING } from '../../src/shed/stock.ts'

let dataDir: string
let said: string[]
const open = () => openStore({ databaseUrl: null, dataDir }, { onProgress: (line) => said.push(line) })
const at = (name: string) => join(dataDir, name)

beforeEach(() => {
  dataDir = mkdtempSync(join(tmpdir(), 'longchord-journal-'))
  said = []
})
afterEach(() => rmSync(dataDir, { recursive: true, force: true }))

/** Something in every table, with what JSON and text find hard. */
async function fill(store: ProjectStore) {
  const plan = { b: 1, a: [1e21, 0.1, -0], 'ü\u2028\n"\\': '\ud83d\ude82', rail: null }
  const first = await store.create({ name: 'Quarry', notes: 'line\nline\ttab “quotes”', plan })
  await store.replace(first.id, { name: 'Quarry 2', notes: '', plan: { ...plan, more: true } }, 'any')
  const second = await store.create({ name: 'Gone', notes: '', plan: {} })
  await store.remove(second.id, 'any')
  await store.addLink(first.id, 'sheet', 'x'.repeat(43))
  const { revision } = await store.shed()
  await store.restock({ ...NOTHING }, [revision])
  return first.id
}

async function contentOf(store: ProjectStore, id: string) {
  return {
    projects: await store.list({ limit: 10, after: null }),
    project: await store.get(id),
    text: JSON.stringify((await store.get(id))?.plan),
    revisions: await store.revisions(id),
    first: await store.revision(id, 1),
    links: await store.links(id),
    shed: await store.shed(),
  }
}

describe('the journal', () => {
  test('makes the database again when that is gone, letter for letter', async () => {
    const store = await open()
    const id = await fill(store)
    const before = await contentOf(store, id)
    expect(before.projects.items).toHaveLength(1)
    await store.close()
    rmSync(at('database'), { recursive: true })
    said = []
    const again = await open()
    expect(said[0]).toMatch(/^Making the embedded database in .* again from its journal/)
    expect(await contentOf(again, id)).toEqual(before)
    await again.create({ name: 'After', notes: '', plan: {} })
    await again.close()
  })

  test('makes it again when its files are damaged, or of an earlier time', async () => {
    const store = await open()
    const id = await fill(store)
    await store.close()
    cpSync(at('database'), at('earlier'), { recursive: true })
    const later = await open()
    await later.replace(id, { name: 'Later', notes: '', plan: {} }, 'any')
    await later.close()

    rmSync(at('database'), { recursive: true })
    cpSync(at('earlier'), at('database'), { recursive: true })
    const behind = await open()
    expect(said.some((line) => line.startsWith('Making'))).toBe(true)
    expect(await behind.get(id)).toMatchObject({ name: 'Later', revision: 3 })
    await behind.close()

    writeFileSync(join(at('database'), 'cluster', 'global', 'pg_control'), '')
    const broken = await open()
    expect(await broken.get(id)).toMatchObject({ name: 'Later', revision: 3 })
    await broken.close()
  })

  test('makes it again after the machine has started anew, and not after the program has', async () => {
    const store = await open()
    const id = await fill(store)
    await store.close()
    said = []
    await (await open()).close()
    expect(said).toEqual([])
    writeFileSync(join(at('database'), 'boot'), 'another')
    const again = await open()
    expect(said).toHaveLength(2)
    expect(await again.get(id)).toMatchObject({ name: 'Quarry 2' })
    await again.close()
  })

  test('has what is committed before it is acknowledged', async () => {
    const store = await open()
    const made = await Promise.all(
      Array.from({ length: 20 }, (_, n) => store.create({ name: `Plan ${n}`, notes: '', plan: {} })),
    )
    const lines = readFileSync(at('journal.jsonl'), 'utf8')
    for (const { id } of made) expect(lines).toContain(id)
    copyFileSync(at('journal.jsonl'), at('copy'))
    await store.close()
    rmSync(at('database'), { recursive: true })
    copyFileSync(at('copy'), at('journal.jsonl'))
    const again = await open()
    expect((await again.list({ limit: 50, after: null })).items).toHaveLength(20)
    await again.close()
  })

  test('may end in the middle of a line; a damaged line before that is named', async () => {
    const store = await open()
    const id = await fill(store)
    await store.close()
    rmSync(at('database'), { recursive: true })
    appendFileSync(at('journal.jsonl'), '12345678 {"seq":99,"table":"projects","cha')
    const again = await open()
    expect(await again.get(id)).toMatchObject({ name: 'Quarry 2' })
    await again.close()
    const lines = readFileSync(at('journal.jsonl'), 'utf8').split('\n')
    writeFileSync(at('journal.jsonl'), lines.map((line, n) => (n === 1 ? line.replace('{', '[') : line)).join('\n'))
    rmSync(at('database'), { recursive: true })
    await expect(open()).rejects.toMatchObject({ name: 'StartFault', message: expect.stringContaining('is damaged') })
    writeFileSync(at('journal.jsonl'), '')
    await expect(open()).rejects.toMatchObject({ name: 'StartFault', message: expect.stringContaining('no head') })
    expect(existsSync(at('longchord.lock'))).toBe(false)
  })

  test('of a newer program is left to it', async () => {
    writeFileSync(at('journal.jsonl'), headLine({ id: 'x', migration: 9_999_999_999_999 }))
    await expect(open()).rejects.toMatchObject({
      name: 'StartFault',
      message: expect.stringMatching(/^A newer version/),
    })
  })
})

test('a line is read as it was written, and not when a letter of it has changed', () => {
  const change = { seq: 7, table: 'projects', change: 'put', row: '{"a":"},\\"row\\":","b":[1]}' } as const
  const line = changeLine(change).trimEnd()
  expect(readJournalLine(line)).toEqual({ kind: 'change', change })
  for (let place = 0; place < line.length; place += 1) {
    const other = `${line.slice(0, place)}~${line.slice(place + 1)}`
    expect(readJournalLine(other)).toEqual({ kind: 'damaged' })
  }
  expect(readJournalLine('')).toEqual({ kind: 'damaged' })
})
