import { describe, expect, onTestFinished, test } from 'vitest'
import { type DatabaseKind, unopenedKinds } from '../servers/databases.ts'
import { PLAN, running, type Service } from './running.ts'

const ROUNDS = process.env.CI === 'true' ? 10 : 2
const WRITERS = 4
/** A restart recovers the database first. */
const READY_WITHIN_MS = 15_000

/** What one project is known to be: every revision that was acknowledged, by its number. */
type Acknowledged = Map<string, { names: Map<number, string>; removed: boolean; unsure: boolean }>

interface Answered {
  readonly status: number
  readonly body: { readonly id: string; readonly revision: number; readonly name: string }
}

async function ask(url: string, method: string, body?: unknown): Promise<Answered> {
  const headers: Record<string, string> = { 'Content-Type': 'application/json' }
  if (method !== 'POST') headers['If-Match'] = '*'
  const answer = await fetch(url, { method, headers, body: body === undefined ? null : JSON.stringify(body) })
  const text = await answer.text()
  return { status: answer.status, body: text === '' ? null : JSON.parse(text) }
}

/** Saves, replaces and removes projects until the service is gone, noting what it acknowledged. */
async function write(service: Service, known: Acknowledged, label: string, onAcknowledged: () => void): Promise<void> {
  for (let n = 0; ; n += 1) {
    let underWay: string | null = null
    try {
      const name = `${label}, project ${n}`
      const made = await ask(`${service.url}/v1/projects`, 'POST', { name, plan: PLAN })
      expect(made.status).toBe(201)
      const { id } = made.body
      const project = { names: new Map([[1, name]]), removed: false, unsure: false }
      known.set(id, project)
      underWay = id
      onAcknowledged()
      if (n % 2 === 0) {
        const next = `${name}, again`
        const replaced = await ask(`${service.url}/v1/projects/${id}`, 'PUT', { name: next, plan: PLAN })
        expect(replaced.status).toBe(200)
        project.names.set(replaced.body.revision, next)
      }
      if (n % 5 === 0) {
        const removed = await ask(`${service.url}/v1/projects/${id}`, 'DELETE')
        expect(removed.status).toBe(204)
        project.removed = true
      }
    } catch (error) {
      // Whether a request without an answer was carried out is not known; anything else is a fault.
      if (!(error instanceof TypeError)) throw error
      if (underWay !== null) known.get(underWay)!.unsure = true
      return
    }
  }
}

async function expectKept(service: Service, known: Acknowledged): Promise<void> {
  for (const [id, { names, removed, unsure }] of known) {
    const last = Math.max(...names.keys())
    const { status, body } = await ask(`${service.url}/v1/projects/${id}`, 'GET')
    if (removed || (unsure && status === 404)) {
      expect(status, id).toBe(404)
      continue
    }
    expect(status, id).toBe(200)
    expect(body.revision - last, id).toBeGreaterThanOrEqual(0)
    expect(body.revision - last, id).toBeLessThanOrEqual(unsure ? 1 : 0)
    for (const [revision, name] of names) {
      const kept = await ask(`${service.url}/v1/projects/${id}/revisions/${revision}`, 'GET')
      expect(kept.body, id).toMatchObject({ id, revision, name, plan: PLAN })
    }
  }
}

const kinds: DatabaseKind[] = unopenedKinds().slice(0, 2)

describe('a service killed while it saves', { timeout: 180_000 }, () => {
  test.for(kinds)(`has lost nothing that it acknowledged on $name, ${ROUNDS} times over`, async (kind) => {
    const database = await kind.make()
    onTestFinished(database.dispose)
    const { databaseUrl, dataDir } = database.place
    const env: Record<string, string> = databaseUrl === null ? { DATA_DIR: dataDir } : { DATABASE_URL: databaseUrl }
    const known: Acknowledged = new Map()
    let service = await running(env)
    for (let round = 0; round < ROUNDS; round += 1) {
      const written: Acknowledged = new Map()
      const labels = Array.from({ length: WRITERS }, (_, writer) => `round ${round}, writer ${writer}`)
      // Each round is killed after another number of saves, at another moment of a save.
      let left = 5 + 9 * round
      const onAcknowledged = () => {
        left -= 1
        if (left === 0) setTimeout(() => service.child.kill('SIGKILL'), round)
      }
      await Promise.all(labels.map((label) => write(service, written, label, onAcknowledged)))
      expect(await service.ended).toMatchObject({ signal: 'SIGKILL' })
      for (const [id, project] of written) known.set(id, project)

      const startedMs = performance.now()
      service = await running(env)
      expect((await ask(`${service.url}/readyz`, 'GET')).status).toBe(200)
      expect(performance.now() - startedMs).toBeLessThan(READY_WITHIN_MS)
      await expectKept(service, written)
    }
    await expectKept(service, known)
    const listed = new Set<string>()
    for (let next: string | null = ''; next !== null; ) {
      const answer = await fetch(`${service.url}/v1/projects?limit=100${next === '' ? '' : `&cursor=${next}`}`)
      const page = (await answer.json()) as { items: { id: string }[]; next: string | null }
      for (const { id } of page.items) listed.add(id)
      next = page.next
    }
    for (const [id, { removed, unsure }] of known) if (!unsure) expect(listed.has(id), id).toBe(!removed)
    // At most the one request that each writer had under way was carried out without a word.
    expect(listed.size).toBeLessThanOrEqual(known.size + WRITERS * ROUNDS)
  })
})
