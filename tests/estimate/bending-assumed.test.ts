import { describe, expect, it } from 'vitest'
import { oneCurve } from '../../src/estimate/questions/one-curve.ts'
import type { BenderInput } from '../../src/plan/rows/bender.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { RailInput } from '../../src/plan/rows/rail.ts'
import { arc, BRASS_250, estimateOf, planOf, straight } from './plans.ts'

const CURVED = [straight(500), arc(2438.4, 60)]
const ROLLERS: BenderInput = { span: 100, outerRollerRadius: 12.7, bearsOn: 'foot', mode: 'rolled' }
const LIMITS = {
  overbendRatio: 2,
  grip: 300,
  handForceN: 100,
  jointFlat: 2,
  setShare: 0.1,
  tieForceN: 60,
  jointForceN: 20,
}

/** What is assumed about bending: the bender, the readings, the rail's metal. */
const assumed = (plan: Partial<PlanInput>, elements = CURVED) =>
  estimateOf(planOf(elements, {}, plan)).assumptions.filter(({ field }) =>
    /^\/(bender|resolution|rail\/(temper|material|calibration))/.test(field),
  )
const fields = (plan: Partial<PlanInput>, elements = CURVED) => assumed(plan, elements).map(({ field }) => field)

describe('what bending takes for granted', () => {
  it('without a bender: loose rail by hand, the limits of hands, and how finely one reads', () => {
    expect(fields({})).toEqual(['/bender/work', '/bender/limits', '/resolution'])
    expect(assumed({})[0]).toMatchObject({ value: 'loose-rail', reason: expect.stringContaining('by hand') })
    // every limit with its figure
    expect(assumed({})[1]!.value).toMatch(/ratio up to 2,.*\b300 mm.*\b100 N.*\b2 mm.*\ba tenth.*\b60 N.*\b20 N/)
  })

  it('nothing where nothing is bent', () => {
    expect(fields({}, [straight(900)])).toEqual([])
    expect(fields({ bender: ROLLERS }, [straight(900)])).toEqual([])
  })

  it('nothing that was given', () => {
    const bender = { ...ROLLERS, work: 'loose-rail', ends: 'trim', limits: LIMITS } as const
    expect(fields({ bender, resolution: 0.2 })).toEqual([])
  })

  it('each limit by itself once one of them is given, and what belongs to the bender at hand', () => {
    const { grip, ...others } = LIMITS
    expect(fields({ bender: { limits: others }, resolution: 1 })).toEqual(['/bender/work', '/bender/limits/grip'])
    const rolled = { ...ROLLERS, limits: { grip, handForceN: 80 } }
    expect(fields({ bender: rolled, resolution: 1 })).toEqual([
      '/bender/work',
      '/bender/ends',
      '/bender/limits/overbendRatio',
      '/bender/limits/jointFlat',
      '/bender/limits/setShare',
      '/bender/limits/tieForceN',
      '/bender/limits/jointForceN',
    ])
    expect(fields({ bender: { work: 'assembled', limits: LIMITS }, resolution: 1 })).toEqual(['/bender/fixedEnd'])
  })

  it('of a metal by its numbers what is left open', () => {
    const material = { youngsModulusGpa: 110, yieldMpa: 300, hardening: { model: 'perfectly-plastic' } } as const
    const rail = (more: object): RailInput => ({ section: '250', material: { ...material, ...more } })
    const of = (more: object) =>
      fields({ rail: rail(more), resolution: 1, bender: { work: 'loose-rail', limits: LIMITS } })
    expect(of({})).toEqual(['/rail/material/densityKgM3', '/rail/material/elongationPct'])
    expect(of({ densityKgM3: 8500, elongationPct: 20 })).toEqual([])
    const answer = estimateOf(planOf(CURVED, {}, { rail: rail({ densityKgM3: 8500 }) }))
    expect(answer.rail.massPerMetreKg).toBeCloseTo(answer.rail.sectionProperties.areaMm2 * 8500e-6, 12)
  })

  it('of test bends how well they were read, once for both kinds', () => {
    const radii = { formedRadius: 500, restingRadius: 1000 }
    const pass = { depth: 4, chord: 500, ordinate: 12 }
    const of = (calibration: RailInput['calibration'], elements = CURVED) =>
      assumed({ rail: { ...BRASS_250, calibration }, bender: ROLLERS }, elements).filter(({ field }) =>
        /calibration|resolution/.test(field),
      )
    expect(of([radii]).map(({ field }) => field)).toEqual(['/rail/calibration', '/resolution'])
    expect(of([radii])[0]!.value).toContain('5 mm')
    expect(of([pass])[0]!.value).toContain('0.05 mm')
    expect(of([radii, pass])).toHaveLength(2)
    // a test bend is read even where the plan has no curve
    expect(of([radii], [straight(900)])).toHaveLength(2)
  })

  it('of a temper that is not named: a range, unless test bends tell the yield', () => {
    const temper = (calibration?: RailInput['calibration']) =>
      assumed({ rail: { section: '250', material: 'brass', calibration } }).find(
        ({ field }) => field === '/rail/temper',
      )!
    expect(temper().reason).toContain('range of tempers')
    expect(temper([{ formedRadius: 500, restingRadius: 1000 }]).reason).toContain('comes from the test bends')
  })

  it('a curve by itself takes the same for granted', () => {
    const answer = oneCurve({ radius: 2438.4, rail: BRASS_250 })
    if (!answer.ok) throw new Error(JSON.stringify(answer.faults))
    expect(answer.curve.assumptions.map(({ field }) => field)).toEqual([
      '/gauge',
      '/rail/section',
      '/bender/work',
      '/bender/limits',
      '/chords',
      '/resolution',
    ])
  })
})

it('the heading a track starts with comes back as given, wherever nothing has turned yet', () => {
  const elements = [straight(700), straight(300), arc(2000, 45)]
  for (const headingDeg of [30, 123.4, 0.1]) {
    const [track] = estimateOf(planOf(elements, { start: { heading: headingDeg } })).tracks
    const [first, second, third] = track!.elements
    const headings = [track!.start, first!.start, first!.end, second!.end, third!.start]
    expect(headings.map((pose) => pose.headingDeg)).toEqual(Array(5).fill(headingDeg))
    expect(track!.end.headingDeg).toBeCloseTo(headingDeg + 45, 9)
  }
})

describe('easements of a curve', () => {
  it('into and out of it ask for the same radii in turn, and follow κ/(1 − o·κ)', () => {
    const plan = planOf([
      straight(900),
      { kind: 'easement', length: 600 },
      arc(2000, 40),
      { kind: 'easement', length: 600 },
    ])
    const { easements } = estimateOf(plan)
    const of = (element: number, side: string) =>
      easements.find((one) => one.element === element && one.side === side)!.stations
    for (const [side, sign] of [
      ['left', 1],
      ['right', -1],
    ] as const) {
      const [into, out] = [of(1, side), of(3, side)]
      expect(out.map(({ formingRadiusMm }) => formingRadiusMm).reverse()).toEqual(
        into.map(({ formingRadiusMm }) => formingRadiusMm),
      )
      // by hand: half way the centre line has a radius of 4000; the rail stands (45 + 2.8448)/2 aside
      expect(into[4]!.wantedRadiusMm).toBeCloseTo(4000 - (sign * (45 + 0.112 * 25.4)) / 2, 8)
    }
  })

  it('tell the wanted radii alone where the temper is unknown', () => {
    const elements = [straight(900), { kind: 'easement', length: 600 } as const, arc(2000, 40)]
    const { easements } = estimateOf(planOf(elements, {}, { rail: { section: '250', material: 'brass' } }))
    expect(easements.flatMap(({ stations }) => stations.map((one) => one.formingRadiusMm))).toEqual(
      Array(18).fill(null),
    )
    expect(easements[0]!.stations.at(-1)!.wantedRadiusMm).toBeGreaterThan(1900)
  })
})
