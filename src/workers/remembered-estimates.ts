import { estimateFromStock } from '../shed/from-stock.ts'
import type { StockedPlan } from './workers.ts'

type Worked = ReturnType<typeof estimateFromStock>

/** Of the keys of all that is kept, in characters: some twenty plans of 30 elements, with about 1 MB of memory each. */
const MOST_KEPT = 40_000
/** Of plans that were asked for once. */
const MOST_SEEN = 100

/** By everything an estimate follows from; the one asked for last is the last. */
const kept = new Map<string, Worked>()
let keptLength = 0
/** Keys of what was asked for once, the last one last. Most plans are not asked for again, and keeping them is a cost. */
const seen = new Set<string>()

/**
 * `estimateFromStock`, and for the plans asked for again what it was: people go through the sheets and tables of a plan one
 * after the other, and each asks for the estimate of the same plan. Nobody may change an estimate, because it is shared.
 */
export function rememberedEstimate({ plan, stock, parts, sent }: StockedPlan): Worked {
  // A plan that was sent is read in one way only.
  const key = JSON.stringify([sent === undefined ? plan : null, sent, stock, parts])
  const known = kept.get(key)
  const worked = known ?? estimateFromStock(plan, stock, { parts, sent })
  if (known) kept.delete(key)
  else {
    if (key.length > MOST_KEPT / 2 || isFirst(key)) return worked
    keptLength += key.length
  }
  kept.set(key, worked)
  for (const oldest of kept.keys()) {
    if (keptLength <= MOST_KEPT) break
    kept.delete(oldest)
    keptLength -= oldest.length
  }
  return worked
}

/** Whether this was not asked for lately; from now on it was. */
function isFirst(key: string): boolean {
  if (seen.delete(key)) return false
  seen.add(key)
  for (const oldest of seen) {
    if (seen.size <= MOST_SEEN) break
    seen.delete(oldest)
  }
  return true
}
