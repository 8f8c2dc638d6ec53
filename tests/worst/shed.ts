import { setTimeout } from 'node:timers/promises'
import type { WorstRequest } from './requests.ts'
import { straight } from './worst-plans.ts'

const JSON_TYPE = { 'Content-Type': 'application/json' }

const PATIENCE_S = 60

/** Asked again while the database is still busy with the request before. */
async function asked(url: string, path: string, init: RequestInit = {}): Promise<Response> {
  let answer = await fetch(`${url}${path}`, init)
  for (let left = PATIENCE_S; answer.status === 503 && left > 0; left -= 2) {
    await setTimeout(2_000)
    answer = await fetch(`${url}${path}`, init)
  }
  if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`)
  return answer
}

/** A garden's plan; each has lengths of its own. */
function garden(n: number) {
  const lengths = Array.from({ length: 10 }, (_, at) => 1100 + ((n * 389 + at * 157) % 1900))
  const elements = lengths.map((length) => ({ kind: 'tangent', length }))
  return { ...straight(1000), tracks: [{ name: 'main', elements }] }
}

/** A shed with so many lengths of offcuts. */
const offcuts = (lengths: number) => ({
  sticks: Array.from({ length: lengths }, (_, n) => ({
    section: '250',
    material: 'brass',
    length: 160 + n * 3.1,
    count: 1 + (n % 3),
  })),
})

/** Saves plans while the shed is empty, so that nothing is reserved yet; the oldest is returned. */
async function saved(url: string, plans: number): Promise<string> {
  await stocked(url, {})
  const ids: string[] = []
  for (let n = 0; n < plans; n++) {
    const body = JSON.stringify({ name: `plan ${n}`, plan: garden(n) })
    const answer = await asked(url, '/v1/projects', { method: 'POST', headers: JSON_TYPE, body })
    ids.push(((await answer.json()) as { id: string }).id)
  }
  return ids[0]!
}

const ifMatch = async (url: string, path: string) => (await asked(url, path)).headers.get('etag')!

async function stocked(url: string, stock: object): Promise<void> {
  const headers = { ...JSON_TYPE, 'If-Match': await ifMatch(url, '/v1/shed') }
  await asked(url, '/v1/shed', { method: 'PUT', headers, body: JSON.stringify(stock) })
}

async function putting(url: string, name: string, path: string, body: object): Promise<WorstRequest> {
  const headers = { ...JSON_TYPE, 'If-Match': await ifMatch(url, path) }
  return { name, path, method: 'PUT', headers, body: () => JSON.stringify(body) }
}

/** What the shed and the plans saved in it make of a small request. They leave both behind, so they come last. */
export const SHED_REQUESTS: readonly WorstRequest[] = [
  {
    name: 'shed of 499 offcut lengths, 20 plans',
    path: '/v1/shed',
    prepare: async (url) => {
      await saved(url, 20)
      return putting(url, 'shed of 499 offcut lengths, 20 plans', '/v1/shed', offcuts(499))
    },
  },
  {
    name: 'oldest of 200 plans saved, shed of 301 kinds',
    path: '/v1/projects',
    prepare: async (url) => {
      const id = await saved(url, 180)
      await stocked(url, offcuts(301))
      const body = { name: 'plan 0', plan: garden(77) }
      return putting(url, 'oldest of 200 plans saved, shed of 301 kinds', `/v1/projects/${id}`, body)
    },
  },
]
