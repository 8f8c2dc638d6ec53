import type { ProjectStore } from '../store.ts'
import { BackupFault, BackupFolder } from './backup-folder.ts'
import type { BackupFile } from './superseded.ts'

export interface BackupStatus {
  /** `none`: nothing was saved yet. `failing`: the last try did not succeed. */
  readonly state: 'off' | 'none' | 'kept' | 'failing'
  /** When the newest backup was made. */
  readonly latest: string | null
  /** Why they fail. */
  readonly fault: string | null
}

export const NO_BACKUPS: BackupStatus = { state: 'off', latest: null, fault: null }

export interface BackupTimes {
  /** Between a change, or the start, and the backup that has it. */
  readonly afterChangeMs: number
  /** At least, from one backup to the next, and after a failure. */
  readonly betweenMs: number
}

const USUAL: BackupTimes = { afterChangeMs: 60_000, betweenMs: 10 * 60_000 }

interface Reports {
  warn(about: object, text: string): void
  info(about: object, text: string): void
}

/** The calls that change what is stored. */
const CHANGING = [
  'create',
  'createOnce',
  'replace',
  'remove',
  'restore',
  'purge',
  'restock',
  'build',
  'notePurchases',
  'noteCard',
  'addLink',
  'removeLink',
  'importAll',
] as const satisfies readonly (keyof ProjectStore)[]

/**
 * Writes a backup of a store into a folder after it has changed, and once after the start, because the process before may
 * have ended first. Trouble with backups never reaches those who use the store.
 */
export class Backups {
  readonly folder: BackupFolder
  private readonly store: ProjectStore
  private readonly times: BackupTimes
  private readonly reports: Reports
  private timer: NodeJS.Timeout | null = null
  private running: Promise<boolean> | null = null
  private lastTriedMs = Number.NEGATIVE_INFINITY
  private changed = false
  private closed = false
  private latest: string | null = null
  private fault: string | null = null

  private constructor(store: ProjectStore, folder: BackupFolder, reports: Reports, times: BackupTimes) {
    this.store = store
    this.folder = folder
    this.reports = reports
    this.times = times
  }

  static async begin(
    store: ProjectStore,
    { folder, mostBytes }: { readonly folder: string; readonly mostBytes: number },
    reports: Reports,
    times: BackupTimes = USUAL,
  ): Promise<Backups> {
    const backups = new Backups(store, new BackupFolder(folder, mostBytes), reports, times)
    await backups.readLatest().catch(() => {})
    backups.noteChange()
    return backups
  }

  /** The same store; every change of it leads to a backup. */
  watched(): ProjectStore {
    const { store } = this
    const calls = CHANGING.map((name) => {
      const call = store[name] as (...args: unknown[]) => Promise<unknown>
      return [
        name,
        async (...args: unknown[]) => {
          try {
            return await call.apply(store, args)
          } finally {
            this.noteChange()
          }
        },
      ]
    })
    const watched: ProjectStore = Object.assign(Object.create(store), Object.fromEntries(calls))
    const { importAll } = watched
    // What an import replaces is kept first; whether that succeeds does not stop it.
    watched.importAll = async (lines, how) => {
      if (how.replace && !how.dryRun) await this.take()
      return importAll(lines, how)
    }
    return watched
  }

  status(): BackupStatus {
    const { latest, fault } = this
    return { state: fault !== null ? 'failing' : latest === null ? 'none' : 'kept', latest, fault }
  }

  list(): Promise<BackupFile[]> {
    return this.folder.list()
  }

  /** Makes a backup now, or waits for the one being made. Whether it succeeded. */
  take(): Promise<boolean> {
    this.running ??= this.write().finally(() => {
      this.running = null
      if (this.changed) this.plan()
    })
    return this.running
  }

  async close(): Promise<void> {
    this.closed = true
    if (this.timer !== null) clearTimeout(this.timer)
    await this.running
  }

  private noteChange(): void {
    this.changed = true
    if (this.running === null) this.plan()
  }

  private plan(): void {
    if (this.timer !== null || this.closed) return
    const { afterChangeMs, betweenMs } = this.times
    const waitMs = Math.max(afterChangeMs, this.lastTriedMs + betweenMs - performance.now())
    this.timer = setTimeout(() => {
      this.timer = null
      void this.take()
    }, waitMs).unref()
  }

  private async write(): Promise<boolean> {
    this.lastTriedMs = performance.now()
    this.changed = false
    try {
      const outcome = await this.folder.add((write) => this.store.copyTo(write), new Date())
      await this.readLatest()
      if (this.fault !== null) this.reports.info({}, 'Backups are written again.')
      if (outcome === 'written') this.reports.info({ ms: this.lastTookMs() }, 'A backup is written.')
      this.fault = null
      return true
    } catch (error) {
      const fault =
        error instanceof BackupFault ? error.message : 'The backup failed; the log of the service has the reason.'
      if (fault !== this.fault) this.reports.warn({ err: error }, fault)
      this.fault = fault
      // Tried again after a while, whether anything changes or not.
      this.changed = true
      return false
    }
  }

  private lastTookMs(): number {
    return Math.round(performance.now() - this.lastTriedMs)
  }

  private async readLatest(): Promise<void> {
    this.latest = (await this.folder.list()).at(-1)?.madeAt ?? null
  }
}
