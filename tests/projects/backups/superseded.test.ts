import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type BackupFile, superseded } from '../../../src/projects/backups/superseded.ts'

const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS
const START_MS = Date.parse('2026-03-05T00:00:00Z')
const NO_BOUND = Number.POSITIVE_INFINITY

function backup(number: number, madeMs: number, bytes = 1): BackupFile {
  return { name: `b${number}`, number, madeAt: `${new Date(madeMs).toISOString().slice(0, 19)}Z`, bytes }
}

/** What is left when a backup is made every so often and the superseded ones are removed after each. */
function keptAfter(count: number, everyMs: number, mostBytes = NO_BOUND): BackupFile[] {
  let kept: BackupFile[] = []
  for (let n = 1; n <= count; n += 1) {
    const all = [...kept, backup(n, START_MS + n * everyMs)]
    const gone = new Set(superseded(all, mostBytes))
    kept = all.filter((file) => !gone.has(file))
  }
  return kept
}

test('of a year with a backup every ten minutes, 24 hours, 14 days and 12 weeks are left', () => {
  const perDay = 24 * 6
  const kept = keptAfter(365 * perDay, 10 * MINUTE_MS)
  const end = START_MS + 365 * 24 * HOUR_MS
  const agesH = kept.map(({ madeAt }) => (end - Date.parse(madeAt)) / HOUR_MS)
  // By hand: the newest, at midnight, begins an hour, a day and (2027-03-05 is a Friday) no week. The 23 hours before it; the
  // days before that, of which yesterday's last backup is also that of an hour; the weeks, of which two are also days.
  expect(agesH.filter((age) => age < 24)).toHaveLength(24)
  expect(agesH.filter((age) => age >= 24 && age < 14 * 24)).toHaveLength(12)
  expect(Math.max(...agesH)).toBeGreaterThan(10 * 7 * 24)
  expect(Math.max(...agesH)).toBeLessThan(12 * 7 * 24)
  expect(kept.length).toBeLessThanOrEqual(24 + 14 + 12)
})

test('those of a summer are kept until others take their place, however long that is', () => {
  const days = Array.from({ length: 10 }, (_, n) => backup(n + 1, START_MS + n * 24 * HOUR_MS))
  expect(superseded(days, NO_BOUND)).toEqual([])
  expect(superseded([...days, backup(11, START_MS + 3 * 365 * 24 * HOUR_MS)], NO_BOUND)).toEqual([])
})

test('a clock that is set back or wrong removes none that would be kept', () => {
  const days = Array.from({ length: 10 }, (_, n) => backup(n + 1, START_MS + n * 24 * HOUR_MS))
  const wrong = backup(11, 0)
  const far = backup(12, START_MS + 10 ** 12)
  const after = backup(13, START_MS + 10 * 24 * HOUR_MS)
  expect(superseded([...days, wrong, far, after], NO_BOUND)).toEqual([])
})

test('two of one hour are one, the later', () => {
  const [first, second] = [backup(1, START_MS), backup(2, START_MS + 59 * MINUTE_MS)]
  expect(superseded([first, second], NO_BOUND)).toEqual([first])
  expect(superseded([backup(1, START_MS + MINUTE_MS), backup(2, START_MS)], NO_BOUND)).toHaveLength(1)
})

test('the oldest go where all take too much; the newest never does', () => {
  const files = [4, 3, 2, 1].map((bytes, n) => backup(n + 1, START_MS + n * 24 * HOUR_MS, bytes))
  expect(superseded(files, 10)).toEqual([])
  expect(superseded(files, 9)).toEqual(files.slice(0, 1))
  expect(superseded(files, 3)).toEqual(files.slice(0, 2))
  expect(superseded(files, 0)).toEqual(files.slice(0, 3))
  expect(superseded([], 0)).toEqual([])
})

test('what is superseded once is not needed later', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 60 * 24 * 90 }), { minLength: 1, maxLength: 120 }), (minutes) => {
      const files = minutes.map((minute, n) => backup(n + 1, START_MS + minute * MINUTE_MS))
      const gone = superseded(files, NO_BOUND)
      expect(gone).not.toContain(files.at(-1))
      expect(
        superseded(
          files.filter((file) => !gone.includes(file)),
          NO_BOUND,
        ),
      ).toEqual([])
    }),
  )
})
