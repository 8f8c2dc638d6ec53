import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { afterAll, afterEach, beforeAll, beforeEach, expect, onTestFinished, test } from 'vitest'
import { BackupFolder } from '../../../src/projects/backups/backup-folder.ts'
import { Backups } from '../../../src/projects/backups/backups.ts'
import { linesOf } from '../../../src/projects/journal/lines-of.ts'
import type { ProjectStore } from '../../../src/projects/store.ts'
import { temporaryStore } from '../../servers/databases.ts'

const NO_BOUND = Number.POSITIVE_INFINITY
const HOUR_MS = 3_600_000
const NOW = new Date('2026-03-05T10:20:30.400Z')
const at = (hours: number) => new Date(NOW.getTime() + hours * HOUR_MS)

let top: string
let folder: string
beforeEach(() => {
  top = mkdtempSync(join(tmpdir(), 'longchord-backups-'))
  folder = join(top, 'in', 'here')
})
afterEach(() => rmSync(top, { recursive: true, force: true }))

const text = (content: string) => async (write: (lines: string) => Promise<void>) => {
  for (const letter of content) await write(letter)
}

test('a backup is there as a whole or not at all', async () => {
  const backups = new BackupFolder(folder, NO_BOUND)
  expect(await backups.list()).toEqual([])
  let during: string[] = []
  const copy = async (write: (lines: string) => Promise<void>) => {
    await write('first\n')
    during = readdirSync(folder)
    await write('second\n')
  }
  expect(await backups.add(copy, NOW)).toBe('written')
  expect(during).toEqual([expect.stringMatching(/\.unfinished$/)])
  const name = 'longchord-000001-2026-03-05T102030Z.jsonl'
  expect(readdirSync(folder)).toEqual([name])
  expect(readFileSync(join(folder, name), 'utf8')).toBe('first\nsecond\n')
  expect(statSync(join(folder, name)).mode & 0o777).toBe(0o600)
  expect(await backups.list()).toEqual([{ name, number: 1, madeAt: '2026-03-05T10:20:30Z', bytes: 13 }])

  const broken = async (write: (lines: string) => Promise<void>) => {
    await write('half')
    throw new Error('the database is gone')
  }
  await expect(backups.add(broken, NOW)).rejects.toThrow('the database is gone')
  expect(readdirSync(folder)).toEqual([name])
})

test('the same again writes no file, also for another process; a clock set back does not change the order', async () => {
  await new BackupFolder(folder, NO_BOUND).add(text('one'), NOW)
  expect(await new BackupFolder(folder, NO_BOUND).add(text('one'), at(1))).toBe('unchanged')
  const backups = new BackupFolder(folder, NO_BOUND)
  expect(await backups.add(text('two'), at(-5))).toBe('written')
  expect(await backups.add(text('two'), at(2))).toBe('unchanged')
  expect(await backups.add(text('one'), at(3))).toBe('written')
  expect((await backups.list()).map(({ number, madeAt }) => [number, madeAt.slice(0, 16)])).toEqual([
    [1, '2026-03-05T10:20'],
    [2, '2026-03-05T05:20'],
    [3, '2026-03-05T13:20'],
  ])
  // Later in the same hour.
  expect(await backups.add(text('three'), at(3.1))).toBe('written')
  expect((await backups.list()).map(({ number }) => number)).toEqual([1, 2, 4])
})

test('files of others and of processes at work are left alone, abandoned ones are not', async () => {
  const backups = new BackupFolder(folder, 10)
  await backups.add(text('one'), NOW)
  const put = (name: string, madeAt: Date) => {
    writeFileSync(join(folder, name), 'x'.repeat(100))
    utimesSync(join(folder, name), madeAt, madeAt)
  }
  put('mine.jsonl', at(-9))
  put('longchord-000007-2026-03-05T102030Z.jsonl.9.unfinished', at(24))
  put('longchord-000008-2026-03-05T102030Z.jsonl.9.unfinished', at(-2))
  await backups.add(text('0123456789'), at(24))
  expect(readdirSync(folder).sort()).toEqual([
    'longchord-000002-2026-03-06T102030Z.jsonl',
    'longchord-000007-2026-03-05T102030Z.jsonl.9.unfinished',
    'mine.jsonl',
  ])
})

test('a folder that cannot be written to is a fault with what to do', async () => {
  writeFileSync(join(top, 'file'), '')
  await expect(new BackupFolder(join(top, 'file'), NO_BOUND).add(text('x'), NOW)).rejects.toThrow(
    /^The folder for backups cannot be written to \(EEXIST\): .*BACKUP_DIR/,
  )
  if (process.getuid?.() === 0) return
  chmodSync(top, 0o500)
  await expect(new BackupFolder(folder, NO_BOUND).add(text('x'), NOW)).rejects.toThrow(
    /cannot be written to \(EACCES\)/,
  )
})

test('a full disk is one, too', async () => {
  const full = async () => {
    throw Object.assign(new Error('no space left on device'), { code: 'ENOSPC' })
  }
  await expect(new BackupFolder(folder, NO_BOUND).add(full, NOW)).rejects.toThrow(/^The disk with the backups is full/)
})

let store: ProjectStore
beforeAll(async () => {
  store = await temporaryStore()
})
afterAll(() => store.close())

const CONTENT = { name: 'Quarry', notes: '', plan: {} }

/** Backups without much waiting, and what they say. */
async function begun(path = folder) {
  const said: string[] = []
  const say = (_: object, line: string) => void said.push(line)
  const times = { afterChangeMs: 30, betweenMs: 60 }
  const backups = await Backups.begin(store, { folder: path, mostBytes: NO_BOUND }, { info: say, warn: say }, times)
  onTestFinished(() => backups.close())
  return { backups, watched: backups.watched(), said }
}

async function until(holds: () => boolean | Promise<boolean>): Promise<void> {
  for (let waited = 0; !(await holds()); waited += 10) {
    if (waited > 20_000) throw new Error('it never happened')
    await wait(10)
  }
}

const newest = () => readFileSync(join(folder, readdirSync(folder).sort().at(-1)!), 'utf8')

test('there is one after the start, one after a change, and none without', async () => {
  const { backups, watched } = await begun()
  expect(backups.status()).toEqual({ state: 'none', latest: null, fault: null })
  await until(() => backups.status().state === 'kept')
  const files = readdirSync(folder)
  expect(files).toHaveLength(1)
  const { id } = await watched.create(CONTENT)
  await until(() => readdirSync(folder).length === 1 && newest().includes(id))
  await watched.get(id)
  const before = readdirSync(folder)
  await wait(300)
  expect(readdirSync(folder)).toEqual(before)
  expect(backups.status()).toMatchObject({ state: 'kept', fault: null })
  expect(Math.abs(Date.parse(backups.status().latest!) - Date.now())).toBeLessThan(60_000)

  await backups.close()
  const later = await begun()
  expect(later.backups.status().state).toBe('kept')
  await wait(300)
  expect(readdirSync(folder)).toEqual(before)
})

test('a backup can be put back, and what it replaces is kept before', async () => {
  const { backups, watched } = await begun()
  const kept = await watched.create({ ...CONTENT, name: 'Kept' })
  expect(await backups.take()).toBe(true)
  const [file] = (await backups.list()).slice(-1)
  await watched.replace(kept.id, { ...CONTENT, name: 'Spoilt' }, 'any')
  const after = await watched.create({ ...CONTENT, name: 'After' })
  const lines = () => linesOf(backups.folder.read(file!))
  expect(await watched.importAll(lines(), { dryRun: true, replace: true })).toMatchObject({
    changes: [
      { name: 'Kept', change: 'changed' },
      { name: 'After', change: 'removed' },
    ],
  })
  expect(await watched.importAll(lines(), { dryRun: false, replace: true })).not.toHaveProperty('kind')
  expect(await store.get(kept.id)).toEqual(kept)
  expect(await store.get(after.id)).toBeNull()
  const last = (await backups.list()).at(-1)!
  expect(readFileSync(join(folder, last.name), 'utf8')).toContain(after.id)
})

test('trouble is told once, does not stop the store, and ends by itself', async () => {
  writeFileSync(join(top, 'in'), '')
  const { backups, watched, said } = await begun()
  await until(() => backups.status().state === 'failing')
  const { id } = await watched.create(CONTENT)
  expect(await watched.get(id)).toMatchObject(CONTENT)
  await wait(300)
  expect(said).toEqual([expect.stringMatching(/^The folder for backups cannot be written to/)])
  expect(backups.status().fault).toBe(said[0])
  rmSync(join(top, 'in'))
  await until(() => backups.status().state === 'kept')
  expect(said[1]).toBe('Backups are written again.')
  expect(newest()).toContain(id)
})

test('a store that fails makes no backup, and its reason is for the log alone', async () => {
  const secret = new Error('select hunter2')
  const failing = { copyTo: () => Promise.reject(secret) } as unknown as ProjectStore
  const told: unknown[] = []
  const reports = { info: () => {}, warn: (about: object) => void told.push(about) }
  const backups = await Backups.begin(failing, { folder, mostBytes: NO_BOUND }, reports)
  onTestFinished(() => backups.close())
  expect(await backups.take()).toBe(false)
  expect(readdirSync(folder)).toEqual([])
  expect(backups.status().fault).not.toContain('hunter2')
  expect(told).toEqual([{ err: secret }])
})
