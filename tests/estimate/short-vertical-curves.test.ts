import { describe, expect, it } from 'vitest'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { patched } from '../../src/fitting/json-patch.ts'

const CAR = { name: 'coach', length: 600, truckCentres: 400, width: 100, couplerLength: 20 }

function planOf(track: object, car: object = CAR, standards: object = { couplerHeightDifference: 2 }) {
  const elements = [{ kind: 'tangent', length: '9 m' }]
  return {
    rail: { section: '250', material: 'brass' },
    cars: [car],
    standards,
    tracks: [{ name: 'main', elements, ...track }],
  }
}

function found(plan: unknown) {
  const read = readPlan(plan)
  const result = read.ok ? estimate(read.plan, { sent: plan }) : read
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.estimate.findings.filter(({ rule }) => rule === 'vertical-curve')
}

const hump = (curve?: unknown) => [
  { at: 0, gradePct: 2 },
  { at: '4 m', gradePct: -2, ...(curve !== undefined && { verticalCurve: curve }) },
]

describe('a change of grade', () => {
  // By hand: o = 120, b = 520, A = 0.04; A·o = 4.8 is over twice 2 mm: L = 520·4.8/(2·2) = 624.
  it('without a vertical curve is found once, at its place, with what it needs', () => {
    const [finding, ...others] = found(planOf({ gradeLine: hump() }))
    expect(others).toEqual([])
    expect(finding).toMatchObject({ severity: 'warn', track: 'main', element: 0, measured: 0, unit: 'mm' })
    expect(finding!.limit).toBeCloseTo(624, 9)
    expect(finding!.message).toContain('couplers')
  })

  it('is cured by the curve that its remedy sets, in the units of the plan', () => {
    const plan = planOf({ gradeLine: hump() })
    const { remedy } = found(plan)[0]!
    expect(remedy).toEqual([{ op: 'add', path: '/tracks/0/gradeLine/1/verticalCurve', value: '0.624 m' }])
    expect(found(patched(plan, remedy!))).toEqual([])
    const short = planOf({ gradeLine: hump(500) })
    expect(found(short)[0]!.remedy).toEqual([
      { op: 'replace', path: '/tracks/0/gradeLine/1/verticalCurve', value: 624 },
    ])
  })

  it('passes at its limit and not just below', () => {
    expect(found(planOf({ gradeLine: hump(624) }))).toEqual([])
    expect(found(planOf({ gradeLine: hump(623.99) }))).toHaveLength(1)
  })

  it('is checked for the underside: between the trucks on a hump, at the ends in a sag', () => {
    const low = { ...CAR, undersideHeight: 2 }
    const humped = found(planOf({ gradeLine: hump() }, low, {}))[0]!
    // By hand: m = C/4 = 100, q = 2/(0.04·100) = 0.5: L = C.
    expect(humped.limit).toBeCloseTo(400, 9)
    expect(humped.message).toContain('the middle of the car touches the rails')
    const sagged = found(
      planOf(
        {
          gradeLine: [
            { at: 0, gradePct: -2 },
            { at: 4000, gradePct: 2 },
          ],
        },
        low,
        {},
      ),
    )[0]!
    // By hand: o = 100, b = 500, the same q: L = b.
    expect(sagged.limit).toBeCloseTo(500, 9)
    expect(sagged.message).toContain('the ends of the car touch the rails')
  })

  it('is not checked where the plan says nothing of couplers and undersides', () => {
    expect(found(planOf({ gradeLine: hump() }, CAR, {}))).toEqual([])
  })

  it('counts where a loop closes', () => {
    const elements = [{ kind: 'arc', radius: 2000, angle: 360, turn: 'left' }]
    const gradeLine = [
      { at: 0, elevation: 0 },
      { at: 6000, elevation: 120 },
      { at: 4000 * Math.PI, elevation: 0 },
    ]
    const places = found(planOf({ elements, closed: true, gradeLine })).map(
      ({ message }) => /At (\d+)/.exec(message)?.[1],
    )
    expect(places).toEqual(['6000', '12566'])
  })
})
