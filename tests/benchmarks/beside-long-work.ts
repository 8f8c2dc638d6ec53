import { Agent, get } from 'node:http'
import { setTimeout as wait } from 'node:timers/promises'

/** Requests of one round, and how long after one the next is sent. */
const REQUESTS = 1_000
const EVERY_MS = 4
const ROUNDS = 3

export interface BesideLongWork {
  /** Milliseconds of all rounds together. */
  readonly idle: Spread
  readonly busy: Spread
}

interface Spread {
  readonly medianMs: number
  readonly p99Ms: number
}

/** How long a small request takes while nothing else is asked for, and while thorough cut plans are made one after the other. */
export async function besideLongWork(api: string): Promise<BesideLongWork> {
  const idleMs: number[] = []
  const busyMs: number[] = []
  await round(api)
  for (let n = 0; n < ROUNDS; n++) {
    idleMs.push(...(await round(api)))
    const enough = new AbortController()
    const longWork = cutOneAfterTheOther(api, enough.signal)
    await wait(500)
    busyMs.push(...(await round(api)))
    enough.abort()
    await longWork
  }
  return { idle: spread(idleMs), busy: spread(busyMs) }
}

async function round(api: string): Promise<number[]> {
  const agent = new Agent({ keepAlive: true, maxSockets: 1 })
  const tookMs: number[] = []
  for (let n = 0; n < REQUESTS; n++) {
    const startedMs = performance.now()
    await new Promise<void>((resolve, reject) => {
      get(`${api}/v1/bends?diameter=20ft&section=250&material=brass&chord=500`, { agent }, (answer) => {
        answer.resume().once('end', resolve)
      }).once('error', reject)
    })
    tookMs.push(performance.now() - startedMs)
    await wait(EVERY_MS)
  }
  agent.destroy()
  return tookMs
}

/** Sixty runs of unlike lengths: some seconds each, however quick the machine is. */
async function cutOneAfterTheOther(api: string, signal: AbortSignal): Promise<void> {
  const body = JSON.stringify({
    runs: Array.from({ length: 60 }, (_, n) => ({ length: 300 + ((n * 1_237) % 5_003) })),
    sticks: [
      { length: '5 ft', price: '14.50', onHand: 5 },
      { length: '6 ft', price: '17.25' },
    ],
    joinerPrice: '0.90',
    effort: 'thorough',
  })
  const headers = { 'Content-Type': 'application/json' }
  while (!signal.aborted)
    await fetch(`${api}/v1/cut-plans`, { method: 'POST', headers, body, signal }).then(
      async (answer) => {
        if (answer.status !== 200) throw new Error(`a cut plan was answered with ${answer.status}`)
        await answer.text()
      },
      (error: unknown) => {
        if (!signal.aborted) throw error
      },
    )
}

function spread(tookMs: readonly number[]): Spread {
  const sorted = tookMs.toSorted((a, b) => a - b)
  const at = (share: number) => sorted[Math.floor(share * (sorted.length - 1))]!
  return { medianMs: at(0.5), p99Ms: at(0.99) }
}
