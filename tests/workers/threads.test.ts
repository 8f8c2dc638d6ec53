import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { StoreError } from '../../src/projects/store-error.ts'
import { NOTHING } from '../../src/shed/stock.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { openWorkers } from '../../src/workers/open-workers.ts'
import { example } from '../api/asking.ts'
import { windingPlan } from '../benchmarks/plans.ts'
import { surveyed } from '../worst/worst-plans.ts'
import { patient, QUICK } from './pools.ts'

const SURVEYED = surveyed(30) as {
  pegs: { name: string; x: number; y: number }[]
  distances: { from: string; to: string; length: number }[]
}
const SURVEY_TYPED = {
  pegs: SURVEYED.pegs.map(({ name, x, y }) => `${name}, ${x.toFixed(3)}, ${y.toFixed(3)}`).join('\n'),
  distances: SURVEYED.distances.map(({ from, to, length }) => `${from}, ${to}, ${length.toFixed(3)}`).join('\n'),
}

const PROJECT = {
  id: '01890a5d-ac96-774b-bcce-b302099a8057',
  name: 'Long line',
  notes: '',
  revision: 1,
  createdAt: '2026-01-01T00:00:00.000Z',
  updatedAt: '2026-01-01T00:00:00.000Z',
  plan: windingPlan(200),
}
const store = {
  get: async (id: string) => (id === PROJECT.id ? PROJECT : null),
  reserved: async () => NOTHING,
  freeStock: async () => NOTHING,
  builds: async () => [],
  revisions: async () => {
    throw new StoreError('unavailable', 'The database does not answer.')
  },
  create: async (content: object) => ({ ...PROJECT, ...content }),
} as unknown as ProjectStore

const open = openWorkers(new URL('../../src/thread.ts', import.meta.url), { threads: 1, limits: QUICK })
afterAll(() => open.close())

const withThreads = createApp({ store, workers: open.workers, threads: open.threads })
const without = createApp({ store, workers: inThisThread })

const thorough = { ...windingPlan(12), effort: 'thorough' }
const readings = Array.from({ length: 60 }, (_, n) => (n < 4 || n > 55 ? 0 : 12 + ((n * 7) % 5) / 2 - 1))
const json = (value: unknown): RequestInit => ({
  method: 'POST',
  headers: { 'Content-Type': 'application/json' },
  body: JSON.stringify(value),
})
const form = (fields: Record<string, string>): RequestInit => ({
  method: 'POST',
  headers: { 'Content-Type': 'application/x-www-form-urlencoded', Origin: 'http://localhost' },
  body: new URLSearchParams(fields).toString(),
})
const STRAIGHTS = Object.fromEntries([
  ['rail.section', '250'],
  ['rail.material', 'brass'],
  ['tracks.0.name', 'main'],
  ['name', 'Straights'],
  ...Array.from({ length: 300 }, (_, n) => [
    [`tracks.0.elements.${n}.kind`, 'tangent'],
    [`tracks.0.elements.${n}.length`, `${900 + n}`],
  ]).flat(),
])

/** The answer, and whether this thread was free while it was being worked out. */
async function asked(app: typeof withThreads, path: string, init: RequestInit) {
  let free = false
  setImmediate(() => {
    free = true
  })
  const { headers = {}, ...rest } = init
  const response = await app.request(path, { ...rest, headers: { ...headers, 'X-Request-Id': 'the-same' } })
  const body = await response.text()
  return { free, status: response.status, headers: Object.fromEntries(response.headers), body }
}

describe('what takes long', () => {
  // The thread has to start and to read the sources once.
  beforeAll(async () => void (await withThreads.request('/v1/estimates', json(thorough))), 120_000)

  test.each<[string, string, RequestInit]>([
    ['a thorough estimate', '/v1/estimates', json(thorough)],
    ['a large plan', '/v1/estimates?fields=bill', json(windingPlan(504))],
    ['a large plan with a fault', '/v1/estimates', json({ ...windingPlan(504), gauge: -1 })],
    ['a table', '/v1/tables/elements.csv', json(windingPlan(120))],
    [
      'a comparison',
      '/v1/comparisons',
      json({ plan: windingPlan(60), materials: [{ material: 'brass' }, { material: 'steel' }] }),
    ],
    ['a cut plan', '/v1/cut-plans', json({ ...(example('six-runs-to-cut') as object), effort: 'thorough' })],
    ['readings', '/v1/bend-checks', json({ chord: 500, readings })],
    ['test bends', '/v1/bend-calibrations', json(example('calibration-by-radii'))],
    ['what fits', '/v1/fits', json(example('connection-to-fit'))],
    ['pegs', '/v1/setting-outs', json({ plan: windingPlan(60), interval: 100 })],
    ['a yard', '/v1/figures', json({ ...(example('yard-of-four-tracks') as object), clears: Array(20).fill('3 m') })],
    ['a survey', '/v1/surveys', json(SURVEYED)],
    ['the page of a survey', '/survey', form(SURVEY_TYPED)],
    ['a cell', '/v1/cell/sticks?track=S9000m&stick=6ft&stickPrice=10', {}],
    ['a cell without its body', '/v1/cell/sticks?track=S9001m&stick=6ft&stickPrice=10', { method: 'HEAD' }],
    ['the estimate of a project', `/v1/projects/${PROJECT.id}/estimate?fields=cutting`, {}],
    ['a sheet of a project', `/plans/${PROJECT.id}/saw`, {}],
    ['the page of a large form', '/', form({ ...STRAIGHTS, do: 'work' })],
    ['a form that is saved', '/', form({ ...STRAIGHTS, do: 'save' })],
    ['the guide for spreadsheets', '/docs/spreadsheets', {}],
  ])('%s is answered in a worker thread as it would be in this one', async (_, path, init) => {
    const { free, ...answer } = await asked(withThreads, path, init)
    const { free: __, ...expected } = await asked(without, path, init)
    expect(answer).toEqual(expected)
    // A quick thread may answer before this one has its first turn; what is answered here never leaves it one.
    let everFree = free
    for (let more = 0; more < 5 && !everFree; more++) everFree = (await asked(withThreads, path, init)).free
    expect(everFree).toBe(true)
  })

  test.each<[string, string, RequestInit]>([
    ['a small plan', '/v1/estimates', json({ ...(example('quarter-loop') as object) })],
    ['a curve', '/v1/bends?diameter=20ft', {}],
    ['a short cell', '/v1/cell/ties?length=6ft', {}],
  ])('%s is answered in this thread', async (_, path, init) => {
    expect(await asked(withThreads, path, init)).toMatchObject({ free: false, status: 200 })
  })

  test('an answer of a cell is kept for everyone, and answered here the next time', async () => {
    const path = '/v1/cell/joiners?track=S8000m&stick=6ft&stickPrice=10'
    const first = await asked(withThreads, path, {})
    const second = await asked(withThreads, path, {})
    expect([first.free, second.free]).toEqual([true, false])
    expect(second.body).toBe(first.body)
  })

  test('a database that fails is told to the thread', async () => {
    const refused = await open.threads.answer(
      { method: 'GET', url: `http://localhost/plans/${PROJECT.id}/revisions`, headers: [], body: null },
      async () => ({ ok: false, of: 'store', kind: 'unavailable', message: 'The database does not answer.' }),
      patient,
    )
    expect(refused.status).toBe(503)
  })
})
