import { Hono } from 'hono'
import { Bench } from 'tinybench'
import { createApi } from '../../src/api/api.ts'
import { PlanSchema } from '../../src/api/schemas/plan.ts'
import { readPlan } from '../../src/api/schemas/read-plan.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { windingPlan } from './plans.ts'

/*
 * npm run bench
 *
 * What a request costs beside the bare framework, in one process and one run: each line is the median time of a whole
 * request through the framework's `fetch`, without a socket. Figures of a machine that does other things too wander;
 * the ratios hold. Nothing here passes or fails.
 */

/** The estimate touches no database; a store that is asked for anything is a fault of the benchmark. */
const noStore = new Proxy({} as ProjectStore, {
  get: (_, name) => () => {
    throw new Error(`the benchmark asked the store to ${String(name)}`)
  },
})

const api = createApi({ store: noStore })

function echoes(answer: unknown): Hono {
  return new Hono()
    .post('/bare', async (c) => c.json(await c.req.json()))
    .post('/validated', async (c) => {
      const body = await c.req.json()
      return PlanSchema.safeParse(body).success ? c.json(body) : c.json({}, 422)
    })
    .post('/same-answer', async (c) => {
      const body = await c.req.json()
      return PlanSchema.safeParse(body).success ? c.json(answer) : c.json({}, 422)
    })
}

function request(path: string, body: string): Request {
  return new Request(`http://localhost${path}`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json', 'Content-Length': String(Buffer.byteLength(body)) },
    body,
  })
}

async function medianUs(tasks: Record<string, () => unknown>): Promise<Record<string, number>> {
  const bench = new Bench({ time: 1500, warmupTime: 500 })
  for (const [name, run] of Object.entries(tasks)) bench.add(name, run as () => Promise<void>)
  await bench.run()
  return Object.fromEntries(
    bench.tasks.map(({ name, result }) => {
      if (!('latency' in result)) throw new Error(`${name} did not finish: ${result.state}`)
      return [name, result.latency.p50 * 1000]
    }),
  )
}

function answerOf(plan: unknown) {
  const read = readPlan(plan)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const result = estimate(read.plan)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return { input: read.plan, answer: result.estimate }
}

async function send(app: { fetch: (request: Request) => Response | Promise<Response> }, path: string, body: string) {
  const response = await app.fetch(request(path, body))
  if (response.status !== 200) throw new Error(`${path}: ${response.status} ${await response.text()}`)
  await response.arrayBuffer()
}

async function estimateBesideEcho(): Promise<void> {
  const plan = windingPlan(30)
  const body = JSON.stringify(plan)
  const { input, answer } = answerOf(plan)
  const echo = echoes(answer)
  const us = await medianUs({
    'echo, bare': () => send(echo, '/bare', body),
    'echo, validated': () => send(echo, '/validated', body),
    'echo, validated, answering an estimate': () => send(echo, '/same-answer', body),
    'POST /v1/estimates': () => send(api, '/v1/estimates', body),
    'reading the plan': () => readPlan(plan),
    'the estimate alone': () => estimate(input),
    'writing the answer': () => JSON.stringify(answer),
  })
  console.log(`\n30 elements, ${body.length} bytes in, ${JSON.stringify(answer).length} bytes out`)
  for (const [name, median] of Object.entries(us)) console.log(`${name.padEnd(42)} ${median.toFixed(1).padStart(9)} µs`)
  const whole = us['POST /v1/estimates']!
  const validated = us['echo, validated']!
  const sameAnswer = us['echo, validated, answering an estimate']!
  const computed = us['the estimate alone']!
  console.log(`ratio of the validated echo to an estimate                    ${(validated / whole).toFixed(2)}`)
  console.log(`ratio of the echo that answers as much to an estimate         ${(sameAnswer / whole).toFixed(2)}`)
  console.log(
    `ratio of the validated echo to echo + geometry and quantities ${(validated / (validated + computed)).toFixed(2)}`,
  )
}

async function growth(): Promise<void> {
  console.log('\nGrowth with the number of elements (estimate alone)')
  for (const elements of [30, 300, 1000, 2000]) {
    const { input } = answerOf(windingPlan(elements))
    const { whole } = await medianUs({ whole: () => estimate(input) })
    console.log(
      `${String(elements).padStart(6)} elements ${(whole! / 1000).toFixed(2).padStart(9)} ms ${(whole! / elements).toFixed(2).padStart(8)} µs an element`,
    )
  }
}

console.log(`Node ${process.version}`)
await estimateBesideEcho()
await growth()
