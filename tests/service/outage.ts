import { setTimeout as wait } from 'node:timers/promises'
import postgres from 'postgres'
import type { RunningServer } from '../servers/postgres-server.ts'
import { PLAN, type Service } from './running.ts'

const CLIENTS = 12
const REST_MS = 200

/** What can happen to a database server. */
const OUTAGES = ['backends ended', 'fast restart', 'killed'] as const

export interface Outcome {
  /** How often each status was answered; `broken` counts requests without an answer. */
  readonly statuses: Readonly<Record<string, number>>
  /** Names of the plans whose saving was acknowledged, and of those that are there in the end. */
  readonly acknowledged: readonly string[]
  readonly there: ReadonlySet<string>
  /** From the server being back to the first plan saved, by round. */
  readonly backAfterMs: readonly number[]
}

/** Twelve clients save plans all the time while the server goes away and comes back, once a round. */
export async function sufferOutages(service: Service, server: RunningServer, rounds: number): Promise<Outcome> {
  const statuses: Record<string, number> = {}
  const acknowledged: string[] = []
  const backAfterMs: number[] = []
  let over = false
  let saved = 0

  const save = async (name: string) => {
    try {
      const answer = await fetch(`${service.url}/v1/projects`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        // Over and under the kilobyte from which on the driver writes at once.
        body: JSON.stringify({ name, notes: 'n'.repeat(saved % 2 === 0 ? 0 : 3000), plan: PLAN }),
      })
      await answer.text()
      statuses[answer.status] = (statuses[answer.status] ?? 0) + 1
      if (answer.status === 201) {
        saved += 1
        acknowledged.push(name)
      }
    } catch {
      statuses.broken = (statuses.broken ?? 0) + 1
    }
  }
  const client = async (number: number) => {
    for (let n = 0; !over; n += 1) await save(`${number}/${n}`)
  }
  const clients = Array.from({ length: CLIENTS }, (_, number) => client(number))
  try {
    for (let round = 0; round < rounds; round += 1) {
      await wait(REST_MS)
      await strike(OUTAGES[round % OUTAGES.length]!, server)
      const backMs = performance.now()
      const before = saved
      while (saved === before && performance.now() - backMs < 20_000) await wait(10)
      backAfterMs.push(performance.now() - backMs)
    }
  } finally {
    over = true
    await Promise.all(clients)
  }
  return { statuses, acknowledged, there: await namesIn(service), backAfterMs }
}

async function strike(outage: (typeof OUTAGES)[number], server: RunningServer): Promise<void> {
  if (outage === 'fast restart') return server.restart('SIGINT')
  if (outage === 'killed') return server.restart('SIGKILL')
  const client = postgres(server.url, { max: 1, onnotice: () => {} })
  await client`
    select pg_terminate_backend(pid) from pg_stat_activity
    where application_name = 'longchord' and pid <> pg_backend_pid()`
  await client.end()
}

async function namesIn(service: Service): Promise<ReadonlySet<string>> {
  const names = new Set<string>()
  for (let cursor: string | null = null; ; ) {
    const answer = await fetch(`${service.url}/v1/projects?limit=100${cursor === null ? '' : `&cursor=${cursor}`}`)
    const { items, next } = (await answer.json()) as { items: { name: string }[]; next: string | null }
    for (const { name } of items) names.add(name)
    if (next === null) return names
    cursor = next
  }
}
