import type { ProjectStore } from './store.ts'

const HOUR_MS = 3_600_000
/** How far the clock may stray from the time that has really passed. */
const STRAY_MS = 5 * 60_000

interface Clocks {
  /** The time of day, which people and programs set. */
  now(): number
  /** Only ever goes forward, at its own rate. */
  passed(): number
}

const SYSTEM: Clocks = { now: () => Date.now(), passed: () => performance.now() }

interface Reports {
  info(about: object, text: string): void
  warn(about: object, text: string): void
}

/**
 * Removes every hour what was deleted long ago. A clock that jumped forward would make everything look old, so nothing is
 * removed in an hour in which it was set, nor in the first hour: a small computer may start with any time of day.
 */
export class Purging {
  private readonly store: ProjectStore
  private readonly reports: Reports
  private readonly clocks: Clocks
  private readonly timer: NodeJS.Timeout
  private differenceMs: number

  constructor(store: ProjectStore, reports: Reports, clocks: Clocks = SYSTEM, everyMs = HOUR_MS) {
    this.store = store
    this.reports = reports
    this.clocks = clocks
    this.differenceMs = clocks.now() - clocks.passed()
    this.timer = setInterval(() => void this.sweep(), everyMs).unref()
  }

  /** How many were removed. */
  async sweep(): Promise<number> {
    const before = this.differenceMs
    this.differenceMs = this.clocks.now() - this.clocks.passed()
    if (Math.abs(this.differenceMs - before) > STRAY_MS) return 0
    try {
      const count = await this.store.purge()
      if (count > 0) this.reports.info({ count }, 'Projects that were deleted long ago are removed.')
      return count
    } catch (error) {
      this.reports.warn({ err: error }, 'Projects that were deleted long ago could not be removed; tried again later.')
      return 0
    }
  }

  close(): void {
    clearInterval(this.timer)
  }
}
