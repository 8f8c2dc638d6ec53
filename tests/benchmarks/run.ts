import { execFileSync, fork } from 'node:child_process'
import { once } from 'node:events'
import autocannon from 'autocannon'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import type { CutListProblem } from '../../src/laying/cutting/cut-list.ts'
import { pairedPlans, singlePlans } from '../laying/cutting/garden-plans.ts'
import { bending } from './bending.ts'
import { besideLongWork } from './beside-long-work.ts'
import { bundled } from './bundled.ts'
import { cells } from './cells.ts'
import { bestFitCents, knownOptima, measured } from './cut-plans.ts'
import { answerOf } from './echoes.ts'
import { line, medianUs } from './measuring.ts'
import { windingPlan } from './plans.ts'
import { room } from './room.ts'

/*
 * npm run bench
 *
 * npm run bench -- served quick      only these
 *
 * What an estimate costs beside the bare framework, and what bending and lining cost by themselves, in one run. Figures
 * of a machine that does other things too wander; the ratios hold. Nothing here passes or fails.
 */

const ROUNDS = 3
const SECONDS = 3
const CONNECTIONS = 8
const PLANS_EACH = 100

/** Requests a second over real connections; the kinds take turns, and the best round of each counts. */
async function served(): Promise<void> {
  const plan = windingPlan(30)
  const body = JSON.stringify(plan)
  // More than are remembered, and of its own for each connection, so that each is worked out every time.
  const others = Array.from({ length: CONNECTIONS * PLANS_EACH }, (_, n) => ({
    body: JSON.stringify(windingPlan(30, n / 8)),
  }))
  const child = fork(await bundled('served'))
  const [urls] = (await once(child, 'message')) as [{ bare: string; api: string }]
  const kinds = {
    [ECHO]: `${urls.bare}/bare`,
    [VALIDATED]: `${urls.bare}/validated`,
    [EQUAL]: `${urls.bare}/same-answer`,
    [ESTIMATE]: `${urls.api}/v1/estimates`,
    [BILL]: `${urls.api}/v1/estimates?fields=bill`,
    [AGAIN]: `${urls.api}/v1/estimates`,
    [BILL_AGAIN]: `${urls.api}/v1/estimates?fields=bill`,
  }
  const best = new Map<string, number>()
  for (let round = 0; round < ROUNDS; round++)
    for (const [name, url] of Object.entries(kinds)) {
      const headers = { 'content-type': 'application/json' }
      const own = name === ESTIMATE || name === BILL
      let connected = 0
      const result = await autocannon({
        url,
        method: 'POST',
        headers,
        requests: [{ body }],
        connections: CONNECTIONS,
        duration: SECONDS,
        setupClient: (client) => {
          if (own) client.setRequests(others.slice(PLANS_EACH * connected, PLANS_EACH * (connected + 1)))
          connected++
        },
      })
      if (result.non2xx > 0 || result.errors > 0) throw new Error(`${name}: ${result.non2xx} answers were refused`)
      best.set(name, Math.max(best.get(name) ?? 0, result.requests.average))
    }
  child.disconnect()
  console.log(`\n30 elements over HTTP, ${body.length} bytes in, the best of ${ROUNDS} rounds`)
  for (const [name, perSecond] of best) line(name, `${perSecond.toFixed(0)} /s`)
  const share = (of: string, among: string) => (best.get(of)! / best.get(among)!).toFixed(2)
  for (const [of, among] of [
    [ESTIMATE, EQUAL],
    [AGAIN, EQUAL],
    [BILL, VALIDATED],
    [BILL_AGAIN, VALIDATED],
  ] as const)
    line(`share: ${of}, of ${among}`, share(of, among))
}

const ECHO = 'bare echo'
const VALIDATED = 'echo with the same validation'
const EQUAL = 'echo that answers as much'
const ESTIMATE = 'an estimate, each of another plan'
const BILL = 'fields=bill, each of another plan'
const AGAIN = 'an estimate of the same plan again'
const BILL_AGAIN = 'fields=bill of the same plan again'

async function responsive(): Promise<void> {
  const child = fork(await bundled('served'))
  const [{ api }] = (await once(child, 'message')) as [{ api: string }]
  const { idle, busy } = await besideLongWork(api)
  child.disconnect()
  console.log('\nGET /v1/bends, one at a time, while thorough cut plans are made')
  for (const [name, { medianMs, p99Ms }] of Object.entries({ 'nothing else': idle, 'a cut plan under way': busy }))
    line(name, `${medianMs.toFixed(2)} / ${p99Ms.toFixed(2)} ms`)
  line(
    'median and p99: times as long',
    `${(busy.medianMs / idle.medianMs).toFixed(2)} / ${(busy.p99Ms / idle.p99Ms).toFixed(2)}`,
  )
}

async function inside(): Promise<void> {
  const plan = windingPlan(30)
  const { input, answer } = answerOf(plan)
  console.log('\nInside an estimate of 30 elements, median')
  line('reading the plan', `${(await medianUs(() => readPlan(plan))).toFixed(0)} µs`)
  line('geometry and quantities', `${(await medianUs(() => estimate(input))).toFixed(0)} µs`)
  line('writing the answer as JSON', `${(await medianUs(() => JSON.stringify(answer))).toFixed(0)} µs`)
}

function cutting(): void {
  console.log('\nCut plans: 36 with proven optima, that are hard on purpose')
  const known = knownOptima('quick')
  const met = (found: readonly number[]) =>
    `${found.filter((cents, n) => cents === known[n]!.optimumCents).length} of ${known.length}`
  line('met by best fit decreasing', met(known.map(({ problem }) => bestFitCents(problem))))
  for (const effort of ['quick', 'thorough'] as const) {
    const all = knownOptima(effort).map(({ problem }) => measured(problem))
    line(`met by the planner, ${effort}`, met(all.map(({ cents }) => cents)))
    line('   all of them together', `${(sum(all.map(({ ms }) => ms)) / 1000).toFixed(2)} s`)
  }

  for (const [what, plans] of [
    ['the two rails of tracks', pairedPlans(GARDEN_PLANS)],
    ['runs by themselves', singlePlans(GARDEN_PLANS)],
  ] as const) {
    console.log(`\nCut plans: ${GARDEN_PLANS} of a garden, ${what}, 2 to 40 of them, two lengths of stick, quick`)
    gardenPlans(plans)
  }
}

const GARDEN_PLANS = 1000

function gardenPlans(plans: readonly CutListProblem[]): void {
  for (const problem of plans.slice(0, 20)) measured(problem)
  const heapBefore = process.memoryUsage().heapUsed
  let heapMost = heapBefore
  const all = plans.map((problem) => {
    const found = measured(problem)
    heapMost = Math.max(heapMost, process.memoryUsage().heapUsed)
    return { runs: problem.runs.length, ...found }
  })
  const ms = all.map((each) => each.ms).sort((a, b) => a - b)
  const share = (of: typeof all) => `${((100 * of.filter(({ proven }) => proven).length) / of.length).toFixed(1)} %`
  const dearer = sum(plans.map(bestFitCents)) / sum(all.map(({ cents }) => cents)) - 1
  line('proven in money', share(all))
  for (const most of [10, 20, 30, 40])
    line(`   of ${most - 9} to ${most} runs`, share(all.filter(({ runs }) => runs > most - 10 && runs <= most)))
  for (const [name, part] of [['median', 0.5] as const, ['p95', 0.95] as const, ['p99', 0.99] as const])
    line(name, `${ms[Math.floor(part * ms.length)]!.toFixed(1)} ms`)
  line('memory beyond what there was, at most', `${((heapMost - heapBefore) / 1e6).toFixed(0)} MB`)
  line('best fit decreasing is dearer by, all together', `${(100 * dearer).toFixed(2)} %`)
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0)
}

/** Bundled, as `npm start` runs it. */
async function quick(): Promise<void> {
  execFileSync(process.execPath, [await bundled('quick-alone')], { stdio: 'inherit' })
}

const PARTS = { cutting, served, cells, responsive, inside, quick, bending, room }

console.log(`Node ${process.version}`)
const asked = process.argv.slice(2)
for (const [name, run] of Object.entries(PARTS)) if (asked.length === 0 || asked.includes(name)) await run()
