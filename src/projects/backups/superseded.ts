/** A backup in its folder. */
export interface BackupFile {
  readonly name: string
  /** Counts up from 1 with each backup; the order of backups, whatever the clock says. */
  readonly number: number
  /** When it was made, as the clock stood: RFC 3339, UTC, to the second. */
  readonly madeAt: string
  readonly bytes: number
}

/** How many backups are kept: the last one of each of so many hours, days and weeks that have any. */
const KEPT = { hours: 24, days: 14, weeks: 12 } as const

const DAY_MS = 24 * 60 * 60 * 1000

const PERIODS: readonly { readonly most: number; readonly of: (madeAt: string) => string }[] = [
  { most: KEPT.hours, of: (madeAt) => madeAt.slice(0, 13) },
  { most: KEPT.days, of: (madeAt) => madeAt.slice(0, 10) },
  // Weeks of seven days from a Thursday on, as 1 January 1970 was one.
  { most: KEPT.weeks, of: (madeAt) => String(Math.floor(Date.parse(madeAt) / (7 * DAY_MS))) },
]

/**
 * The backups that are not needed any more: those of which no hour, day or week needs one, and the oldest where all together
 * take more than `mostBytes`. The newest is always kept. No clock decides: a clock that was wrong for a while removes nothing
 * that would have been kept otherwise.
 */
export function superseded(files: readonly BackupFile[], mostBytes: number): BackupFile[] {
  const newestFirst = files.toSorted((a, b) => b.number - a.number)
  const kept = new Set(newestFirst.slice(0, 1))
  for (const { most, of } of PERIODS) {
    const seen = new Set<string>()
    for (const file of newestFirst) {
      const period = of(file.madeAt)
      if (seen.has(period) || seen.size === most) continue
      seen.add(period)
      kept.add(file)
    }
  }
  let bytes = 0
  let isFull = false
  for (const file of newestFirst) {
    if (!kept.has(file)) continue
    bytes += file.bytes
    isFull ||= bytes > mostBytes && file !== newestFirst[0]
    if (isFull) kept.delete(file)
  }
  return files.filter((file) => !kept.has(file))
}
