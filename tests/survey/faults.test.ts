import { expect, test } from 'vitest'
import { faultsIn, pointIn, type SentSurvey, workedOut } from './nets.ts'

/* What a survey is refused for, all of it at once, and what is answered with a reason instead. */

const PEGS = [
  { name: 'A', x: 0, y: 0, elevation: 0 },
  { name: 'B', x: 8000, y: 0 },
  { name: 'C', x: 0, y: 6000 },
]
const from = (to: string, ...lengths: number[]) =>
  lengths.map((length, index) => ({ from: PEGS[index]!.name, to, length }))

test('circles that do not meet, beside and within each other, and points that may be in two places, all at once', () => {
  const distances = [...from('short', 3000, 4000), ...from('inside', 9500, 1000), ...from('two', 5000, 5000)]
  expect(faultsIn({ pegs: PEGS, distances })).toEqual([
    '/distances/1/length contradictory',
    '/distances/3/length contradictory',
    '/distances/5 missing',
  ])
})

test('a fault in a field does not hide those between the parts', () => {
  const sent = {
    pegs: [...PEGS, { name: 'A', x: 1, y: 2 }, { name: 'E', x: 8000, y: 0 }],
    distances: [
      { from: 'A', to: 'P', length: -3 },
      { from: 'P', to: 'P', length: 10 },
    ],
    levels: [{ from: 'B', to: 'B', rise: 1 }],
    lines: [
      { name: 'path', from: 'A', readings: [{ length: 1219, rise: 10 }] },
      { name: 'path', from: 'A', readings: [{ length: 1219, rise: 10 }] },
    ],
    points: [{ name: 'A', side: 'left' }, { name: 'Q' }, { name: 'Q' }],
    tapeError: 'much',
  }
  expect(new Set(faultsIn(sent))).toEqual(
    new Set([
      '/distances/0/length out-of-range',
      '/tapeError bad-length',
      '/pegs/3/name contradictory',
      '/pegs/4 contradictory',
      '/distances/1/to contradictory',
      '/levels/0/to contradictory',
      '/lines/1/name contradictory',
      '/points/2/name contradictory',
      '/points/0/name contradictory',
    ]),
  )
})

test('a side of a point that nothing leads to is refused with the names that were measured', () => {
  expect(
    faultsIn({ pegs: PEGS, distances: from('P', 5000, 5000, 5000), points: [{ name: 'p', side: 'left' }] }),
  ).toEqual(['/points/0/name unknown-value'])
})

test('a side that the distances contradict', () => {
  // (3000, 4000) is to the left of the line from A to B.
  const distances = from('P', 5000, Math.hypot(5000, 4000), Math.hypot(3000, 2000))
  const side = (name: 'left' | 'right'): SentSurvey => ({ pegs: PEGS, distances, points: [{ name: 'P', side: name }] })
  expect(faultsIn(side('right'))).toEqual(['/points contradictory'])
  expect(pointIn(workedOut(side('left')), 'P').yMm).toBeCloseTo(4000, 6)
})

test('distances along a slope without the height of an end, and shorter than the difference in height', () => {
  const distances = [
    { from: 'A', to: 'P', length: 5000, slope: true },
    { from: 'A', to: 'Q', length: 900, slope: true },
    { from: 'B', to: 'Q', length: 7800 },
  ]
  const levels = [{ from: 'A', to: 'Q', rise: 1000 }]
  expect(faultsIn({ pegs: PEGS, distances, levels })).toEqual([
    '/distances/0/slope missing',
    '/distances/1/length contradictory',
  ])
})

test('more than 100 pegs and points', () => {
  const levels = Array.from({ length: 98 }, (_, index) => ({ from: 'A', to: `P${index}`, rise: index }))
  expect(faultsIn({ pegs: PEGS, levels })).toEqual(['/ too-many'])
  expect(faultsIn({ pegs: PEGS, levels: levels.slice(1) })).toEqual([])
})

test('points with too few distances have no place and say why; so do those measured from them, and heights that hang in the air', () => {
  const answer = workedOut({
    pegs: PEGS,
    distances: [
      ...from('one', 3000),
      { from: 'one', to: 'next', length: 2000 },
      { from: 'B', to: 'next', length: 7000 },
    ],
    levels: [{ from: 'x', to: 'y', rise: 50 }],
    lines: [{ name: 'path', from: 'x', readings: [{ length: 1219, rise: 10 }] }],
  })
  expect(
    answer.points.map(({ name, xMm, noPlace, elevationMm, noElevation }) => [
      name,
      xMm,
      noPlace !== null,
      elevationMm,
      noElevation !== null,
    ]),
  ).toEqual([
    ['one', null, true, null, true],
    ['next', null, true, null, true],
    ['x', null, true, null, true],
    ['y', null, true, null, true],
  ])
  expect(answer.lines[0]).toMatchObject({ stations: [], misclosureMm: null, riseMm: 10 })
  expect(answer.lines[0]!.noElevation).not.toBeNull()
  expect(answer.readings.every(({ adjustedMm }) => adjustedMm === null)).toBe(true)
  expect(answer.redundancy).toBe(0)
})

test('a point in line with its pegs, where the circles only touch, has no place; within the errors it is no fault', () => {
  for (const shortMm of [-20, 0, 20]) {
    const answer = workedOut({ pegs: PEGS, distances: from('P', 3000, 5000 - shortMm) })
    expect(pointIn(answer, 'P').noPlace).toContain('in line')
  }
  expect(faultsIn({ pegs: PEGS, distances: from('P', 3000, 4940) })).toEqual(['/distances/1/length contradictory'])
})

test('pegs alone are answered as they are', () => {
  const answer = workedOut({ pegs: PEGS })
  expect(answer).toMatchObject({ points: [], lines: [], readings: [], redundancy: 0, fit: null, suspects: [] })
  expect(answer.pegs.map(({ elevationMm, elevationErrorMm }) => [elevationMm, elevationErrorMm])).toEqual([
    [0, 0],
    [null, null],
    [null, null],
  ])
})

test('sizes from a millimetre to kilometres', () => {
  for (const size of [1e-3, 1, 1e3]) {
    const pegs = PEGS.map(({ name, x, y }) => ({ name, x: x * size, y: y * size }))
    const distances = from('P', 5000, Math.hypot(5000, 4000), Math.hypot(3000, 2000)).map((each) => ({
      ...each,
      length: each.length * size,
    }))
    const { xMm, yMm } = pointIn(workedOut({ pegs, distances, tapeError: Math.max(0.001, 0.01 * size) }), 'P')
    expect(Math.hypot(xMm! / size - 3000, yMm! / size - 4000)).toBeLessThan(1e-8)
  }
})

test('a slip of a quarter of a metre in a distance is named first, and the others follow it', () => {
  const lengths = [5000, Math.hypot(5000, 4000), Math.hypot(3000, 2000)]
  const fourth = { name: 'D', x: 9000, y: 7000 }
  const distances = [...from('P', ...lengths), { from: 'D', to: 'P', length: Math.hypot(6000, 3000) }]
  const clean = workedOut({ pegs: [...PEGS, fourth], distances })
  expect(clean.suspects).toEqual([])
  distances[1]!.length += 250
  const answer = workedOut({ pegs: [...PEGS, fourth], distances })
  expect(answer.suspects[0]!.reading).toBe(1)
  expect(answer.suspects[0]!.message).toContain('from B to P')
  expect(answer.suspects[0]!.message).toContain('Measure it again first.')
})

test('with one reading too many a slip is seen, but any reading may be the wrong one', () => {
  const distances = from('P', 5000, Math.hypot(5000, 4000), Math.hypot(3000, 2000) + 200)
  const { suspects } = workedOut({ pegs: PEGS, distances })
  expect(suspects).toHaveLength(3)
  expect(suspects[0]!.message).toContain('3 readings are off alike')
})
