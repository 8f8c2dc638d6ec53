import { describe, expect, it } from 'vitest'
import { clearsAt, roomOfCars, roomOfSpacing } from '../../src/room/clearing.ts'
import { Line } from '../../src/room/line.ts'
import type { CarPlan } from '../../src/room/overhang.ts'
import { placeCar, placeOnCar } from '../../src/room/placed-car.ts'
import { sweptHalfWidth } from '../../src/room/swept-width.ts'
import { placeElements } from '../../src/track/place.ts'
import { specialTrackOf } from '../../src/track/turnout/special-track.ts'
import { partsOf } from '../../src/track/types.ts'
import { randomFrom } from '../random.ts'
import { randomCar } from './random-lines.ts'

const SPECIAL = specialTrackOf(
  [
    { id: 'six', hand: 'left', number: 6 },
    { id: 'four', hand: 'right', number: 4 },
    { id: 'wide', hand: 'left', form: 'curved-frog', radius: 2438.4, angle: 22.5 },
    { id: 'wye', hand: 'wye', number: 5 },
  ],
  45,
)
const BEFORE_MM = 1500

function straight(headingRad: number): Line {
  const start = { xMm: 0, yMm: 0, headingRad }
  return new Line(placeElements(start, [{ kind: 'tangent', length: 20_000, label: null }], false))
}

/** A leg of a turnout with a straight before its points, and an arc and a straight behind it. */
function leg(type: string, leaves: 'through' | 'diverging', turn: 'left' | 'right', radius: number): Line {
  const placed = placeElements(
    { xMm: 0, yMm: 0, headingRad: 0.3 },
    [
      { kind: 'tangent', length: BEFORE_MM, label: null },
      { kind: 'turnout', name: 'W1', type, enters: 'points', leaves, label: null },
      { kind: 'arc', radius, length: 400, angle: null, turn, label: null },
      { kind: 'tangent', length: 6000, label: null },
    ],
    false,
    SPECIAL,
  )
  return new Line(placed.flatMap(partsOf))
}

type Corners = readonly (readonly [number, number])[]

function cornersOf(line: Line, car: CarPlan, frontMm: number): Corners {
  const placed = placeCar(line, car, frontMm)!
  const [l, w] = [car.lengthMm / 2, car.widthMm / 2]
  const signs = [
    [1, 1],
    [-1, 1],
    [-1, -1],
    [1, -1],
  ] as const
  return signs.map(([a, b]) => {
    const { xMm, yMm } = placeOnCar(placed, a * l, b * w)
    return [xMm, yMm] as const
  })
}

/** Two rectangles overlap unless a side of one of them has the other wholly beyond it. */
function overlap(a: Corners, b: Corners): boolean {
  return ![a, b].some((box) =>
    box.some(([x, y], n) => {
      const [x2, y2] = box[(n + 1) % 4]!
      const beyond = ([px, py]: readonly [number, number]) => (x2 - x) * (py - y) - (y2 - y) * (px - x) < 1e-9
      return (box === a ? b : a).every(beyond)
    }),
  )
}

/** Whether a car whose near end is at a distance touches one that is anywhere on the other line. */
function touches(own: Line, other: Line, car: CarPlan, endMm: number): boolean {
  const front = endMm + (car.lengthMm + car.truckCentresMm) / 2
  const standing = cornersOf(own, car, front)
  for (let frontMm = BEFORE_MM; frontMm < endMm + 2000; frontMm += 5)
    if (overlap(standing, cornersOf(other, car, frontMm))) return true
  return false
}

describe('where lines are clear of each other', () => {
  it('two straights at an angle: w / tan(F/2), w the half-width of both (closed form)', () => {
    for (const deg of [5, 9.5, 30, 60, 90]) {
      const rad = (deg * Math.PI) / 180
      const expected = 65 / Math.tan(rad / 2)
      for (const side of [1, -1]) {
        const clear = clearsAt(straight(0), straight(side * rad), 0, 0, roomOfSpacing(130))!
        expect(Math.abs(clear - expected)).toBeLessThan(0.2)
      }
      const cars = roomOfCars([{ lengthMm: 500, truckCentresMm: 350, widthMm: 130 }])
      expect(Math.abs(clearsAt(straight(0), straight(rad), 0, 0, cars)! - expected)).toBeLessThan(0.2)
    }
  })

  it('parallel lines that are too near each other never are', () => {
    const beside = new Line(
      placeElements({ xMm: 0, yMm: 120, headingRad: 0 }, [{ kind: 'tangent', length: 20_000, label: null }], false),
    )
    expect(clearsAt(straight(0), beside, 0, 0, roomOfSpacing(130))).toBeNull()
    expect(clearsAt(straight(0), beside, 700, 700, roomOfSpacing(110))).toBe(700)
  })

  it('cars beyond the place touch no car on the other leg of a turnout, and some car before it does', () => {
    const random = randomFrom(23)
    let tight = 0
    const CASES = 24
    for (let each = 0; each < CASES; each++) {
      const car = randomCar(random)
      const type = ['six', 'four', 'wide', 'wye'][each % 4]!
      const away = type === 'four' ? 'left' : 'right'
      const legs = [leg(type, 'through', away, 6000), leg(type, 'diverging', away, 3000 + 3000 * random())] as const
      const [own, other] = random() < 0.5 ? legs : [legs[1], legs[0]]
      const clear = clearsAt(own, other, BEFORE_MM, BEFORE_MM, roomOfCars([car]))!
      for (const beyond of [0.1, 30, 200, 600]) expect(touches(own, other, car, clear + beyond)).toBe(false)
      if (touches(own, other, car, clear - 60)) tight++
    }
    expect(tight).toBeGreaterThan(0.8 * CASES)
  })
})

it('takes the room of whichever car reaches furthest, although not all are looked at', () => {
  const random = randomFrom(7)
  for (let line = 0; line < 20; line++) {
    const types = ['six', 'four', 'wide', 'wye'] as const
    const on = leg(types[line % 4]!, 'diverging', line % 3 === 0 ? 'left' : 'right', 1500 + 3000 * random())
    const cars = Array.from({ length: 4 }, () => randomCar(random))
    const room = roomOfCars(cars)
    for (let place = 0; place < 20; place++) {
      const atMm = on.lengthMm * random()
      for (const side of [1, -1] as const)
        expect(room.at(on, atMm, side)).toBe(
          Math.max(room.leastMm, ...cars.map((car) => sweptHalfWidth(on, car, atMm, side) ?? 0)),
        )
    }
  }
})
