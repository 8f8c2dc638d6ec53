import { readFileSync, rmSync, statSync, truncateSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { newFolder, PLAN, running } from './running.ts'

const ROUNDS = Number(process.env.POWER_CUTS ?? 2)
const WRITERS = 8

const recorder = new URL('note-synced.mjs', import.meta.url).pathname
const start = new URL('../../src/start.mjs', import.meta.url).pathname

/** What the last of the writers was told about a project; null once it is removed. */
type Known = Map<string, string | null>

/** Saves, renames and removes projects until the service is gone. What is under way when it goes is not known. */
async function write(url: string, label: string, known: Known): Promise<void> {
  const ask = (path: string, method: string, body?: unknown) =>
    fetch(`${url}/v1/projects${path}`, {
      method,
      headers: { 'Content-Type': 'application/json', ...(method === 'POST' ? {} : { 'If-Match': '*' }) },
      body: body === undefined ? null : JSON.stringify(body),
    })
  for (let n = 0; ; n += 1) {
    let id: string | undefined
    try {
      const name = `${label} ${n}`
      const made = await ask('', 'POST', { name, plan: PLAN })
      expect(made.status).toBe(201)
      id = ((await made.json()) as { id: string }).id
      known.set(id, name)
      if (n % 3 === 0) {
        known.delete(id)
        expect((await ask(`/${id}`, 'PUT', { name: `${name}, changed`, plan: PLAN })).status).toBe(200)
        known.set(id, `${name}, changed`)
      }
      if (n % 7 === 0) {
        known.delete(id)
        expect((await ask(`/${id}`, 'DELETE')).status).toBe(204)
        known.set(id, null)
      }
    } catch (error) {
      if (!(error instanceof TypeError)) throw error
      return
    }
  }
}

/** Everything that no call has brought to the disk is lost: the whole database, and the end of the journal. */
function cutPower(dataDir: string, synced: string): void {
  rmSync(join(dataDir, 'database'), { recursive: true, force: true })
  rmSync(join(dataDir, 'journal.jsonl.unfinished'), { force: true })
  const journal = join(dataDir, 'journal.jsonl')
  const number = String(statSync(journal).ino)
  const lengths = readFileSync(synced, 'utf8')
    .split('\n')
    .map((line) => line.split(' '))
    .filter(([file]) => file === number)
    .map(([, length]) => Number(length))
  truncateSync(journal, lengths.at(-1)!)
}

test(
  'what was acknowledged is there after a power cut',
  async () => {
    const folder = newFolder()
    const dataDir = join(folder, 'data')
    const synced = join(folder, 'synced')
    const known: Known = new Map()
    for (let round = 0; round < ROUNDS; round += 1) {
      const service = await running({ DATA_DIR: dataDir, SYNCED: synced }, [
        process.execPath,
        '--import',
        recorder,
        start,
      ])
      for (const [id, name] of known) {
        const answer = await fetch(`${service.url}/v1/projects/${id}`)
        expect([id, answer.status]).toEqual([id, name === null ? 404 : 200])
        if (name !== null) expect(await answer.json()).toMatchObject({ name })
      }
      const writing = Array.from({ length: WRITERS }, (_, n) => write(service.url, `${round}/${n}`, known))
      const before = known.size
      for (let waited = 0; known.size < before + 2 * WRITERS && waited < 200; waited += 1) await wait(100)
      await wait(100 * (round % 5))
      service.child.kill('SIGKILL')
      await Promise.all(writing)
      await service.ended
      cutPower(dataDir, synced)
    }
    console.log(`${ROUNDS} power cuts, ${known.size} projects known`)
    expect(known.size).toBeGreaterThanOrEqual(ROUNDS * WRITERS)
  },
  60_000 + ROUNDS * 60_000,
)
