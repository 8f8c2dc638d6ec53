import { describe, expect, it } from 'vitest'
import { carsOnEvenHill } from '../../src/hauling/even-grade.ts'
import { carsTaken, slopesOf } from '../../src/hauling/train.ts'
import { gradesOn, profileOf } from '../../src/track/grade.ts'
import { placeElements } from '../../src/track/place.ts'
import { arc, straight } from '../estimate/plans.ts'
import { randomFrom } from '../random.ts'

const engine = { weightN: 60, rolling: 0.02, curveMm: 0 }
const car = { weightN: 25, rolling: 0.02, curveMm: 0 }

describe('the cars an engine takes up an even hill', () => {
  it('are (T − W·(r + i)) / (w·(r + i)), whole ones (by hand)', () => {
    const cars = (grade: number, pullN: number) => carsOnEvenHill({ engine, car, grade, curvature: 0, pullN })
    // (10 − 60·0.04) / (25·0.04) = 7.6, (10 − 60·0.02) / (25·0.02) = 17.6
    expect([cars(0.02, 10), cars(0, 10)]).toEqual([7, 17])
    // Exactly 8, and hardly less.
    expect([cars(0.02, 10.4), cars(0.02, 10.39)]).toEqual([8, 7])
    expect([cars(0.02, 2.4), cars(0.02, 2.3), cars(1, 10)]).toEqual([0, 0, 0])
  })

  it('are fewer in a curve (by hand: c/R = 15/1500 is another 1 %)', () => {
    const curved = {
      engine: { ...engine, curveMm: 15 },
      car: { ...car, curveMm: 15 },
      grade: 0.01,
      curvature: 1 / 1500,
    }
    expect(carsOnEvenHill({ ...curved, pullN: 10 })).toBe(7)
  })

  it('are those of trains that are followed along such a hill (100 random ones)', () => {
    const random = randomFrom(77)
    const pick = (least: number, most: number) => least + (most - least) * random()
    for (let index = 0; index < 100; index++) {
      const [gradePct, radius] = [pick(0, 6), pick(600, 6000)]
      const turned = index % 2 === 1
      const element = turned ? arc(radius, (90_000 / radius) * (180 / Math.PI)) : straight(90_000)
      const placed = placeElements({ xMm: 0, yMm: 0, headingRad: 0 }, [element] as never, false)
      const lengthMm = placed.at(-1)!.toMm
      const grades = gradesOn(profileOf([{ at: 0, gradePct }]), lengthMm)
      const block = (weightN: number) => ({ lengthMm: 500, weightN, rolling: pick(0.005, 0.03), curveMm: pick(5, 25) })
      const [own, behind, pullN] = [block(pick(30, 90)), block(pick(10, 40)), pick(3, 20)]
      const train = { engine: own, behind: [{ count: 1, car: behind }], tractiveEffortN: pullN, holdingN: pullN }
      const slopes = slopesOf({ lengthMm, closed: false, grades, placed })
      const curvature = turned ? 1 / radius : 0
      expect(carsOnEvenHill({ engine: own, car: behind, grade: gradePct / 100, curvature, pullN })).toBe(
        carsTaken(() => slopes, train, pullN),
      )
    }
  })
})
