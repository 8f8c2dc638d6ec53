import { expect, test } from 'vitest'
import { choleskyOf, inverseBy, solvedBy } from '../../src/survey/cholesky.ts'
import { crossingOf, leftOf } from '../../src/survey/circles.ts'
import { ellipseOf } from '../../src/survey/ellipse.ts'
import { pegOutOf } from '../../src/survey/peg-out.ts'
import { randomFrom } from '../random.ts'
import { pointIn, workedOut } from './nets.ts'

const circle = (xMm: number, yMm: number, radiusMm: number) => ({ centre: { xMm, yMm }, radiusMm, errorMm: 1 })

test('by hand: circles of 3 and 4 around centres 5 apart cross at right angles', () => {
  const crossing = crossingOf(circle(0, 0, 3000), circle(5000, 0, 4000))
  if (!crossing?.meets) throw new Error('they meet')
  expect(crossing.left.xMm).toBeCloseTo(1800, 10)
  expect(crossing.left.yMm).toBeCloseTo(2400, 10)
  expect(crossing.right.yMm).toBeCloseTo(-2400, 10)
  expect(crossing.sine).toBeCloseTo(1, 12)
  expect(crossing.flat).toBe(false)
  expect(leftOf({ xMm: 0, yMm: 0 }, { xMm: 5000, yMm: 0 }, crossing.left)).toBeCloseTo(2400, 10)
})

test('circles that touch are flat, those apart or within each other miss by the rest, those around one place are nothing', () => {
  expect(crossingOf(circle(0, 0, 2000), circle(5000, 0, 3000))).toMatchObject({ meets: true, flat: true })
  expect(crossingOf(circle(0, 0, 2000), circle(5000, 0, 2500))).toEqual({ meets: false, gapMm: 500, isInside: false })
  expect(crossingOf(circle(0, 0, 8000), circle(5000, 0, 2000))).toEqual({ meets: false, gapMm: 1000, isInside: true })
  expect(crossingOf(circle(7, 7, 8000), circle(7, 7, 2000))).toBeNull()
})

test('closed form: σ of the height of a crossing, by moving the radii', () => {
  // h² = r² − b²/4 for equal radii; where both err alike, dh = r·dr/h, and independent errors give that times 1/√2.
  const [r, b] = [5000, 9900]
  const h = Math.sqrt(r * r - (b * b) / 4)
  const errorMm = (r / h / Math.SQRT2) * 1
  for (const [share, flat] of [
    [0.999, true],
    [1.001, false],
  ] as const) {
    const errorAt = h / 3.29 / errorMm / share
    const crossing = crossingOf({ ...circle(0, 0, r), errorMm: errorAt }, { ...circle(b, 0, r), errorMm: errorAt })
    expect(crossing).toMatchObject({ meets: true, flat })
  }
})

test('by hand: L, the solution and the inverse of a matrix', () => {
  const matrix = { size: 2, values: Float64Array.from([4, 2, 2, 3]) }
  const lower = choleskyOf(matrix)!
  expect([...lower.values]).toEqual([2, 0, 1, Math.SQRT2])
  expect(solvedBy(lower, [8, 7]).map((x) => Number(x.toFixed(12)))).toEqual([1.25, 1.5])
  expect([...inverseBy(lower).values].map((x) => Number(x.toFixed(12)))).toEqual([0.375, -0.25, -0.25, 0.5])
  expect(choleskyOf({ size: 2, values: Float64Array.from([1, 1, 1, 1]) })).toBeNull()
})

test('an inverse times its matrix is 1', () => {
  const chance = randomFrom(11)
  const size = 20
  const factors = Array.from({ length: size * size }, () => chance() - 0.5)
  const values = new Float64Array(size * size)
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++)
      for (let k = 0; k < size; k++)
        values[i * size + j]! += factors[i * size + k]! * factors[j * size + k]! + (i === j ? 0.01 : 0)
  const inverse = inverseBy(choleskyOf({ size, values })!).values
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++) {
      let product = 0
      for (let k = 0; k < size; k++) product += values[i * size + k]! * inverse[k * size + j]!
      expect(product).toBeCloseTo(i === j ? 1 : 0, 9)
    }
})

test('closed form: ellipses along the axes, turned by 30°, and round ones', () => {
  expect(ellipseOf(9, 4, 0)).toEqual({ majorMm: 3, minorMm: 2, directionDeg: 0, radiusMm: Math.sqrt(13) })
  expect(ellipseOf(4, 9, 0).directionDeg).toBeCloseTo(90, 12)
  const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)]
  const turned = ellipseOf(9 * c * c + 4 * s * s, 9 * s * s + 4 * c * c, 5 * c * s)
  expect(turned.majorMm).toBeCloseTo(3, 12)
  expect(turned.minorMm).toBeCloseTo(2, 12)
  expect(turned.directionDeg).toBeCloseTo(30, 10)
  expect(ellipseOf(4, 4, 0)).toMatchObject({ majorMm: 2, minorMm: 2 })
})

test('the two pegs nearest to a right angle, the shorter tapes of those alike, and none in line', () => {
  const peg = (name: string, xMm: number, yMm: number, elevationMm: number | null = null) => ({
    name,
    xMm,
    yMm,
    elevationMm,
  })
  const here = { xMm: 0, yMm: 0 }
  const pegs = [peg('far', 9000, 0), peg('near', 3000, 0), peg('up', 0, 4000, 3000), peg('oblique', 5000, 2000)]
  const best = pegOutOf(here, 0, pegs, 10)!
  expect(best).toMatchObject({
    first: { peg: 'near', levelMm: 3000, slopeMm: null },
    second: { peg: 'up', levelMm: 4000, slopeMm: 5000 },
  })
  expect(best.errorMm).toBeCloseTo(10 * Math.SQRT2, 12)
  // From `near` to `up` the place is on the left: by hand.
  expect(best.side).toBe('left')
  expect(pegOutOf(here, 0, [peg('a', 1000, 0), peg('b', 9000, 1500), peg('c', -2000, 0)], 10)).toBeNull()
  expect(pegOutOf(here, 0, [peg('a', 0, 0), peg('b', 9000, 1500)], 10)).toBeNull()
})

test('taped back from the two pegs, a point is where it was', () => {
  const { first, second, side } = pegOutOf(
    { xMm: 1234, yMm: 5678 },
    null,
    [
      { name: 'a', xMm: -20, yMm: 30, elevationMm: null },
      { name: 'b', xMm: 7000, yMm: 10, elevationMm: null },
    ],
    5,
  )!
  const pegs = [
    { name: 'a', x: -20, y: 30 },
    { name: 'b', x: 7000, y: 10 },
  ]
  const distances = [first, second].map(({ peg, levelMm }) => ({ from: peg, to: 'P', length: levelMm }))
  const again = pointIn(workedOut({ pegs, distances, points: [{ name: 'P', side }] }), 'P')
  expect(Math.hypot(again.xMm! - 1234, again.yMm! - 5678)).toBeLessThan(1e-8)
})

test('a line gives its stations as an adjustment with every station as a point of its own does', () => {
  const rises = [112, 95, 121, 108]
  const pegs = [{ name: 'A', x: 0, y: 0, elevation: 10 }]
  const levels = [
    { from: 'A', to: 'B', rise: 430 },
    { from: 'A', to: 'B', rise: 428 },
  ]
  const line = { name: 'path', from: 'A', to: 'B', readings: rises.map((rise) => ({ length: 1000, rise })) }
  const inOne = workedOut({ pegs, levels, lines: [line] }).lines[0]!
  const names = ['A', 's1', 's2', 's3', 'B']
  const steps = rises.map((rise, index) => ({ from: names[index]!, to: names[index + 1]!, rise }))
  const apart = workedOut({ pegs, levels: [...levels, ...steps] })
  for (const [index, { elevationMm, errorMm, atMm }] of inOne.stations.entries()) {
    if (index === 0) continue
    const point = pointIn(apart, names[index]!)
    expect(atMm).toBe(1000 * index)
    expect(elevationMm).toBeCloseTo(point.elevationMm!, 10)
    expect(errorMm).toBeCloseTo(point.elevationErrorMm!, 10)
  }
})

test('by hand: an open line, and one between two known ends whose misclosure of 8 mm is spread evenly', () => {
  const readings = [10, 20, 30, 48].map((rise) => ({ length: 1219.2, rise }))
  const pegs = [
    { name: 'A', x: 0, y: 0, elevation: 0 },
    { name: 'B', x: 9, y: 0, elevation: 100 },
  ]
  const answer = workedOut({
    pegs,
    lines: [
      { name: 'open', from: 'A', readings },
      { name: 'closed', from: 'A', to: 'B', readings },
      {
        name: 'round',
        from: 'A',
        to: 'A',
        readings: [
          { length: 1000, rise: 50 },
          { length: 1000, rise: -46 },
        ],
      },
    ],
  })
  const [open, closed, round] = answer.lines
  expect(open!.stations.map(({ elevationMm }) => elevationMm)).toEqual([0, 10, 30, 60, 108])
  expect(open!.stations.map(({ errorMm }) => errorMm ** 2)).toEqual(
    [0, 4, 8, 12, 16].map((each) => expect.closeTo(each, 10)),
  )
  expect(open!.misclosureMm).toBeNull()
  expect(closed!.misclosureMm).toBe(8)
  expect(closed!.stations.map(({ elevationMm }) => elevationMm)).toEqual([0, 8, 26, 54, 100])
  expect(closed!.stations[2]!.errorMm).toBeCloseTo(2, 12)
  expect(round!.stations.map(({ elevationMm }) => elevationMm)).toEqual([0, 48, 0])
  expect(answer.readings.map(({ kind, residualMm, redundancy }) => [kind, residualMm, redundancy])).toEqual([
    ['line', -8, 1],
    ['line', -4, 1],
  ])
})
