import { Piscina } from 'piscina'
import type { Asker } from './workers.ts'
import { WorkersError } from './workers-error.ts'

/** Functions of one argument, by name. */
// biome-ignore lint/suspicious/noExplicitAny: no narrower type has every function as its kind.
type Jobs = Readonly<Record<string, (input: any) => unknown>>

export interface WorkerPool<J extends Jobs> {
  /**
   * Runs a function in a worker thread. Rejects with a `WorkersError` when all threads are busy and the queue is full, or
   * once nobody waits for it; otherwise with whatever the function threw or its thread died of.
   */
  run<Name extends keyof J & string>(
    name: Name,
    input: Parameters<J[Name]>[0],
    asker: Asker,
  ): Promise<Awaited<ReturnType<J[Name]>>>
  /** Takes no more work, lets what was taken finish, and ends the threads. */
  close(): Promise<void>
}

export interface PoolSize {
  readonly threads: number
  /** Pieces of work that may wait for a thread. */
  readonly queue: number
}

/** A thread that needs more dies, and its work with it; the others and the service go on. */
const MEMORY_MB = 512
/** Where there are fewer cores than threads the system prefers the thread that answers requests. */
const NICE = 10

/** What `--import tsx` does not do in a worker thread of Node 20. */
const READ_TYPESCRIPT = ['--require', 'tsx/cjs']

/**
 * Worker threads for functions that take long. They start with the first piece of work and are then kept; one that is
 * stopped in the middle of its work, or dies, is replaced.
 *
 * @param file a module that exports the functions
 */
export function openPool<J extends Jobs>(file: URL, { threads, queue }: PoolSize): WorkerPool<J> {
  const underWay = new Set<Promise<unknown>>()
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
    // A thread died with no work of its own. What waits may wait for ever, so it is refused; the next work begins anew.
    started.on('error', (error) => {
      console.error('a worker thread died:', error)
      if (workers === started) workers = null
      void started.destroy()
    })
    return started
  }

  return {
    async run(name, input, { signal }) {
      if (closed) throw new WorkersError('given-up')
      // Counted here: the pool's own bound leaves out work that can be given up.
      if (underWay.size >= threads + queue) throw new WorkersError('full')
      workers ??= start()
      const work = workers.run(input, { filename: file.href, name, signal })
      underWay.add(work)
      try {
        return await work
      } catch (error) {
        throw signal.aborted ? new WorkersError('given-up') : error
      } finally {
        underWay.delete(work)
      }
    },
    async close() {
      closed = true
      await Promise.allSettled(underWay)
      await workers?.destroy()
    },
  }
}
