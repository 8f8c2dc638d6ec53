import { Hono } from 'hono'
import type { Estimate } from '../../src/estimate/answer.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { schemaOf } from '../../src/plan/reading/schema.ts'
import { PLAN, type PlanInput } from '../../src/plan/rows/plan.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { windingPlan } from './plans.ts'

/** An estimate touches no database; a store that is asked for anything is a fault of the benchmark. */
export const noStore = new Proxy({} as ProjectStore, {
  get: (_, name) => () => {
    throw new Error(`the benchmark asked the store to ${String(name)}`)
  },
})

/**
 * What the bare framework does with the body of an estimate: send it back, checked by the same schema or not. And a text
 * as short as a cell's.
 */
export function echoes(): Hono {
  const { answer } = answerOf(windingPlan(30))
  return new Hono()
    .get('/text', (c) => c.text('10.2489'))
    .post('/bare', async (c) => c.json(await c.req.json()))
    .post('/validated', async (c) => {
      const body = await c.req.json()
      return schemaOf(PLAN).safeParse(body).success ? c.json(body) : c.json({}, 422)
    })
    .post('/same-answer', async (c) => {
      const body = await c.req.json()
      return schemaOf(PLAN).safeParse(body).success ? c.json(answer) : c.json({}, 422)
    })
}

export function answerOf(plan: unknown): { input: PlanInput; answer: Estimate } {
  const read = readPlan(plan)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const result = estimate(read.plan)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return { input: read.plan, answer: result.estimate }
}
