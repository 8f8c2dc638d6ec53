import { MessageChannel, type MessagePort } from 'node:worker_threads'
import type { ForeseenBuilding, foreseeBuilding } from '../shed/foresee-building.ts'
import { NOTHING, type Stock } from '../shed/stock.ts'
import { HERE } from './here.ts'
import { openPool, type PoolSize } from './worker-pool.ts'
import type { Client, Workers } from './workers.ts'
import { WorkersError } from './workers-error.ts'

/** A request as plain data. */
export interface PlainRequest {
  readonly method: string
  readonly url: string
  readonly headers: readonly (readonly [string, string])[]
  readonly body: Uint8Array<ArrayBuffer> | null
}

/** Its answer, ready to be sent. */
export interface PlainAnswer {
  readonly status: number
  readonly headers: readonly (readonly [string, string])[]
  readonly body: Uint8Array<ArrayBuffer> | null
}

/** What a worker thread can do, by name (src/thread.ts). */
export type ThreadJobs = {
  /** @param port for what the answer needs of the thread that asks; see `answerCalls` */
  readonly answer: (asked: {
    readonly request: PlainRequest
    readonly port: MessagePort
  }) => Promise<PlainAnswer | 'too-large'>
  readonly foreseeBuilding: typeof foreseeBuilding
  readonly neededStock: (asked: { readonly plan: unknown; readonly free: Stock }) => Stock
}

export interface Threads {
  /**
   * Answers a whole request in a worker thread.
   *
   * @param call answers what the thread asks for in the meantime
   */
  answer(request: PlainRequest, call: (asked: unknown) => Promise<unknown>, client: Client): Promise<PlainAnswer>
  /** What a saved plan takes of the free stock. */
  neededStock(plan: unknown, free: Stock): Promise<Stock>
}

export interface OpenWorkers {
  /** What the thread that answers requests may do. */
  readonly workers: Workers
  readonly threads: Threads
  /** Pieces of work that wait for a thread or are under way. */
  queued(): number
  close(): Promise<void>
}

/** Requests that may wait for a thread. */
const REQUESTS_WAITING = 32
/** Saved plans that may wait for their stock; those of one transaction come one by one. */
const PLANS_WAITING = 64

/** A quick plan takes less; the transaction that waits for it keeps others waiting. */
const DEALING = { deadlineMs: 8_000, memoryMb: 256 }

const NOBODY: Client = { signal: new AbortController().signal }

/**
 * Worker threads for whole requests, and one more for dealing stock: requests wait for that one, so it must not wait for
 * theirs.
 *
 * @param file the module with the jobs
 */
export function openWorkers(
  file: URL,
  { threads, queue = REQUESTS_WAITING, limits = {}, ...more }: Omit<PoolSize, 'queue'> & Partial<PoolSize>,
): OpenWorkers {
  const requests = openPool<ThreadJobs>(file, { ...more, threads, queue, limits })
  const dealing = openPool<ThreadJobs>(file, {
    ...more,
    threads: 1,
    queue: PLANS_WAITING,
    limits: { ...DEALING, ...limits },
  })
  return {
    workers: {
      ...HERE,
      foreseeBuilding: (asked, client): Promise<ForeseenBuilding> => requests.run('foreseeBuilding', asked, client),
    },
    threads: {
      async answer(request, call, client) {
        const { port1, port2 } = new MessageChannel()
        answerCalls(port1, call)
        try {
          const transfer = request.body === null ? [port2] : [port2, request.body.buffer]
          const answer = await requests.run('answer', { request, port: port2 }, client, transfer)
          if (answer === 'too-large') throw new WorkersError('too-large')
          return answer
        } finally {
          port1.close()
        }
      },
      async neededStock(plan, free) {
        try {
          return await dealing.run('neededStock', { plan, free }, NOBODY)
        } catch (error) {
          // Others must be able to save all the same.
          if (error instanceof WorkersError && isTooMuch(error)) return NOTHING
          throw error
        }
      },
    },
    queued: () => requests.queued() + dealing.queued(),
    async close() {
      await requests.close()
      await dealing.close()
    },
  }
}

function isTooMuch({ kind }: WorkersError): boolean {
  return kind === 'too-long' || kind === 'too-much-memory'
}

/** Answers each call that arrives, in whatever order they are done. */
function answerCalls(port: MessagePort, call: (asked: unknown) => Promise<unknown>): void {
  port.on('message', async ({ id, asked }: { id: number; asked: unknown }) => {
    port.postMessage({ id, answer: await call(asked) })
  })
}
