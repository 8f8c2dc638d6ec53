import { createApp } from './app.ts'
import { readConfig } from './config.ts'
import { openStore } from './projects/open-store.ts'
import { StartFault } from './projects/start-fault.ts'
import { serve } from './serving.ts'
import { openWorkers } from './workers/open-workers.ts'

/** In the bundle the threads' module is beside this file. */
const THREAD = new URL(import.meta.url.endsWith('.ts') ? './thread.ts' : './thread.js', import.meta.url)

/** How long running requests may take after the first signal. */
const DRAIN_LIMIT_MS = 10_000
/** Ctrl-C reaches a child of npm twice, from the terminal and from npm; a signal within this time is not a second request. */
const REPEAT_MS = 1_000

/** Resolves at the first SIGTERM or SIGINT. A second one, or draining too slowly, ends the process with exit code 1. */
function stopRequested(): Promise<void> {
  return new Promise((resolve) => {
    let firstMs: number | null = null
    const onSignal = () => {
      if (firstMs === null) {
        firstMs = performance.now()
        setTimeout(() => exitNow(`they are not finished after ${DRAIN_LIMIT_MS / 1000} s`), DRAIN_LIMIT_MS).unref()
        resolve()
      } else if (performance.now() - firstMs > REPEAT_MS) {
        exitNow('a second signal arrived')
      }
    }
    process.on('SIGTERM', onSignal)
    process.on('SIGINT', onSignal)
  })
}

function exitNow(why: string): never {
  console.error(`Longchord stops without waiting for running requests: ${why}.`)
  process.exit(1)
}

async function run(stop: Promise<void>): Promise<void> {
  const read = readConfig(process.env)
  if ('faults' in read) throw new StartFault(`wrong settings in the environment: ${read.faults.join('; ')}.`)
  const { config } = read
  const store = await openStore(config, { onProgress: (line) => console.log(line) })
  const { workers, threads, close: endThreads } = openWorkers(THREAD, { threads: config.workerThreads })
  try {
    const serving = await serve(createApp({ store, workers, threads, access: config.access }), config)
    const place = config.databaseUrl === null ? config.dataDir : 'PostgreSQL'
    console.log(`Longchord is ready at ${serving.url} (projects are stored in ${place}).`)
    await stop
    console.log('Longchord is stopping after the running requests have finished.')
    await serving.drain()
  } finally {
    await endThreads()
    await store.close()
  }
}

try {
  await run(stopRequested())
  process.exit(0)
} catch (error) {
  const reason = error instanceof StartFault ? error.message : `unexpected error: ${(error as Error).message}`
  console.error(`Longchord cannot run: ${reason}`)
  process.exit(1)
}
