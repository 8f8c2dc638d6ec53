import { estimateFromStock } from '../../src/shed/from-stock.ts'
import type { StockedPlan } from '../../src/workers/workers.ts'
import { exhaust, fail, spin } from './odd-jobs.ts'

/** The real one, except for plans whose title is one of the above. */
export function estimate({ plan, stock }: StockedPlan): ReturnType<typeof estimateFromStock> {
  if (plan.title === 'exhaust') exhaust(null)
  if (plan.title === 'fail') fail('no plan of that name in /etc/secret')
  if (plan.title === 'spin') spin(400)
  if (plan.title === 'spin for a minute') spin(60_000)
  return estimateFromStock(plan, stock)
}
