import { describe, expect, it } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { readSurvey } from '../../src/estimate/questions/read-survey.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { workOutSurvey } from '../../src/survey/survey.ts'
import { randomFrom } from '../random.ts'
import { loopPlan } from './turnout-plans.ts'

const RAIL = { section: '250', material: 'brass' }
const TRACK = {
  name: 'main',
  start: { x: 0, y: 0, elevation: 100 },
  levelsAt: ['2.5 m'],
  elements: [
    { kind: 'tangent', length: 3000 },
    { kind: 'arc', radius: 2000, angle: 90, turn: 'left' },
  ],
}
const A = { name: 'A', x: 0, y: -3000 }
const B = { name: 'B', x: 4000, y: -3000 }

const planOf = (pegs: unknown, more: object = {}) => ({ rail: RAIL, tracks: [TRACK], pegs, ...more })

function estimated(plan: unknown) {
  const read = readPlan(plan)
  const result = read.ok ? estimate(read.plan, { sent: plan }) : read
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.estimate
}

const faultsOf = (plan: unknown) => {
  const read = readPlan(plan)
  return read.ok ? [] : read.faults.map(({ path, code }) => [`/${path.join('/')}`, code])
}

function surveyed(survey: unknown) {
  const read = readSurvey(survey)
  const result = read.ok ? workOutSurvey(read.input) : read
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.answer
}

describe('the pegs of a plan', () => {
  it('are where two distances meet (by hand: 3-4-5 triangles), with their error', () => {
    const c = { name: 'C', first: 'A', firstDistance: '5 m', second: 'B', secondDistance: '3 m', side: 'left' }
    const [a, , third] = estimated(planOf([A, B, c])).pegs!
    expect(a).toEqual({ name: 'A', xMm: 0, yMm: -3000, errorMm: 0 })
    expect(third!.xMm).toBeCloseTo(4000, 6)
    expect(third!.yMm).toBeCloseTo(0, 6)
    // The tapes cross at the angle whose sine is 4/5; each coordinate errs as its tapes do: 10·√2/(4/5).
    expect(third!.errorMm).toBeCloseTo((10 * Math.SQRT2) / 0.8, 6)
    const right = estimated(planOf([A, B, { ...c, side: 'right' }])).pegs![2]!
    expect(right.yMm).toBeCloseTo(-6000, 6)
  })

  it('mark every place of the track, along the slope where heights are known (by hand)', () => {
    const { pegOuts, assumptions } = estimated(planOf([{ ...A, elevation: 0 }, B]))
    expect(pegOuts!.map(({ what, element, atMm }) => [what, element, Math.round(atMm)])).toEqual([
      ['start', 0, 0],
      ['start', 1, 3000],
      ['middle', 1, 4571],
      ['end', null, 6142],
      ['station', null, 2500],
    ])
    const [start] = pegOuts!
    expect(start!.pegOut).toMatchObject({
      first: { peg: 'A', levelMm: 3000, slopeMm: Math.hypot(3000, 100) },
      second: { peg: 'B', levelMm: 5000, slopeMm: null },
      side: 'left',
    })
    expect(assumptions).toContainEqual(expect.objectContaining({ field: '/pegs', value: '10 mm' }))
  })

  it('include the other legs of turnouts', () => {
    const { pegOuts, tracks } = estimated({ ...loopPlan(), pegs: [A, B] })
    const legs = pegOuts!.filter(({ what }) => what === 'leg')
    expect(legs.map(({ track, element }) => [track, element])).toEqual([
      ['main', 1],
      ['main', 3],
    ])
    expect(legs[0]!.xMm).toBeCloseTo(tracks[1]!.start.xMm, 9)
    expect(legs[0]!.yMm).toBeCloseTo(tracks[1]!.start.yMm, 9)
  })

  it('say nothing in a plan without pegs, and of lifted track', () => {
    const without = estimated({ rail: RAIL, tracks: [TRACK] })
    expect(without).not.toHaveProperty('pegs')
    expect(without).not.toHaveProperty('pegOuts')
    expect(without.assumptions.some(({ field }) => field === '/pegs')).toBe(false)
    const lifted = { ...TRACK, state: 'lifted', name: 'old', start: { x: 0, y: 900 } }
    expect(estimated(planOf([A, B], { tracks: [TRACK, lifted] })).pegOuts!.every(({ track }) => track === 'main')).toBe(
      true,
    )
  })

  it('no two of which see a place at an angle do not mark it', () => {
    const inLine = [A, { ...B, x: 0, y: -5000 }]
    expect(estimated(planOf(inLine)).pegOuts![0]!.pegOut).toBeNull()
  })
})

describe('from a survey to a plan, its pegs and back', () => {
  it('every point is where it was (100 random gardens, 1e-6 mm)', () => {
    const random = randomFrom(414)
    const pick = (least: number, most: number) => least + (most - least) * random()
    for (let garden = 0; garden < 100; garden++) {
      const pegs = [
        { name: 'A', x: pick(-2000, 0), y: pick(-4000, -2000) },
        { name: 'B', x: pick(4000, 6000), y: pick(-4000, -2000) },
      ]
      const lengths = { A: pick(4000, 6000), B: pick(4000, 6000) }
      const survey = {
        pegs,
        distances: (['A', 'B'] as const).map((to) => ({ from: 'oak', to, length: lengths[to] })),
        points: [{ name: 'oak', side: 'left' }],
      }
      const [oak] = surveyed(survey).points
      const given = { name: 'oak', first: 'A', firstDistance: lengths.A, second: 'B', secondDistance: lengths.B }
      const { pegs: placed, pegOuts } = estimated(planOf([...pegs, { ...given, side: 'left' }]))
      expect(placed![2]!.xMm).toBeCloseTo(oak!.xMm!, 6)
      expect(placed![2]!.yMm).toBeCloseTo(oak!.yMm!, 6)
      expect(placed![2]!.errorMm).toBeCloseTo(oak!.error!.radiusMm, 6)

      // What is printed of each place is measured in the garden again.
      const places = pegOuts!.flatMap((place, at) =>
        place.pegOut ? [{ ...place, out: place.pegOut, at: `p${at}` }] : [],
      )
      expect(places.length).toBeGreaterThan(2)
      const again = surveyed({
        pegs: placed!.map(({ name, xMm, yMm }) => ({ name, x: xMm, y: yMm })),
        distances: places.flatMap(({ at, out: { first, second } }) =>
          [first, second].map(({ peg, levelMm }) => ({ from: at, to: peg, length: levelMm })),
        ),
        points: places.map(({ at, out }) => ({ name: at, side: out.side })),
      })
      for (const [index, { xMm, yMm }] of places.entries()) {
        expect(Math.hypot(again.points[index]!.xMm! - xMm, again.points[index]!.yMm! - yMm)).toBeLessThan(1e-6)
      }
    }
  })
})

describe('pegs that cannot be placed', () => {
  const c = { name: 'C', first: 'A', firstDistance: 5000, second: 'B', secondDistance: 3000, side: 'left' }

  it('are refused, each with its place', () => {
    expect(faultsOf(planOf([A, { ...B, name: 'A' }]))).toEqual([['/pegs/1/name', 'contradictory']])
    expect(faultsOf(planOf([A, B, { ...c, second: 'X' }]))).toEqual([['/pegs/2/second', 'unknown-value']])
    expect(faultsOf(planOf([A, B, { ...c, second: 'C' }]))).toEqual([['/pegs/2/second', 'unknown-value']])
    expect(faultsOf(planOf([A, B, { ...c, second: 'A' }]))).toEqual([['/pegs/2/second', 'contradictory']])
    const { side: _, secondDistance: __, ...less } = c
    expect(faultsOf(planOf([A, B, less]))).toEqual([
      ['/pegs/2/secondDistance', 'missing'],
      ['/pegs/2/side', 'missing'],
    ])
    expect(faultsOf(planOf([A, { ...B, side: 'left' }]))).toEqual([['/pegs/1/side', 'contradictory']])
    expect(faultsOf(planOf([A, { ...B, x: 0 }]))).toEqual([['/pegs/1', 'contradictory']])
    expect(faultsOf(planOf([A, B, { ...c, x: 1, y: 2 }])).map(([path]) => path)).toEqual(['/pegs/2/x'])
  })

  it('are refused where the distances do not meet, or lead nowhere', () => {
    expect(faultsOf(planOf([A, B, { ...c, firstDistance: 500, secondDistance: 500 }]))).toEqual([
      ['/pegs/2/secondDistance', 'contradictory'],
    ])
    expect(
      faultsOf(planOf([c, { ...c, name: 'A', first: 'B', second: 'C' }, { ...c, name: 'B', second: 'C' }])),
    ).toEqual([['/pegs', 'missing']])
    const alone = [A, { ...c, second: 'D' }, { ...c, name: 'D', second: 'C' }]
    expect(faultsOf(planOf(alone)).map(([path]) => path)).toEqual(['/pegs/1', '/pegs/2'])
  })
})
