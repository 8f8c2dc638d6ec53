import { describe, expect, it } from 'vitest'
import { planFaults } from '../../../src/estimate/faults/faults.ts'
import type { RailDraft } from '../../../src/plan/reading/draft.ts'
import type { BenderInput } from '../../../src/plan/rows/bender.ts'

const places = (rail: RailDraft | undefined, bender?: BenderInput) =>
  planFaults({ rail, bender, tracks: [] }).map(({ path, code }) => `/${path.join('/')} ${code}`)

const OWN = { youngsModulusGpa: 110, yieldMpa: 300, hardening: { model: 'perfectly-plastic' } } as const
const ROLLERS = { span: 100, outerRollerRadius: 12, bearsOn: 'foot', mode: 'rolled' } as const
const IMPOSSIBLE = { formedRadius: 900, restingRadius: 800 }

it('tempers belong to their material', () => {
  const temper = (material: string, name: string) => places({ section: '250', material, temper: name })
  expect(temper('brass', '6063-t6')).toEqual(['/rail/temper unknown-temper'])
  expect(temper('aluminum', '6063-t6')).toEqual([])
})

it('the parts of a section fit into one another', () => {
  const section = { height: 8, headWidth: 4, footWidth: 8, webThickness: 1 }
  const own = (more: object) => places({ section: { ...section, ...more }, material: 'brass' })
  expect(own({})).toEqual([])
  expect(own({ webThickness: 5 })).toEqual(['/rail/section/webThickness contradictory'])
  expect(own({ webThickness: 9 })).toHaveLength(2)
  expect(own({ headDepth: 5, footDepth: 3 })).toEqual(['/rail/section/headDepth contradictory'])
  expect(own({ footDepth: 8 })).toEqual(['/rail/section/footDepth contradictory'])
})

it('a section of rectangles: where one has no side, and where there are none', () => {
  const of = (rectangles: { width: number; height: number }[]) => places({ section: { rectangles }, material: 'brass' })
  expect(of([{ width: 5, height: 2 }])).toEqual([])
  expect(
    of([
      { width: 5, height: 2 },
      { width: 0, height: -1 },
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
  const pass = { depth: 4, chord: 500, ordinate: 60 }
  const of = (calibration: RailDraft['calibration'], bender?: BenderInput, rail: RailDraft = {}) =>
    places({ section: '250', material: 'brass', calibration, ...rail }, bender)

  it('every one that cannot be true is named', () => {
    expect(of([IMPOSSIBLE, { formedRadius: 500, restingRadius: 1200 }, IMPOSSIBLE])).toEqual([
      '/rail/calibration/0/restingRadius impossible-test-bend',
      '/rail/calibration/2/restingRadius impossible-test-bend',
    ])
  })

  it('by depth or turns need the bender they were made on', () => {
    const turns = { turns: 3, chord: 500, ordinate: 12 }
    expect(of([pass])).toEqual(['/rail/calibration/0/depth contradictory'])
    expect(of([pass], ROLLERS)).toEqual([])
    expect(of([turns], ROLLERS)).toEqual(['/rail/calibration/0/turns contradictory'])
    expect(of([turns], { ...ROLLERS, screwPitch: 1.25 })).toEqual([])
  })

  it('that contradict one another: the deeper pass came out straighter', () => {
    expect(of([pass, { depth: 6, chord: 500, ordinate: 5 }], ROLLERS)).toEqual([
      '/rail/calibration/1 impossible-test-bend',
    ])
  })

  it('are judged by what can be read, each by itself', () => {
    const AT_0 = '/rail/calibration/0/restingRadius impossible-test-bend'
    expect(of([null, IMPOSSIBLE])).toEqual(['/rail/calibration/1/restingRadius impossible-test-bend'])
    expect(of([IMPOSSIBLE], undefined, { section: undefined })).toEqual([AT_0])
    expect(of([IMPOSSIBLE], undefined, { section: 'no such' })).toEqual([AT_0])
    expect(of([IMPOSSIBLE], undefined, { material: undefined })).toEqual([AT_0])
    expect(of([IMPOSSIBLE], undefined, { temper: 'no such' })).toEqual(['/rail/temper unknown-temper', AT_0])
    expect(of([IMPOSSIBLE], { span: 100 })).toEqual([
      AT_0,
      '/bender/outerRollerRadius missing',
      '/bender/bearsOn missing',
      '/bender/mode missing',
    ])
  })

  it('are not held against what could not be read', () => {
    // By hand: 1 mm is under half the rail's width, 60 mm over half the span, and with Et = E/2 the softest metal bent to
    // 800 mm springs back to 1600 mm.
    const tight = { formedRadius: 1, restingRadius: 800 }
    expect(of([tight])).toEqual(['/rail/calibration/0/formedRadius out-of-range'])
    expect(of([tight], undefined, { section: undefined })).toEqual([])
    const deep = { ...pass, depth: 60 }
    expect(of([deep], ROLLERS)).toEqual(['/rail/calibration/0/depth out-of-range'])
    expect(of([deep], undefined, { unread: ['bender'] })).toEqual([])
    expect(of([deep], { span: 100 })).not.toContain('/rail/calibration/0/depth out-of-range')
    const stiff = { ...OWN, hardening: { model: 'linear', tangentModulusGpa: 55 } } as const
    const springy = { formedRadius: 800, restingRadius: 1500 }
    expect(of([springy], undefined, { material: stiff })).toEqual([
      '/rail/calibration/0/restingRadius impossible-test-bend',
    ])
    expect(of([springy], undefined, { material: stiff, unread: ['metal'] })).toEqual([])
    const contrary = [pass, { depth: 6, chord: 500, ordinate: 5 }]
    expect(of([...contrary, null], ROLLERS)).toEqual([])
    expect(of(contrary, ROLLERS, { section: undefined })).toEqual([])
    expect(of(contrary, ROLLERS, { temper: 'half-hard' })).toEqual(['/rail/calibration/1 impossible-test-bend'])
    expect(places(undefined)).toEqual([])
  })
})
