import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client'

/** What the figures are read from when they are asked for. */
export interface Sources {
  /** Pieces of long work that wait or are under way. */
  queuedWork(): number
  /** When the newest backup was made; null if there is none. */
  latestBackup(): string | null
  backupsFail(): boolean
}

export interface Metrics {
  readonly registry: Registry
  answered(request: {
    readonly method: string
    readonly template: string
    readonly status: number
    readonly ms: number
  }): void
  /** @param kind of the error, such as `unavailable` */
  databaseFailed(kind: string): void
}

/** Seconds; the slowest answers take up to ten. */
const BUCKETS = [0.002, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10]

/** Figures in the form of Prometheus. Those of Node.js itself, with the delay of its event loop, are among them. */
export function createMetrics(sources: Sources): Metrics {
  const registry = new Registry()
  const registers = [registry]
  collectDefaultMetrics({ register: registry })
  const durations = new Histogram({
    name: 'longchord_request_duration_seconds',
    help: 'Time from a request to the head of its answer, by the template of its address.',
    labelNames: ['method', 'template', 'status'],
    buckets: BUCKETS,
    registers,
  })
  const databaseErrors = new Counter({
    name: 'longchord_database_errors_total',
    help: 'Requests that failed because of the database, by the kind of error.',
    labelNames: ['kind'],
    registers,
  })
  new Gauge({
    name: 'longchord_queued_work',
    help: 'Pieces of long work that wait for a thread or are under way in one.',
    registers,
    collect() {
      this.set(sources.queuedWork())
    },
  })
  new Gauge({
    name: 'longchord_backup_age_seconds',
    help: 'Age of the newest backup. It grows as long as nothing changes. Not a number while there is none.',
    registers,
    collect() {
      const latest = sources.latestBackup()
      this.set(latest === null ? Number.NaN : (Date.now() - Date.parse(latest)) / 1000)
    },
  })
  new Gauge({
    name: 'longchord_backup_failing',
    help: '1 if the last backup could not be written.',
    registers,
    collect() {
      this.set(sources.backupsFail() ? 1 : 0)
    },
  })
  return {
    registry,
    answered: ({ method, template, status, ms }) => durations.observe({ method, template, status }, ms / 1000),
    databaseFailed: (kind) => databaseErrors.inc({ kind }),
  }
}
