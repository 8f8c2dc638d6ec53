import type { Transferable as Transferred } from 'node:worker_threads'
import { Piscina } from 'piscina'
import type { Client } from './workers.ts'
import { WorkersError } from './workers-error.ts'

/** Functions of one argument, by name. */
// biome-ignore lint/suspicious/noExplicitAny: no narrower type has every function as its kind.
type Jobs = Readonly<Record<string, (input: any) => unknown>>

export interface WorkerPool<J extends Jobs> {
  /**
   * Runs a function in a worker thread. Rejects with a `WorkersError` if there is no room for it, it meets a limit, or the
   * client disconnects; otherwise with the error of the function or of its thread.
   *
   * @param transfer parts of the input that are handed over instead of copied
   */
  run<Name extends keyof J & string>(
    name: Name,
    input: Parameters<J[Name]>[0],
    client: Client,
    transfer?: readonly Transferred[],
  ): Promise<Awaited<ReturnType<J[Name]>>>
  /** Pieces of work that wait for a thread or are under way. */
  queued(): number
  /** Accepts no more work, lets accepted work finish, and ends the threads. */
  close(): Promise<void>
}

export interface PoolSize {
  readonly threads: number
  /** Pieces of work that may wait for a thread. */
  readonly queue: number
  readonly limits?: Partial<PoolLimits>
  /** Called when a thread has died without work. */
  readonly onDeath?: (error: Error) => void
}

export interface PoolLimits {
  /** Of one piece of work, from its beginning; its thread is ended then. */
  readonly deadlineMs: number
  /** Of waiting for a thread. */
  readonly patienceMs: number
  /** Of one thread, which is ended when it needs more; the others and the service continue. */
  readonly memoryMb: number
  /** If there are fewer cores than threads, the system prefers the thread that answers requests: the larger, the more so. */
  readonly niceness: number
}

/** A thorough plan may search for most of a minute. */
const LIMITS: PoolLimits = { deadlineMs: 60_000, patienceMs: 30_000, memoryMb: 400, niceness: 10 }

/**
 * In a worker thread of Node 20, `--import tsx` has no effect. `tsx/cjs` reads what is imported at once; what is imported
 * later, such as what prints, needs tsx registered as well.
 */
function readTypescript(): string[] {
  const api = import.meta.resolve('tsx/esm/api')
  return ['--require', 'tsx/cjs', '--import', `data:text/javascript,import{register}from"${api}";register()`]
}

/**
 * Worker threads for functions that take long. They start with the first piece of work and keep running; a thread that is
 * stopped during its work, or fails, is replaced.
 *
 * @param file a module that exports the functions
 */
export function openPool<J extends Jobs>(
  file: URL,
  { threads, queue, limits, onDeath = () => {} }: PoolSize,
): WorkerPool<J> {
  const { deadlineMs, patienceMs, memoryMb, niceness } = { ...LIMITS, ...limits }
  const running = new Set<Promise<unknown>>()
  const waiting: (() => void)[] = []
  let busy = 0
  let workers: Piscina | null = null
  let closed = false

  function start(): Piscina {
    const started = new Piscina({
      minThreads: threads,
      maxThreads: threads,
      niceIncrement: niceness,
      resourceLimits: { maxOldGenerationSizeMb: memoryMb },
      ...(file.pathname.endsWith('.ts') && { execArgv: readTypescript() }),
    })
    // A thread died without work. Waiting work might never run, so it is refused; the next work starts a new pool.
    started.on('error', (error) => {
      onDeath(error)
      if (workers === started) workers = null
      void started.destroy()
    })
    return started
  }

  /** Resolves when a thread is free, which is then taken. */
  async function turn(signal: AbortSignal): Promise<void> {
    if (busy < threads) {
      busy++
      return
    }
    if (waiting.length >= queue) throw new WorkersError('full')
    await new Promise<void>((resolve, reject) => {
      const settle = (done: () => void) => () => {
        clearTimeout(timer)
        signal.removeEventListener('abort', cancelled)
        done()
      }
      const leave = (kind: 'full' | 'cancelled') =>
        settle(() => {
          waiting.splice(waiting.indexOf(next), 1)
          reject(new WorkersError(kind))
        })
      const next = settle(resolve)
      const cancelled = leave('cancelled')
      const timer = setTimeout(leave('full'), patienceMs)
      signal.addEventListener('abort', cancelled)
      waiting.push(next)
    })
  }

  /** Gives the thread to the next in the queue. */
  function done(): void {
    const next = waiting.shift()
    if (next) next()
    else busy--
  }

  async function worked<T>(
    name: string,
    input: unknown,
    { signal }: Client,
    transferList: readonly Transferred[],
  ): Promise<T> {
    if (signal.aborted) throw new WorkersError('cancelled')
    await turn(signal)
    workers ??= start()
    const deadline = AbortSignal.timeout(deadlineMs)
    try {
      return await workers.run(input, {
        filename: file.href,
        name,
        signal: AbortSignal.any([signal, deadline]),
        transferList: [...transferList] as never,
      })
    } catch (error) {
      if (signal.aborted) throw new WorkersError('cancelled')
      if (deadline.aborted) throw new WorkersError('too-long')
      throw (error as NodeJS.ErrnoException).code === OUT_OF_MEMORY ? new WorkersError('too-much-memory') : error
    } finally {
      done()
    }
  }

  return {
    async run(name, input, client, transfer = []) {
      if (closed) throw new WorkersError('cancelled')
      const work = worked(name, input, client, transfer)
      running.add(work)
      try {
        return (await work) as never
      } finally {
        running.delete(work)
      }
    },
    queued: () => running.size,
    async close() {
      closed = true
      await Promise.allSettled(running)
      await workers?.destroy()
    },
  }
}

const OUT_OF_MEMORY = 'ERR_WORKER_OUT_OF_MEMORY'
