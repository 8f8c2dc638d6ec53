import { describe, expect, test } from 'vitest'
import { cases } from '../../cases.ts'
import { POND_PLAN } from '../pond-plan.ts'
import { worked } from '../worked.ts'
import { expectAsDrawn, WITHIN_MM } from './as-drawn.ts'
import { type Followed, follow } from './follow.ts'
import { randomPlan } from './random-plans.ts'

describe('rails built from what the sheets say lie as they are drawn', () => {
  /** Nothing may be sprung in, so that all of it goes through the bender. */
  const bent = { ...POND_PLAN, bender: { ...POND_PLAN.bender, limits: { setShare: 0, tieForceN: 1 } } }

  test.each(['metric', 'feet'] as const)('of a loop and a climb, sprung in and bent, in %s', (units) => {
    for (const plan of [POND_PLAN, bent]) expectAsDrawn(follow(worked(plan), units))
  })

  // Pressing is followed press by press, which takes long.
  const numbers = Array.from({ length: 32 }, (_, number) => number)
  const pressed = numbers.filter((number) => randomPlan(number).how === 'pressed')
  const others = numbers.filter((number) => !pressed.includes(number))

  test.each([...others, ...pressed.slice(0, cases(pressed.length))])('of random plan %i', (number) => {
    const { plan, units, how } = randomPlan(number)
    const done = worked(plan)
    const methods = new Set(done.estimate.bends.map(({ forming }) => forming.method))
    expect([...methods]).toEqual([how === 'rolled' || how === 'pressed' ? 'machine' : how])
    expectAsDrawn(follow(done, units))
  })

  test('and a wrong depth or a wrong length would be noticed', () => {
    const right = worked(bent)
    const most = (pieces: readonly Followed[], of: (piece: Followed) => number) =>
      Math.max(...pieces.map(of).map(Math.abs))
    const deeper = structuredClone(right.estimate)
    for (const { forming } of deeper.bends) {
      const passes = forming.machine?.passes as { depthMm: number }[]
      for (const pass of passes) pass.depthMm *= 1.01
    }
    const tooDeep = follow({ ...right, estimate: deeper }, 'metric')
    expect(most(tooDeep, ({ besideMm }) => besideMm)).toBeGreaterThan(WITHIN_MM)

    const longer = structuredClone(right.estimate)
    const pieces = longer.cutting.sticks.flatMap((stick) => stick.pieces as { lengthMm: number; fromMm: number }[])
    const last = pieces.reduce((a, b) => (b.fromMm > a.fromMm ? b : a))
    last.lengthMm += 2
    const tooLong = follow({ ...right, estimate: longer }, 'metric', right)
    expect(most(tooLong, ({ endOffMm }) => endOffMm)).toBeGreaterThan(WITHIN_MM)
  })
})
