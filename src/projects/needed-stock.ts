import { createHash } from 'node:crypto'
import { readPlan } from '../estimate/read-plan.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import { Latest, withinReach } from '../shed/claims.ts'
import { estimateFromStock } from '../shed/from-stock.ts'
import { NOTHING, type Stock } from '../shed/stock.ts'
import type { StoredPlan } from './store.ts'

/** Claims kept: a change of one project or of the shed deals to all younger ones again, and most get what they had. */
const MOST_KEPT = 5_000

type Reach = Pick<PlanInput, 'rail' | 'supplies'> | null

const reaches = new Latest<Reach>(MOST_KEPT)
const claims = new Latest<Stock>(MOST_KEPT)

/**
 * What a saved plan takes of the free stock: what its quick estimate takes, because saving waits for it. A thorough estimate
 * later uses that stock. The same plan takes the same of the same offer, so a claim is worked out again only where
 * something that the plan could take has changed.
 */
export function neededStock(plan: StoredPlan, free: Stock): Stock {
  const name = digest(plan)
  const read = () => {
    const found = readPlan(plan)
    return found.ok ? found.plan : null
  }
  const reach = reaches.of(name, (): Reach => {
    const found = read()
    return found && { rail: found.rail, supplies: found.supplies }
  })
  if (!reach) return NOTHING
  const offer = withinReach(reach, free)
  return claims.of(`${name} ${digest(offer)}`, () => {
    const worked = estimateFromStock({ ...read()!, effort: 'quick' }, offer, { parts: TAKEN_FROM })
    return worked.ok ? worked.taken : NOTHING
  })
}

/** What is taken follows from these. */
const TAKEN_FROM = ['bill', 'readyMade'] as const

function digest(value: unknown): string {
  return createHash('sha256').update(JSON.stringify(value)).digest('base64')
}
