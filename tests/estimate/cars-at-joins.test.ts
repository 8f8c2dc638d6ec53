import { describe, expect, it } from 'vitest'
import { asSent } from './turnout-plans.ts'
import { worked } from './worked.ts'

/* Reverse curves where new track joins track that is there: with cars, how grave they are follows from their couplers. */

const car = (length: number) => ({ name: 'coach', length, truckCentres: 0.7 * length, width: 110, couplerLength: 20 })
const arc = (radius: number, turn: string) => ({ kind: 'arc', radius, angle: 30, turn })
const tangent = (length: number) => ({ kind: 'tangent', length })

const found = (plan: object) => worked(plan).findings.filter(({ rule }) => rule === 'reverse-curve')

describe('a reverse curve across a join with existing track', () => {
  const inPlan = (radius: number, straightMm: number, cars: readonly object[]) => ({
    ...asSent(),
    ...(cars.length > 0 && { cars }),
    standards: { minimumTangentBetweenReverseCurves: 500 },
    tracks: [
      { name: 'old', state: 'existing', elements: [arc(radius, 'left')] },
      { name: 'new', start: { after: 'old' }, elements: [tangent(straightMm), arc(radius, 'right')] },
    ],
  })
  const beyond = (radius: number, straightMm: number, cars: readonly object[]) => ({
    ...asSent(),
    ...(cars.length > 0 && { cars }),
    standards: { minimumTangentBetweenReverseCurves: 500 },
    tracks: [
      {
        name: 'new',
        joinsExisting: { start: { section: '250', material: 'brass', radius, turn: 'left' } },
        elements: [tangent(straightMm), arc(radius, 'right')],
      },
    ],
  })

  it.each([
    ['of the plan', inPlan],
    ['that is only described', beyond],
  ] as const)('%s: tight is a warning, wide a note', (_, plan) => {
    const [tight] = found(plan(1500, 10, [car(500)]))
    expect(tight).toMatchObject({ severity: 'warn', track: 'new', limit: 500 })
    expect(tight!.message).toMatch(
      /Two coupled cars \(coach\) have their couplers .* off each other sideways at worst, there/,
    )
    expect(found(plan(9000, 200, [car(300)]))).toMatchObject([{ severity: 'note' }])
    // Without cars it stays a warning, and nothing is said of couplers.
    const [plain] = found(plan(9000, 200, []))
    expect(plain).toMatchObject({ severity: 'warn' })
    expect(plain!.message).not.toContain('couplers')
  })

  it('says the same of track of the plan and of the same track described', () => {
    const [a] = found(inPlan(2000, 100, [car(500)]))
    const [b] = found(beyond(2000, 100, [car(500)]))
    expect(a!.message).toBe(b!.message)
  })

  it('and at the other end, mirrored', () => {
    const plan = {
      ...asSent(),
      cars: [car(500)],
      standards: { minimumTangentBetweenReverseCurves: 500 },
      tracks: [
        {
          name: 'new',
          joinsExisting: { end: { section: '250', material: 'brass', radius: 2000, turn: 'left' } },
          elements: [arc(2000, 'right'), tangent(100)],
        },
      ],
    }
    const offOf = (message: string) => /couplers ([\d.]+ mm) off/.exec(message)![1]
    expect(offOf(found(plan)[0]!.message)).toBe(offOf(found(beyond(2000, 100, [car(500)]))[0]!.message))
  })
})
