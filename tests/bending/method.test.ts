import { describe, expect, it } from 'vitest'
import { adviseMethod, handForceN, jointFlatMm, type MethodCase } from '../../src/bending/method.ts'
import { USUAL_LIMITS } from './rails.ts'

/** A bend that is easy by hand, in metal that keeps much of it. */
const EASY: MethodCase = {
  work: 'loose-rail',
  wantedRadiusMm: 900,
  tieSpacingMm: 45,
  jointsInBend: 0,
  springMomentNmm: 2250,
  setShare: 0.4,
  overbendRatio: 1.4,
  momentNmm: 6000,
  leftToTiesNmm: 900,
}
/** The same in metal that stays elastic. */
const SPRINGY: MethodCase = { ...EASY, setShare: 0.02, overbendRatio: 18.6 }

const advice = (more: Partial<MethodCase>, limits = USUAL_LIMITS) => adviseMethod({ ...EASY, ...more }, limits)
const sprung = (more: Partial<MethodCase>, limits = USUAL_LIMITS) => adviseMethod({ ...SPRINGY, ...more }, limits)
const check = ({ checks }: ReturnType<typeof adviseMethod>, id: string) => checks.find(({ reason }) => reason === id)
const against = ({ checks }: ReturnType<typeof adviseMethod>, favours: string) =>
  checks.filter((each) => each.favours === favours).map(({ reason }) => reason)

describe('springing in', () => {
  it('is advised while share, ties and hands are within their limits, whatever the overbend ratio', () => {
    expect(sprung({})).toMatchObject({ method: 'spring-in', reason: 'springs-in' })
    expect(sprung({ jointsInBend: 3 })).toMatchObject({ method: 'spring-in', reason: 'springs-in' })
    expect(against(sprung({}), 'spring-in')).toEqual(['set-share', 'tie-force', 'joint-force', 'spring-force'])
  })

  it('shows each figure beside its limit (by hand)', () => {
    const all = sprung({ jointsInBend: 1 })
    expect(check(all, 'set-share')).toEqual({ reason: 'set-share', value: 0.02, limit: 0.1, favours: 'spring-in' })
    // 2250/45, 2250/150, 2250/300
    expect(check(all, 'tie-force')).toEqual({ reason: 'tie-force', value: 50, limit: 60, favours: 'spring-in' })
    expect(check(all, 'joint-force')).toEqual({ reason: 'joint-force', value: 15, limit: 20, favours: 'spring-in' })
    expect(check(all, 'spring-force')).toEqual({ reason: 'spring-force', value: 7.5, limit: 100, favours: 'spring-in' })
    expect(check(sprung({}), 'joint-force')!.value).toBe(0)
  })

  it('gives way to bending by hand for the one thing that exceeds its limit; equal to a limit passes', () => {
    expect(sprung({ setShare: 0.1 }).method).toBe('spring-in')
    expect(sprung({ setShare: 0.1001 })).toMatchObject({ method: 'hand', reason: 'within-limits' })
    expect(sprung({ springMomentNmm: 2700 }).method).toBe('spring-in')
    expect(sprung({ springMomentNmm: 2701 })).toMatchObject({ method: 'hand', reason: 'within-limits' })
    expect(sprung({ springMomentNmm: 3000, tieSpacingMm: 60, jointsInBend: 1 }).method).toBe('spring-in')
    expect(sprung({ springMomentNmm: 3001, tieSpacingMm: 60, jointsInBend: 1 }).method).toBe('hand')
    expect(sprung({ springMomentNmm: 3001, tieSpacingMm: 60 }).method).toBe('spring-in')
    expect(against(sprung({ setShare: 0.2, springMomentNmm: 5000, jointsInBend: 1 }), 'hand').slice(0, 3)).toEqual([
      'set-share',
      'tie-force',
      'joint-force',
    ])
    const weak = { ...USUAL_LIMITS, handForceN: 7.4 }
    expect(against(sprung({}, weak), 'hand')).toContain('spring-force')
    expect(sprung({}, weak)).toMatchObject({ method: 'machine', reason: 'hand-force' })
  })

  it('follows the user’s own limits', () => {
    expect(sprung({}, { ...USUAL_LIMITS, setShare: 0.01 }).method).toBe('hand')
    expect(sprung({}, { ...USUAL_LIMITS, tieForceN: 49 }).method).toBe('hand')
    expect(sprung({ jointsInBend: 1 }, { ...USUAL_LIMITS, jointForceN: 14 }).method).toBe('hand')
    expect(sprung({ springMomentNmm: 9000 }, { ...USUAL_LIMITS, tieForceN: 200 }).method).toBe('spring-in')
  })

  it('is for assembled track too; what does not spring in there is formed by a machine', () => {
    expect(sprung({ work: 'assembled' })).toMatchObject({ method: 'spring-in', reason: 'springs-in' })
    expect(advice({ work: 'assembled' })).toMatchObject({ method: 'machine', reason: 'assembled' })
  })
})

describe('by hand or by machine', () => {
  it('by hand while everything is within the limits', () => {
    expect(advice({})).toMatchObject({ method: 'hand', reason: 'within-limits' })
    expect(against(advice({}), 'machine')).toEqual([])
  })

  it('by machine for the one thing that exceeds its limit', () => {
    expect(advice({ momentNmm: 30_300 })).toMatchObject({ method: 'machine', reason: 'hand-force' })
    expect(advice({ leftToTiesNmm: 2701 })).toMatchObject({ method: 'machine', reason: 'left-to-ties' })
    expect(advice({ leftToTiesNmm: 2700 }).method).toBe('hand')
  })

  it('overbends too far only where the ties cannot hold what is missed', () => {
    expect(advice({ overbendRatio: 2.1 })).toMatchObject({ method: 'hand', reason: 'within-limits' })
    expect(advice({ overbendRatio: 2.1, leftToTiesNmm: 2701 })).toMatchObject({ method: 'machine', reason: 'overbend' })
    expect(advice({ overbendRatio: 2, leftToTiesNmm: 2701 })).toMatchObject({
      method: 'machine',
      reason: 'left-to-ties',
    })
  })

  it('leaves flats at joints only where the ties cannot pull the ends in', () => {
    expect(advice({ jointsInBend: 1 }).method).toBe('hand')
    expect(advice({ jointsInBend: 1, springMomentNmm: 2700 }).method).toBe('hand')
    expect(advice({ jointsInBend: 1, springMomentNmm: 2701 })).toMatchObject({ method: 'machine', reason: 'joints' })
    expect(advice({ springMomentNmm: 2701 }).method).toBe('hand')
    // 300²/(8·5625) = 2 mm
    expect(advice({ jointsInBend: 1, springMomentNmm: 2701, wantedRadiusMm: 5625 }).method).toBe('hand')
  })

  it('names the first reason where there are several, and shows all', () => {
    const all = advice({ overbendRatio: 3, leftToTiesNmm: 5000, jointsInBend: 2, springMomentNmm: 5000 })
    expect(all.reason).toBe('joints')
    expect(against(all, 'machine')).toEqual(['joints', 'overbend', 'left-to-ties'])
  })

  it('shows each value beside its limit (by hand)', () => {
    const all = advice({ jointsInBend: 3 })
    expect(check(all, 'assembled')).toEqual({ reason: 'assembled', value: null, limit: null, favours: 'hand' })
    expect(check(all, 'hand-force')).toEqual({ reason: 'hand-force', value: 20, limit: 100, favours: 'hand' })
    expect(check(all, 'overbend')).toEqual({ reason: 'overbend', value: 1.4, limit: 2, favours: 'hand' })
    expect(check(all, 'joints')).toEqual({ reason: 'joints', value: 12.5, limit: 2, favours: 'hand' })
    expect(check(all, 'left-to-ties')).toEqual({ reason: 'left-to-ties', value: 20, limit: 60, favours: 'hand' })
    expect(check(advice({}), 'joints')!.value).toBe(0)
  })

  it('follows the user’s own limits; equal to a limit passes', () => {
    const strong = { ...USUAL_LIMITS, handForceN: 20, overbendRatio: 1.4, jointFlat: 12.5, tieForceN: 20 }
    expect(advice({ jointsInBend: 1, springMomentNmm: 9000 }, strong).method).toBe('hand')
    expect(advice({}, { ...strong, grip: 299 }).reason).toBe('hand-force')
    expect(advice({}, { ...strong, overbendRatio: 1.39, tieForceN: 19 }).reason).toBe('overbend')
    expect(advice({ jointsInBend: 1, springMomentNmm: 9000 }, { ...strong, jointFlat: 12.4 }).reason).toBe('joints')
  })

  it('reckons force and flat (by hand)', () => {
    expect(handForceN(7915, 300)).toBeCloseTo(26.38, 2)
    expect(jointFlatMm(2438, 300)).toBeCloseTo(4.61, 2)
  })
})
