import { levenbergMarquardt } from 'ml-levenberg-marquardt'
import { expect, test } from 'vitest'
import { cases } from '../cases.ts'
import { randomFrom } from '../random.ts'
import { pointIn, randomNet, type SentSurvey, workedOut } from './nets.ts'

/*
 * The adjustment against another library of least squares (ml-levenberg-marquardt), which is given the readings in its own
 * words and differentiates by differences.
 */

type Equation = (at: (name: string) => { x: number; y: number; z: number }) => number

/** Each reading in units of its error, and what it should be. */
function equationsOf({ distances = [], levels = [], lines = [], tapeError, levelError }: SentSurvey) {
  const equations: { measured: number; computed: Equation }[] = []
  for (const { from, to, length, slope } of distances)
    equations.push({
      measured: length / tapeError!,
      computed: (at) => {
        const [a, b] = [at(from), at(to)]
        return Math.hypot(b.x - a.x, b.y - a.y, slope ? b.z - a.z : 0) / tapeError!
      },
    })
  for (const { from, to, rise } of levels)
    equations.push({ measured: rise / levelError!, computed: (at) => (at(to).z - at(from).z) / levelError! })
  for (const { from, to, readings } of lines) {
    const error = levelError! * Math.sqrt(readings.length)
    const rise = readings.reduce((sum, step) => sum + step.rise, 0)
    equations.push({ measured: rise / error, computed: (at) => (at(to!).z - at(from).z) / error })
  }
  return equations
}

/** The values of the unknowns, by `name.x` and so on, as the library finds them from a start. */
function byLibrary(sent: SentSurvey, start: Map<string, number>): Map<string, number> {
  const equations = equationsOf(sent)
  const names = [...start.keys()]
  const model = (values: number[]) => {
    const found = new Map(names.map((name, index) => [name, values[index]!]))
    const at = (name: string) => {
      const peg = sent.pegs.find((each) => each.name === name)
      const of = (key: 'x' | 'y' | 'z') => found.get(`${name}.${key}`)!
      return { x: peg?.x ?? of('x'), y: peg?.y ?? of('y'), z: peg?.elevation ?? of('z') }
    }
    return (index: number) => equations[index]!.computed(at)
  }
  let values = [...start.values()]
  // Its steps become small before it is there: begun again until nothing moves.
  for (let round = 0; round < 5; round++)
    values = levenbergMarquardt(
      { x: equations.map((_, index) => index), y: equations.map(({ measured }) => measured) },
      model,
      {
        initialValues: values,
        damping: 1e-9,
        gradientDifference: 0.5,
        centralDifference: true,
        maxIterations: 30,
        errorTolerance: 1e-30,
        improvementThreshold: 0,
      },
    ).parameterValues as number[]
  return new Map(names.map((name, index) => [name, values[index]!]))
}

test('random nets come out as another library finds them, to a millionth of a millimetre', () => {
  const chance = randomFrom(20_260)
  const count = cases(60)
  for (let net = 0; net < count; net++) {
    const sent = randomNet(chance, 2 + Math.floor(4 * chance()))
    const answer = workedOut(sent)
    const ours = new Map<string, number>()
    for (const { name, elevationMm, elevationErrorMm } of answer.pegs)
      if (elevationErrorMm! > 0) ours.set(`${name}.z`, elevationMm!)
    for (const { name, xMm, yMm, elevationMm } of answer.points) {
      ours.set(`${name}.x`, xMm!)
      ours.set(`${name}.y`, yMm!)
      ours.set(`${name}.z`, elevationMm!)
    }
    // From somewhere else, up to 40 mm off, so that the library has to find the way by itself.
    const start = new Map([...ours].map(([key, value]) => [key, Math.round(value / 40) * 40]))
    const theirs = byLibrary(sent, start)
    for (const [key, value] of theirs)
      expect(Math.abs(value - ours.get(key)!), `${key} of net ${net}`).toBeLessThan(1e-6)
    expect(answer.redundancy).toBe(equationsOf(sent).length - ours.size)
  }
})

test('a comparison with readings that differ by a hundredth of a millimetre would be noticed', () => {
  const sent = randomNet(randomFrom(7), 3)
  const before = pointIn(workedOut(sent), 'P1')
  sent.distances!.find(({ to }) => to === 'P1')!.length += 0.01
  const after = pointIn(workedOut(sent), 'P1')
  expect(Math.hypot(after.xMm! - before.xMm!, after.yMm! - before.yMm!)).toBeGreaterThan(1e-4)
})
