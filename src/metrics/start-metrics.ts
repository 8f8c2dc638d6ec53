import type { Log } from '../log/log.ts'
import type { Answered } from '../log/requests.ts'
import type { Backups } from '../projects/backups/backups.ts'
import { StartFault } from '../projects/start-fault.ts'
import { StoreError } from '../projects/store-error.ts'
import { createMetrics } from './metrics.ts'
import { serveMetrics } from './serve-metrics.ts'

interface Figures {
  onAnswered(answered: Answered): void
  close(): void
}

const NONE: Figures = { onAnswered: () => {}, close: () => {} }

/** Collects figures about the service and serves them, if there is a port for them. */
export async function startMetrics(
  port: number | null,
  workers: { queued(): number },
  backups: Backups | null,
  log: Log,
): Promise<Figures> {
  if (port === null) return NONE
  const metrics = createMetrics({
    queuedWork: () => workers.queued(),
    latestBackup: () => backups?.status().latest ?? null,
    backupsFail: () => backups?.status().state === 'failing',
  })
  const serving = await serveMetrics(metrics.registry, port).catch((error: NodeJS.ErrnoException) => {
    throw new StartFault(`Port ${port} for figures cannot be used (${error.code}). Choose another one in METRICS_PORT.`)
  })
  log.info({}, `Figures for Prometheus are at ${serving.url}.`)
  return {
    onAnswered: (answered) => {
      metrics.answered(answered)
      if (answered.error instanceof StoreError) metrics.databaseFailed(answered.error.kind)
    },
    close: serving.close,
  }
}
