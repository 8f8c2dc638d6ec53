import { isDeepStrictEqual } from 'node:util'

/** A place where two plans differ; undefined if one of them has no value there. */
export interface Difference {
  readonly path: readonly (string | number)[]
  readonly theirs: unknown
  readonly mine: unknown
}

/** All places where two plans differ, as deep inside as possible, in the order of the plans. */
export function planDifferences(theirs: unknown, mine: unknown, path: Difference['path'] = []): Difference[] {
  if (isDeepStrictEqual(theirs, mine)) return []
  if (Array.isArray(theirs) && Array.isArray(mine)) {
    const longer = Math.max(theirs.length, mine.length)
    return Array.from({ length: longer }, (_, n) => planDifferences(theirs[n], mine[n], [...path, n])).flat()
  }
  if (isRecord(theirs) && isRecord(mine)) {
    const keys = new Set([...Object.keys(theirs), ...Object.keys(mine)])
    return [...keys].flatMap((key) => planDifferences(theirs[key], mine[key], [...path, key]))
  }
  return [{ path, theirs, mine }]
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

/** One side of a difference as a short text. */
export function valueText(value: unknown): string {
  if (value === undefined) return 'nothing'
  const text = wordsOf(value)
  return text.length > 60 ? `${text.slice(0, 59)}…` : text
}

function wordsOf(value: unknown): string {
  if (Array.isArray(value)) return value.map(wordsOf).join('; ')
  if (!isRecord(value)) return String(value)
  return Object.entries(value)
    .map(([key, each]) => `${key} ${wordsOf(each)}`)
    .join(', ')
}
