import { expect, test } from 'vitest'
import { cases } from '../cases.ts'
import { randomFrom } from '../random.ts'
import { randomNet, type SentSurvey, workedOut } from './nets.ts'

/* A net that is turned, shifted or mirrored has the same shape: so have its answers. */

type Move = (x: number, y: number) => readonly [number, number]

function movedBy(sent: SentSurvey, move: Move): SentSurvey {
  const pegs = sent.pegs.map((peg) => {
    const [x, y] = move(peg.x, peg.y)
    return { ...peg, x, y }
  })
  return { ...sent, pegs }
}

const turn =
  (angle: number): Move =>
  (x, y) => [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)]

const MOVES: readonly [string, Move, boolean][] = [
  ['shifted', (x, y) => [x + 3_000, y - 70_000], false],
  ['turned', turn(2.2), false],
  ['mirrored', (x, y) => [-x, y], true],
]

test.each(MOVES)('a net that is %s', (_, move, isMirrored) => {
  const chance = randomFrom(41)
  for (let net = 0; net < cases(30); net++) {
    const sent = randomNet(chance, 4)
    const [before, after] = [workedOut(sent), workedOut(movedBy(sent, move))]
    for (const [index, { xMm, yMm, error, elevationMm, pegOut }] of before.points.entries()) {
      const moved = after.points[index]!
      const [x, y] = move(xMm!, yMm!)
      expect(Math.hypot(moved.xMm! - x, moved.yMm! - y)).toBeLessThan(1e-7)
      expect(moved.elevationMm).toBeCloseTo(elevationMm!, 9)
      expect(moved.error!.majorMm).toBeCloseTo(error!.majorMm, 8)
      expect(moved.error!.minorMm).toBeCloseTo(error!.minorMm, 8)
      expect(moved.pegOut!.first.levelMm).toBeCloseTo(pegOut!.first.levelMm, 7)
      expect(moved.pegOut!.side === pegOut!.side).toBe(!isMirrored)
    }
    for (const [index, { residualMm, test: w }] of before.readings.entries()) {
      expect(after.readings[index]!.residualMm).toBeCloseTo(residualMm!, 7)
      expect(after.readings[index]!.test).toBeCloseTo(w!, 6)
    }
  }
})

test('a rise read the other way round, and distances in another order, change nothing', () => {
  const sent = randomNet(randomFrom(3), 4)
  const before = workedOut(sent)
  const after = workedOut({
    ...sent,
    distances: sent.distances!.toReversed().map((each) => ({ ...each, from: each.to, to: each.from })),
    levels: sent.levels!.map(({ from, to, rise }) => ({ from: to, to: from, rise: -rise })),
  })
  for (const { name, xMm, yMm, elevationMm } of before.points) {
    const same = after.points.find((point) => point.name === name)!
    expect(Math.hypot(same.xMm! - xMm!, same.yMm! - yMm!)).toBeLessThan(1e-8)
    expect(same.elevationMm).toBeCloseTo(elevationMm!, 9)
  }
})
