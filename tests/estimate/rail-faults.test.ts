import { describe, expect, it } from 'vitest'
import { planFaults } from '../../src/estimate/faults.ts'
import type { BenderInput } from '../../src/estimate/plan.ts'
import type { RailDraft } from '../../src/estimate/rail-faults.ts'

const places = (rail: RailDraft | undefined, bender?: BenderInput) =>
  planFaults({ rail, bender, tracks: [] }).map(({ path, code }) => `/${path.join('/')} ${code}`)

const OWN = { youngsModulusGpa: 110, yieldMpa: 300, hardening: { model: 'perfectly-plastic' } } as const
const ROLLERS = { spanMm: 100, outerRollerRadiusMm: 12, bearsOn: 'foot', mode: 'rolled' } as const
const IMPOSSIBLE = { formedRadiusMm: 900, restingRadiusMm: 800 }

it('a section of rectangles: where one has no side, and where there are none', () => {
  const of = (rectangles: { widthMm: number; heightMm: number }[]) =>
    places({ section: { rectangles }, material: 'brass' })
  expect(of([{ widthMm: 5, heightMm: 2 }])).toEqual([])
  expect(
    of([
      { widthMm: 5, heightMm: 2 },
      { widthMm: 0, heightMm: -1 },
    ]),
  ).toEqual(['/rail/section/rectangles/1/width out-of-range', '/rail/section/rectangles/1/height out-of-range'])
  expect(of([])).toEqual(['/rail/section/rectangles out-of-range'])
})

describe('a metal by its numbers', () => {
  const of = (more: object, temper?: string) => places({ section: '250', material: { ...OWN, ...more }, temper })

  it('has figures some metal has', () => {
    expect(of({})).toEqual([])
    expect(of({ yieldMpa: 20_000 })).toEqual(['/rail/material/yieldMpa out-of-range'])
    expect(of({ hardening: { model: 'ramberg-osgood', n: 1 } })).toEqual(['/rail/material/hardening/n out-of-range'])
    expect(of({ hardening: { model: 'linear', tangentModulusGpa: 110 } })).toEqual([
      '/rail/material/hardening/tangentModulusGpa out-of-range',
    ])
    expect(of({ elongationPct: 0, youngsModulusGpa: -1 })).toEqual([
      '/rail/material/youngsModulusGpa out-of-range',
      '/rail/material/yieldMpa out-of-range',
      '/rail/material/elongationPct out-of-range',
    ])
  })

  it('and no temper beside them', () => {
    expect(of({}, 'half-hard')).toEqual(['/rail/temper contradictory'])
  })
})

describe('test bends', () => {
  const pass = { depthMm: 4, chordMm: 500, ordinateMm: 60 }
  const of = (calibration: RailDraft['calibration'], bender?: BenderInput, rail: RailDraft = {}) =>
    places({ section: '250', material: 'brass', calibration, ...rail }, bender)

  it('every one that cannot be true is named', () => {
    expect(of([IMPOSSIBLE, { formedRadiusMm: 500, restingRadiusMm: 1200 }, IMPOSSIBLE])).toEqual([
      '/rail/calibration/0/restingRadius impossible-test-bend',
      '/rail/calibration/2/restingRadius impossible-test-bend',
    ])
  })

  it('by depth or turns need the bender they were made on', () => {
    const turns = { turns: 3, chordMm: 500, ordinateMm: 12 }
    expect(of([pass])).toEqual(['/rail/calibration/0/depth contradictory'])
    expect(of([pass], ROLLERS)).toEqual([])
    expect(of([turns], ROLLERS)).toEqual(['/rail/calibration/0/turns contradictory'])
    expect(of([turns], { ...ROLLERS, screwPitchMm: 1.25 })).toEqual([])
  })

  it('that contradict one another: the deeper pass came out straighter', () => {
    expect(of([pass, { depthMm: 6, chordMm: 500, ordinateMm: 5 }], ROLLERS)).toEqual([
      '/rail/calibration/1 impossible-test-bend',
    ])
  })

  it('wait until rail, bender and every one of them can be read', () => {
    expect(of([null, IMPOSSIBLE])).toEqual([])
    expect(of([IMPOSSIBLE], undefined, { section: undefined })).toEqual([])
    expect(of([IMPOSSIBLE], undefined, { section: 'no such' })).toEqual([])
    expect(of([IMPOSSIBLE], undefined, { material: undefined })).toEqual([])
    expect(of([IMPOSSIBLE], undefined, { temper: 'no such' })).toEqual(['/rail/temper unknown-temper'])
    expect(of([IMPOSSIBLE], { spanMm: 100 })).toEqual([
      '/bender/outerRollerRadius missing',
      '/bender/bearsOn missing',
      '/bender/mode missing',
    ])
    expect(places(undefined)).toEqual([])
  })
})
