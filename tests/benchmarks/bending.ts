import { checkBend } from '../../src/bending/bend-check/check.ts'
import { bendingOf } from '../../src/estimate/bending.ts'
import { preparePlan } from '../../src/estimate/plan.ts'
import { oneCurve } from '../../src/estimate/questions/one-curve.ts'
import { layTrack } from '../../src/estimate/track/laid-track.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import { answerOf } from './echoes.ts'
import { line, medianUs } from './measuring.ts'
import { everyArcOfItsOwn, windingPlan } from './plans.ts'
import { BENDER } from './quick.ts'

const ELEMENTS = 2000

/** One bend, the bends of a large plan, and a curve lined. */
export async function bending(): Promise<void> {
  console.log('\nOne curve answered, both rails, median')
  for (const [name, plan] of Object.entries({
    'by hand': windingPlan(7),
    'with a roller bender': { ...windingPlan(7), bender: BENDER },
    'with a roller bender, temper unknown': { ...windingPlan(7), rail: UNKNOWN_TEMPER, bender: BENDER },
  })) {
    const { rail, bender } = answerOf(plan).input
    line(name, `${(await medianUs(() => oneCurve({ radius: 2700, rail, bender }))).toFixed(0)} µs`)
  }

  console.log(`\nThe bends of ${ELEMENTS} elements with a roller bender, median`)
  for (const plan of [windingPlan(ELEMENTS), everyArcOfItsOwn(ELEMENTS)]) {
    const { input, answer } = answerOf({ ...plan, bender: BENDER })
    const radii = new Set(answer.bends.map(({ radiusMm }) => radiusMm)).size
    line(`${answer.bends.length} bends of ${radii} radii`, `${((await medianUs(bendsOf(input))) / 1000).toFixed(1)} ms`)
  }

  console.log('\nA laid curve lined, median')
  for (const stations of [14, 60, 200])
    line(`${stations} stations`, `${((await medianUs(lined(readingsOf(stations)))) / 1000).toFixed(2)} ms`)
  line('200 stations that make no curve', `${((await medianUs(lined(WILD))) / 1000).toFixed(2)} ms`)
}

const UNKNOWN_TEMPER = { section: '250', material: 'brass' }

/** Forming alone: the tracks are laid beforehand, and no joint is counted. */
function bendsOf(input: PlanInput): () => unknown {
  const { plan } = preparePlan(input)
  const laid = plan.tracks.map((track) => layTrack(track, plan))
  const uncut = { sticks: [], piecesPerRun: [], sticksLowerBound: 0, wasteMm: 0, reusableMm: 0, shortPieces: [] }
  return () => {
    const bendingOfPlan = bendingOf(plan)
    if (!bendingOfPlan.ok) throw new Error(JSON.stringify(bendingOfPlan.faults))
    return bendingOfPlan.bendsOf(laid, uncut, new Set())
  }
}

/** A curve of one body read on a rule, every station up to 4 mm out of place (by a rule of its own, always the same). */
function readingsOf(stations: number): number[] {
  const end = stations - 2
  const even = (n: number) => 18 * Math.max(0, Math.min(1, (n - 1) / (0.2 * end), (end - n) / (0.25 * end)))
  const out = (n: number) => (n < 2 || n > stations - 3 ? 0 : 4 * Math.sin(12.9898 * n))
  return Array.from(
    { length: stations },
    (_, n) => Math.round(2 * (even(n) + out(n) - (out(n - 1) + out(n + 1)) / 2)) / 2,
  )
}

const WILD = Array.from({ length: 200 }, (_, n) => 90 * Math.sin(n * n) + 40 * Math.sin(n / 9))

function lined(readingsMm: readonly number[]): () => unknown {
  const input = { chordMm: 600, readingsMm }
  const first = checkBend(input)
  if (!first.ok || !first.check.proposal) throw new Error('the curve of the benchmark was not lined')
  return () => checkBend(input)
}
