import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { line, medianUs } from './measuring.ts'
import { everyArcOfItsOwn, readyMadePlan, windingPlan, withFindings } from './plans.ts'

type SentPlan = Record<string, unknown>

/** What grows with a plan, and the plans that once took long. */
export async function quick(): Promise<void> {
  console.log('\nAn estimate as a client asks for it, read and worked out with remedies, median')
  await medianLine('30 elements', windingPlan(30))
  await medianLine('   fields=bill', windingPlan(30), ['bill'])
  await medianLine('30 elements that break rules', withFindings(30))
  await medianLine('   without remedies', withFindings(30), undefined, false)
  await medianLine('30 elements that could be ready-made', readyMadePlan(30))

  console.log('\nLarge plans, once in a process that has seen none: by the clock, and of all processors')
  onceLine('5,000 elements that could be ready-made', readyMadePlan(5000))
  onceLine('5,000 different radii, by hand', everyArcOfItsOwn(5000))
  onceLine('5,000 different radii, with a roller bender', { ...everyArcOfItsOwn(5000), bender: BENDER })

  console.log('\nGrowth from 100 to 5,000 elements, median')
  await growth('loose rail', windingPlan, [100, 300, 1000, 2000, 5000])
  await growth('with a roller bender', (n) => ({ ...windingPlan(n), bender: BENDER }), [100, 500, 5000])
}

export const BENDER = {
  span: 150,
  outerRollerRadius: 12,
  bearsOn: 'web',
  mode: 'rolled',
  maxPerPass: 1.5,
  screwPitch: 1.25,
}

function workedOut(sent: SentPlan, parts?: readonly 'bill'[], remedies = true): void {
  const read = readPlan(sent)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const result = estimate(read.plan, { parts, ...(remedies && { sent }) })
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
}

async function medianLine(name: string, sent: SentPlan, parts?: readonly 'bill'[], remedies?: boolean): Promise<void> {
  const us = await medianUs(() => workedOut(sent, parts, remedies), LONG_IN_USE_MS)
  line(name, `${(us / 1000).toFixed(2)} ms`)
}

/** A service that was started just now takes longer, until some thousand estimates have been asked for. */
const LONG_IN_USE_MS = 5_000

function onceLine(name: string, sent: SentPlan): void {
  const start = performance.now()
  const before = process.cpuUsage()
  workedOut(sent)
  const { user, system } = process.cpuUsage(before)
  line(name, `${((performance.now() - start) / 1000).toFixed(2)} s, ${((user + system) / 1e6).toFixed(2)} s`)
}

/** The exponent is the slope of a straight line through the logarithms, by least squares. */
async function growth(what: string, planOf: (elements: number) => SentPlan, sizes: readonly number[]): Promise<void> {
  const points: [number, number][] = []
  for (const elements of sizes) {
    const plan = planOf(elements)
    const us = await medianUs(() => workedOut(plan))
    line(`${what}, ${elements} elements`, `${(us / 1000).toFixed(2)} ms`)
    points.push([Math.log(elements), Math.log(us)])
  }
  const mean = (n: 0 | 1) => points.reduce((sum, point) => sum + point[n], 0) / points.length
  const [x, y] = [mean(0), mean(1)]
  const slope =
    points.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0) / points.reduce((sum, [a]) => sum + (a - x) ** 2, 0)
  line(`${what}: growth exponent`, slope.toFixed(2))
}
