import { createApp } from './app.ts'
import { readConfig } from './config.ts'
import { openStore } from './projects/open-store.ts'
import { StartFault } from './projects/start-fault.ts'
import { serve } from './serving.ts'
import { openWorkers } from './workers/open-workers.ts'

/** Requests under way get this long after the first signal. */
const DRAIN_LIMIT_MS = 10_000
/** Ctrl-C reaches a child of npm twice, from the terminal and from npm; the echo is not a second wish. */
const ECHO_MS = 1_000

/** Resolves at the first SIGTERM or SIGINT. A later one, or too slow a drain, ends the process with exit code 1. */
function stopAsked(): Promise<void> {
  return new Promise((resolve) => {
    let askedMs: number | null = null
    const onSignal = () => {
      if (askedMs === null) {
        askedMs = performance.now()
        setTimeout(() => giveUp(`not done after ${DRAIN_LIMIT_MS / 1000} s`), DRAIN_LIMIT_MS).unref()
        resolve()
      } else if (performance.now() - askedMs > ECHO_MS) {
        giveUp('asked again')
      }
    }
    process.on('SIGTERM', onSignal)
    process.on('SIGINT', onSignal)
  })
}

function giveUp(why: string): never {
  console.error(`Longchord stops without waiting for the requests under way: ${why}.`)
  process.exit(1)
}

async function run(stop: Promise<void>): Promise<void> {
  const read = readConfig(process.env)
  if ('complaints' in read) throw new StartFault(`the environment is not right: ${read.complaints.join('; ')}.`)
  const { config } = read
  const store = await openStore(config, { onProgress: (line) => console.log(line) })
  const workers = openWorkers({ threads: config.workerThreads })
  try {
    const serving = await serve(createApp({ store, workers }), config)
    const place = config.databaseUrl === null ? config.dataDir : 'PostgreSQL'
    console.log(`Longchord is ready at ${serving.url} (projects are kept in ${place}).`)
    await stop
    console.log('Longchord is stopping: the requests under way finish first.')
    await serving.drain()
  } finally {
    await workers.close()
    await store.close()
  }
}

try {
  await run(stopAsked())
  process.exit(0)
} catch (error) {
  const reason = error instanceof StartFault ? error.message : `unexpected fault: ${(error as Error).message}`
  console.error(`Longchord cannot run: ${reason}`)
  process.exit(1)
}
