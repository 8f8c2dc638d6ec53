import { expect, test } from 'vitest'
import { cases } from '../cases.ts'
import { randomFrom } from '../random.ts'
import { normalFrom, pointIn, randomNet, type SentSurvey, workedOut } from './nets.ts'

/* Errors as they are answered against the spread of many surveys of the same garden, each with other errors of reading. */

const TAPE = 10
const LEVEL = 2

/** The readings that would be exact: those of the adjusted net. */
function exact(sent: SentSurvey): SentSurvey {
  const answer = workedOut(sent)
  const adjusted = (kind: string, index: number) =>
    answer.readings.find((each) => each.kind === kind && each.index === index)!.adjustedMm!
  return {
    ...sent,
    distances: sent.distances!.map((each, index) => ({ ...each, length: adjusted('distance', index) })),
    levels: sent.levels!.map((each, index) => ({ ...each, rise: adjusted('rise', index) })),
    lines: sent.lines!.map((each, index) => ({
      ...each,
      readings: each.readings.map(({ length }) => ({ length, rise: adjusted('line', index) / each.readings.length })),
    })),
  }
}

function readAgain(sent: SentSurvey, normal: () => number): SentSurvey {
  return {
    ...sent,
    distances: sent.distances!.map((each) => ({ ...each, length: each.length + TAPE * normal() })),
    levels: sent.levels!.map((each) => ({ ...each, rise: each.rise + LEVEL * normal() })),
    lines: sent.lines!.map((each) => ({
      ...each,
      readings: each.readings.map(({ length, rise }) => ({ length, rise: rise + LEVEL * normal() })),
    })),
  }
}

function spread(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1))
}

test('places, elevations, stations and tests spread as they are said to', () => {
  const chance = randomFrom(20_260)
  const normal = normalFrom(chance)
  const truth = exact(randomNet(chance, 3, TAPE, LEVEL))
  const said = workedOut(truth)
  const count = cases(3000, 1 / 3)
  const answers = Array.from({ length: count }, () => workedOut(readAgain(truth, normal)))
  // A spread of n values is known to 1/√(2n): five times that.
  const within = 5 / Math.sqrt(2 * count)
  const agrees = (values: readonly number[], errorMm: number, what: string) =>
    expect(Math.abs(spread(values) / errorMm - 1), what).toBeLessThan(within)
  for (const { name, error, elevationErrorMm } of said.points) {
    const found = answers.map((answer) => pointIn(answer, name))
    agrees(
      found.map(({ elevationMm }) => elevationMm!),
      elevationErrorMm!,
      `elevation of ${name}`,
    )
    const angle = (error!.directionDeg * Math.PI) / 180
    agrees(
      found.map(({ xMm, yMm }) => xMm! * Math.cos(angle) + yMm! * Math.sin(angle)),
      error!.majorMm,
      `longer axis of ${name}`,
    )
    agrees(
      found.map(({ xMm, yMm }) => yMm! * Math.cos(angle) - xMm! * Math.sin(angle)),
      error!.minorMm,
      `shorter axis of ${name}`,
    )
  }
  for (const [index, { errorMm }] of said.lines[0]!.stations.entries())
    agrees(
      answers.map(({ lines }) => lines[0]!.stations[index]!.elevationMm),
      errorMm,
      `station ${index}`,
    )
  const tests = answers.flatMap(({ readings }) => readings.flatMap(({ test: w }) => (w === null ? [] : [w])))
  // Readings of one net depend on each other, so a little wider.
  expect(Math.abs(spread(tests) - 1)).toBeLessThan(0.03)
  const suspects = answers.reduce((sum, answer) => sum + answer.suspects.length, 0) / tests.length
  expect(suspects).toBeLessThan(0.003)
})

test('with stated errors twice as large, the answered errors double', () => {
  const sent = randomNet(randomFrom(5), 3)
  const [once, twice] = [workedOut(sent), workedOut({ ...sent, tapeError: 20, levelError: 4 })]
  for (const [index, { error, elevationErrorMm }] of once.points.entries()) {
    expect(twice.points[index]!.error!.radiusMm).toBeCloseTo(2 * error!.radiusMm, 4)
    expect(twice.points[index]!.elevationErrorMm).toBeCloseTo(2 * elevationErrorMm!, 9)
  }
})
