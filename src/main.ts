import { createApp } from './app.ts'
import { readConfig } from './config.ts'
import { openLog } from './log/log.ts'
import { startMetrics } from './metrics/start-metrics.ts'
import { Backups } from './projects/backups/backups.ts'
import { openStore } from './projects/open-store.ts'
import { Purging } from './projects/purging.ts'
import { StartFault } from './projects/start-fault.ts'
import { serve } from './serving.ts'
import { openWorkers } from './workers/open-workers.ts'

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

/** What ends the process goes to standard error in words, since a person has to read it. */
function exitNow(why: string): never {
  process.stderr.write(`Longchord stops without waiting for running requests: ${why}.\n`)
  process.exit(1)
}

async function run(stop: Promise<void>): Promise<void> {
  const read = readConfig(process.env)
  if ('faults' in read) throw new StartFault(`wrong settings in the environment: ${read.faults.join('; ')}.`)
  const { config } = read
  const { log, flush } = openLog(config.logLevel)
  process.on('exit', flush)
  const store = await openStore(config, { onProgress: (line) => log.info({}, line) })
  const backups = config.backups && (await Backups.begin(store, config.backups, log))
  const watched = backups?.watched() ?? store
  const purging = new Purging(watched, log)
  const workers = openWorkers({
    threads: config.workerThreads,
    onDeath: (error) => log.error({ err: error }, 'a worker thread died'),
  })
  const figures = await startMetrics(config.metricsPort, workers, backups, log)
  try {
    const app = createApp({
      ...{ workers, backups, log },
      store: watched,
      access: config.access,
      onAnswered: figures.onAnswered,
    })
    const serving = await serve(app, config)
    const place = config.databaseUrl === null ? config.dataDir : 'PostgreSQL'
    log.info({}, `Longchord is ready at ${serving.url} (projects are stored in ${place}).`)
    await stop
    log.info({}, 'Longchord is stopping after the running requests have finished.')
    await serving.drain()
  } finally {
    figures.close()
    purging.close()
    await workers.close()
    await backups?.close()
    await store.close()
  }
}

try {
  await run(stopRequested())
  process.exit(0)
} catch (error) {
  const reason = error instanceof StartFault ? error.message : `unexpected error: ${(error as Error).message}`
  process.stderr.write(`Longchord cannot run: ${reason}\n`)
  process.exit(1)
}
