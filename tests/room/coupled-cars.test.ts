import { describe, expect, it } from 'vitest'
import { type CoupledCar, couplerOffsetMm, worstCouplerOffset } from '../../src/room/coupled-cars.ts'
import { Line } from '../../src/room/line.ts'
import { placeElements } from '../../src/track/place.ts'
import { randomFrom } from '../random.ts'
import { lineOf, randomCar, randomTrack } from './random-lines.ts'

const START = { xMm: 0, yMm: 0, headingRad: 0 }
const arc = (turn: 'left' | 'right', radius: number) =>
  ({ kind: 'arc', radius, length: 2000, angle: null, turn, label: null }) as const
const tangent = (length: number) => ({ kind: 'tangent', length, label: null }) as const
const COACH: CoupledCar = { name: 'coach', lengthMm: 711, truckCentresMm: 500, widthMm: 130, couplerMm: 20 }

describe('two coupled cars', () => {
  it('have their couplers in line on a straight and on one arc', () => {
    const straight = lineOf(placeElements(START, [tangent(5000)], false))
    expect(couplerOffsetMm(straight, COACH, 2000)).toBeCloseTo(0, 9)
    const circle = new Line(placeElements(START, [arc('left', 2400), arc('left', 2400)], false))
    expect(couplerOffsetMm(circle, COACH, 1800)).toBeCloseTo(0, 6)
  })

  it('are off by both overhangs where two arcs meet, as the closed form for a car on each arc says', () => {
    // Closed form: with the coupler at the point where the arcs meet, each is √(d² + a²) − R outside its own arc, with
    // d = √(R² − (C/2)²) and a = L/2 + k, if the whole car is on its arc: trucks (L − C)/2 + k off that point at least.
    const R = 3000
    const line = lineOf(placeElements(START, [arc('left', R), arc('right', R)], false))
    const off = couplerOffsetMm(line, COACH, 2000 - (711 - 500) / 2 - 20)!
    const overhang = Math.hypot(Math.sqrt(R ** 2 - 250 ** 2), 711 / 2 + 20) - R
    // Each overhang is square to its own car, whose line leans from the other's: less than a hundredth.
    expect(Math.abs(Math.abs(off) - 2 * overhang)).toBeLessThan(0.02 * overhang)
  })

  it('mirrored and from the other end they are off as much', () => {
    const random = randomFrom(3)
    for (let each = 0; each < 60; each++) {
      const car = { ...randomCar(random), name: 'x', couplerMm: 30 * random() }
      const [R, S, mm] = [1500 + 3000 * random(), 1500 + 3000 * random(), 600 * random()]
      const line = lineOf(placeElements(START, [arc('left', R), tangent(mm), arc('right', S)], false))
      const mirrored = lineOf(placeElements(START, [arc('right', R), tangent(mm), arc('left', S)], false))
      const back = lineOf(placeElements(START, [arc('left', S), tangent(mm), arc('right', R)], false))
      const of = (along: Line) => worstCouplerOffset(along, car, 2000, 2000 + mm)!.offsetMm
      expect(of(mirrored)).toBeCloseTo(of(line), 6)
      expect(Math.abs(of(back) - of(line))).toBeLessThan(0.01 * of(line) + 1e-6)
    }
  })

  it('the worst place is that of a search in steps of 1 mm, within 1 % or 0.05 mm', () => {
    const random = randomFrom(17)
    for (let each = 0; each < 12; each++) {
      const line = lineOf(randomTrack(random))
      const car = { ...randomCar(random), name: 'x', couplerMm: 15 }
      const [fromMm, toMm] = [0.4 * line.lengthMm, 0.4 * line.lengthMm + 200]
      const worst = worstCouplerOffset(line, car, fromMm, toMm)!
      let most = 0
      const reach = car.lengthMm + 30
      for (let at = fromMm - 1.1 * reach; at <= toMm + 1.2 * reach; at++)
        most = Math.max(most, Math.abs(couplerOffsetMm(line, car, at - (reach - car.truckCentresMm) / 2)!))
      expect(Math.abs(worst.offsetMm - most)).toBeLessThan(0.01 * most + 0.05)
    }
  })
})
