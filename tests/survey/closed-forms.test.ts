import { expect, test } from 'vitest'
import { pointIn, workedOut } from './nets.ts'

/* Places and errors that follow by hand. */

const A = { name: 'A', x: 0, y: 0, elevation: 0 }
const B = { name: 'B', x: 5000, y: 0 }

test('by hand: 3, 4 and 5 m make a right angle, and the error there is 10 mm each way', () => {
  const distances = [
    { from: 'A', to: 'P', length: 3000 },
    { from: 'B', to: 'P', length: '4 m' as unknown as number },
  ]
  const answer = workedOut({ pegs: [A, B], distances, points: [{ name: 'P', side: 'left' }] })
  const left = pointIn(answer, 'P')
  expect(left.xMm).toBeCloseTo(1800, 9)
  expect(left.yMm).toBeCloseTo(2400, 9)
  expect(left.error!.majorMm).toBeCloseTo(10, 9)
  expect(left.error!.minorMm).toBeCloseTo(10, 9)
  expect(left.error!.radiusMm).toBeCloseTo(10 * Math.SQRT2, 9)
  expect(answer.redundancy).toBe(0)
  expect(answer.fit).toBeNull()
  expect(answer.readings.map(({ redundancy, test: w }) => [redundancy, w])).toEqual([
    [0, null],
    [0, null],
  ])
  const right = pointIn(workedOut({ pegs: [A, B], distances, points: [{ name: 'P', side: 'right' }] }), 'P')
  expect([right.xMm, right.yMm]).toEqual([left.xMm, -left.yMm!])
})

test('closed form: at a crossing angle of 30° the half axes are σ/√(1 ∓ cos 30°)', () => {
  // From P at the origin, A at 0° and B at 30°.
  const c = Math.cos(Math.PI / 6)
  const pegs = [
    { name: 'A', x: 4000, y: 0 },
    { name: 'B', x: 6000 * c, y: 3000 },
  ]
  const distances = [
    { from: 'A', to: 'P', length: 4000 },
    { from: 'B', to: 'P', length: 6000 },
  ]
  // Looking from A to B, P is on the left.
  const { error, xMm, yMm } = pointIn(workedOut({ pegs, distances, points: [{ name: 'P', side: 'left' }] }), 'P')
  expect(Math.hypot(xMm!, yMm!)).toBeLessThan(1e-8)
  expect(error!.majorMm).toBeCloseTo(10 / Math.sqrt(1 - c), 8)
  expect(error!.minorMm).toBeCloseTo(10 / Math.sqrt(1 + c), 8)
  // The place is least sure across the line half way between the two tapes.
  expect(error!.directionDeg).toBeCloseTo(105, 8)
})

test('closed form: three distances from the corners of an equilateral triangle to its middle', () => {
  const corner = (angle: number) => ({ x: 3000 * Math.cos(angle), y: 3000 * Math.sin(angle) })
  const pegs = [0, 1, 2].map((n) => ({ name: `C${n}`, ...corner((2 * Math.PI * n) / 3) }))
  const distances = pegs.map(({ name }) => ({ from: name, to: 'M', length: 3006 }))
  const answer = workedOut({ pegs, distances })
  const { xMm, yMm, error } = pointIn(answer, 'M')
  expect(Math.hypot(xMm!, yMm!)).toBeLessThan(1e-8)
  // AᵀA = 3/2 of the unit matrix.
  expect(error!.majorMm).toBeCloseTo(10 * Math.sqrt(2 / 3), 9)
  expect(error!.minorMm).toBeCloseTo(10 * Math.sqrt(2 / 3), 9)
  // Each reading has a third of the one reading too many, and 6 mm of residual.
  for (const { residualMm, redundancy, test: w } of answer.readings) {
    expect(residualMm).toBeCloseTo(-6, 8)
    expect(redundancy).toBeCloseTo(1 / 3, 9)
    expect(w).toBeCloseTo(-6 / (10 / Math.sqrt(3)), 8)
  }
  expect(answer.fit).toBeCloseTo(Math.sqrt(3 * 0.36), 9)
})

test('by hand: a tape along the slope reads 13 where the level distance is 12 and the rise 5', () => {
  const answer = workedOut({
    pegs: [A, { name: 'B', x: 0, y: 9000 }],
    distances: [
      { from: 'A', to: 'P', length: 13_000, slope: true },
      { from: 'B', to: 'P', length: 15_000 },
    ],
    levels: [{ from: 'P', to: 'A', rise: -5000 }],
    points: [{ name: 'P', side: 'right' }],
  })
  const { xMm, yMm, elevationMm, elevationErrorMm, pegOut } = pointIn(answer, 'P')
  expect(xMm).toBeCloseTo(12_000, 8)
  expect(yMm).toBeCloseTo(0, 8)
  expect([elevationMm, elevationErrorMm]).toEqual([5000, 2])
  expect(pegOut!.first).toMatchObject({ peg: 'A', slopeMm: 13_000 })
  expect(pegOut!.second.slopeMm).toBeNull()
})

test('by hand: a height carried round by two ways is their mean, and each way checks the other', () => {
  const answer = workedOut({
    pegs: [A],
    levels: [
      { from: 'A', to: 'P', rise: 100 },
      { from: 'P', to: 'A', rise: -104 },
    ],
  })
  const point = pointIn(answer, 'P')
  expect(point).toMatchObject({ elevationMm: 102, xMm: null, noPlace: 'no distance leads to it' })
  expect(point.elevationErrorMm).toBeCloseTo(2 / Math.SQRT2, 12)
  expect(answer.readings.map(({ residualMm }) => residualMm)).toEqual([2, 2])
})

test('a reading between two pegs finds nothing and checks them: its residual is what it misses by', () => {
  const { readings, redundancy, points } = workedOut({
    pegs: [A, B],
    distances: [{ from: 'A', to: 'B', length: 5040 }],
  })
  expect(points).toEqual([])
  expect(redundancy).toBe(1)
  expect(readings[0]).toMatchObject({ residualMm: -40, redundancy: 1, test: -4, isSuspect: true })
})

test('two points with two places each are placed together by the distance between them', () => {
  // P left of AB, Q right of BC: by hand, with 3-4-5 triangles.
  const pegs = [A, B, { name: 'C', x: 5000, y: 5000 }]
  const distances = [
    { from: 'A', to: 'P', length: 3000 },
    { from: 'B', to: 'P', length: 4000 },
    { from: 'B', to: 'Q', length: 3000 },
    { from: 'C', to: 'Q', length: 4000 },
    { from: 'P', to: 'Q', length: Math.hypot(7400 - 1800, 1800 - 2400) },
  ]
  const answer = workedOut({ pegs, distances })
  const [p, q] = [pointIn(answer, 'P'), pointIn(answer, 'Q')]
  expect([p.xMm, p.yMm, q.xMm, q.yMm].map((mm) => Number(mm!.toFixed(6)))).toEqual([1800, 2400, 7400, 1800])
})
