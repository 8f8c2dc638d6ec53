import { describe, expect, it } from 'vitest'
import { adviseMethod, handForceN, jointFlatMm, type MethodCase } from '../../src/bending/method.ts'
import { USUAL_LIMITS } from './rails.ts'

/** An easy bend. */
const EASY: MethodCase = {
  work: 'loose-rail',
  wantedRadiusMm: 900,
  overbendRatio: 1.4,
  momentNmm: 6000,
  jointsInBend: 0,
}

describe('by hand or by machine', () => {
  it('by hand while everything is within the limits', () => {
    const advice = adviseMethod(EASY, USUAL_LIMITS)
    expect(advice).toMatchObject({ method: 'hand', reason: 'within-limits' })
    expect(advice.checks.map(({ favours }) => favours)).toEqual(['hand', 'hand', 'hand', 'hand'])
  })

  it('by machine for the one thing that exceeds its limit', () => {
    expect(adviseMethod({ ...EASY, work: 'assembled' }, USUAL_LIMITS)).toMatchObject({
      method: 'machine',
      reason: 'assembled',
    })
    expect(adviseMethod({ ...EASY, momentNmm: 30_300 }, USUAL_LIMITS)).toMatchObject({
      method: 'machine',
      reason: 'hand-force',
    })
    expect(adviseMethod({ ...EASY, overbendRatio: 2.1 }, USUAL_LIMITS)).toMatchObject({
      method: 'machine',
      reason: 'overbend',
    })
    expect(adviseMethod({ ...EASY, jointsInBend: 1 }, USUAL_LIMITS)).toMatchObject({
      method: 'machine',
      reason: 'joints',
    })
  })

  it('names the first reason where there are several, and shows all', () => {
    const advice = adviseMethod({ ...EASY, overbendRatio: 3, jointsInBend: 2 }, USUAL_LIMITS)
    expect(advice.reason).toBe('overbend')
    expect(advice.checks.filter(({ favours }) => favours === 'machine').map(({ reason }) => reason)).toEqual([
      'overbend',
      'joints',
    ])
  })

  it('shows each value beside its limit (by hand)', () => {
    const { checks } = adviseMethod({ ...EASY, jointsInBend: 3 }, USUAL_LIMITS)
    expect(checks[1]).toEqual({ reason: 'hand-force', value: 20, limit: 100, favours: 'hand' })
    expect(checks[2]).toEqual({ reason: 'overbend', value: 1.4, limit: 2, favours: 'hand' })
    expect(checks[3]).toEqual({ reason: 'joints', value: 12.5, limit: 2, favours: 'machine' })
  })

  it('follows the user’s own limits; equal to a limit passes', () => {
    const strong = { ...USUAL_LIMITS, handForceN: 20, overbendRatio: 1.4, jointFlat: 12.5 }
    expect(adviseMethod({ ...EASY, jointsInBend: 1 }, strong).method).toBe('hand')
    expect(adviseMethod(EASY, { ...strong, grip: 299 }).reason).toBe('hand-force')
  })

  it('reckons force and flat (by hand)', () => {
    expect(handForceN(7915, 300)).toBeCloseTo(26.38, 2)
    expect(jointFlatMm(2438, 300)).toBeCloseTo(4.61, 2)
  })
})
