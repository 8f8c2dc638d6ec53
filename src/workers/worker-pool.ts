import { Piscina } from 'piscina'
import type { Client } from './workers.ts'
import { WorkersError } from './workers-error.ts'

/** Functions of one argument, by name. */
// biome-ignore lint/suspicious/noExplicitAny: no narrower type has every function as its kind.
type Jobs = Readonly<Record<string, (input: any) => unknown>>

export interface WorkerPool<J extends Jobs> {
  /**
   * Runs a function in a worker thread. Rejects with a `WorkersError` if all threads are busy and the queue is full, or when
   * the client disconnects; otherwise with the error of the function or of its thread.
   */
  run<Name extends keyof J & string>(
    name: Name,
    input: Parameters<J[Name]>[0],
    client: Client,
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
  /** Called when a thread has died without work. */
  readonly onDeath?: (error: Error) => void
}

/** A thread that needs more is ended and its work fails; the other threads and the service continue. */
const MEMORY_MB = 512
/** If there are fewer cores than threads, the system prefers the thread that answers requests. */
const NICE = 10

/** In a worker thread of Node 20, `--import tsx` has no effect. */
const READ_TYPESCRIPT = ['--require', 'tsx/cjs']

/**
 * Worker threads for functions that take long. They start with the first piece of work and keep running; a thread that is
 * stopped during its work, or fails, is replaced.
 *
 * @param file a module that exports the functions
 */
export function openPool<J extends Jobs>(file: URL, { threads, queue, onDeath = () => {} }: PoolSize): WorkerPool<J> {
  const running = new Set<Promise<unknown>>()
  let workers: Piscina | null = null
  let closed = false

  function start(): Piscina {
    const started = new Piscina({
      minThreads: threads,
      maxThreads: threads,
      niceIncrement: NICE,
      resourceLimits: { maxOldGenerationSizeMb: MEMORY_MB },
      ...(file.pathname.endsWith('.ts') && { execArgv: READ_TYPESCRIPT }),
    })
    // A thread died without work. Waiting work might never run, so it is refused; the next work starts a new pool.
    started.on('error', (error) => {
      onDeath(error)
      if (workers === started) workers = null
      void started.destroy()
    })
    return started
  }

  return {
    async run(name, input, { signal }) {
      if (closed) throw new WorkersError('cancelled')
      // Counted here, because the pool's own limit ignores work that can be cancelled.
      if (running.size >= threads + queue) throw new WorkersError('full')
      workers ??= start()
      const work = workers.run(input, { filename: file.href, name, signal })
      running.add(work)
      try {
        return await work
      } catch (error) {
        throw signal.aborted ? new WorkersError('cancelled') : error
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
