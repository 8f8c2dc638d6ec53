import { describe, expect, it } from 'vitest'
import { Line, pieceReversed } from '../../src/room/line.ts'
import { type CarPlan, overhangOn } from '../../src/room/overhang.ts'
import { placeCar, placeOnCar } from '../../src/room/placed-car.ts'
import { sweptHalfWidths } from '../../src/room/swept-width.ts'
import { placeElements } from '../../src/track/place.ts'
import { cases } from '../cases.ts'
import { randomFrom } from '../random.ts'
import { lineOf, randomCar, randomTrack } from './random-lines.ts'

const CASES = cases(200, 1 / 2)

/** The rear truck by halving, and no more than the poses of the line: what `placeCar` must agree with. */
function rearByHalving(line: Line, truckCentresMm: number, frontMm: number): number {
  const front = line.poseAt(frontMm)
  let [far, near] = [frontMm - 1.3 * truckCentresMm, frontMm - 0.5 * truckCentresMm]
  for (let step = 0; step < 40; step++) {
    const middle = (far + near) / 2
    const { xMm, yMm } = line.poseAt(middle)
    if (Math.hypot(front.xMm - xMm, front.yMm - yMm) > truckCentresMm) far = middle
    else near = middle
  }
  return near
}

/** A car moved by fifths of a millimetre, its outline cut by the line square to the track at a station. */
function byDenseSweep(line: Line, { lengthMm, truckCentresMm, widthMm }: CarPlan, atMm: number) {
  const here = line.poseAt(atMm)
  const [cos, sin] = [Math.cos(here.headingRad), Math.sin(here.headingRad)]
  let [leftMm, rightMm] = [0, 0]
  for (let frontMm = atMm - lengthMm; frontMm <= atMm + 1.5 * lengthMm; frontMm += 0.2) {
    const front = line.poseAt(frontMm)
    const rear = line.poseAt(rearByHalving(line, truckCentresMm, frontMm))
    const direction = Math.atan2(front.yMm - rear.yMm, front.xMm - rear.xMm)
    const corner = (ahead: number, aside: number) => {
      const x = (front.xMm + rear.xMm) / 2 + ahead * Math.cos(direction) - aside * Math.sin(direction) - here.xMm
      const y = (front.yMm + rear.yMm) / 2 + ahead * Math.sin(direction) + aside * Math.cos(direction) - here.yMm
      return [x * cos + y * sin, y * cos - x * sin] as const
    }
    const [l, w] = [lengthMm / 2, widthMm / 2]
    const corners = [corner(l, w), corner(-l, w), corner(-l, -w), corner(l, -w)]
    for (const [n, [x, y]] of corners.entries()) {
      const [x2, y2] = corners[(n + 1) % 4]!
      if (x * x2 > 0) continue
      const across = y + ((y2 - y) * x) / (x - x2 || 1)
      leftMm = Math.max(leftMm, across)
      rightMm = Math.max(rightMm, -across)
    }
  }
  return { leftMm, rightMm }
}

describe('a car on a line', () => {
  it('has both trucks on it, as far apart as they are', () => {
    const random = randomFrom(11)
    for (let each = 0; each < 200; each++) {
      const line = lineOf(randomTrack(random))
      const car = randomCar(random)
      const frontMm = line.lengthMm * random()
      const placed = placeCar(line, car, frontMm)!
      expect(placed.rearMm).toBeCloseTo(rearByHalving(line, car.truckCentresMm, frontMm), 6)
      const pivot = placeOnCar(placed, -car.truckCentresMm / 2, 0)
      const rear = line.poseAt(placed.rearMm)
      expect(Math.hypot(pivot.xMm - rear.xMm, pivot.yMm - rear.yMm)).toBeLessThan(1e-6)
    }
  })

  it('has no place where the curve is too tight for it', () => {
    const [arc] = placeElements(
      { xMm: 0, yMm: 0, headingRad: 0 },
      [{ kind: 'arc', radius: 200, length: null, angle: 720, turn: 'left', label: null }],
      false,
    )
    const car = { lengthMm: 600, truckCentresMm: 450, widthMm: 100 }
    expect(placeCar(new Line([arc!]), car, 1500)).toBeNull()
    expect(sweptHalfWidths(new Line([arc!]), car, 1250)).toBeNull()
  })
})

describe('swept half-widths', () => {
  it('are those of a car moved by fifths of a millimetre, within 0.1 mm, on straights, arcs, easements and turnouts', () => {
    const random = randomFrom(5)
    let changing = 0
    for (let each = 0; each < CASES; each++) {
      const line = lineOf(randomTrack(random))
      const car = randomCar(random)
      const atMm = line.lengthMm * random()
      const swept = sweptHalfWidths(line, car, atMm)!
      const dense = byDenseSweep(line, car, atMm)
      expect(Math.abs(swept.leftMm - dense.leftMm)).toBeLessThan(0.1)
      expect(Math.abs(swept.rightMm - dense.rightMm)).toBeLessThan(0.1)
      if (line.steadyCurvature(atMm - 1.5 * car.lengthMm, atMm + 1.5 * car.lengthMm) === null) changing++
    }
    expect(changing).toBeGreaterThan(CASES / 2)
  })

  it('are mirrored on a mirrored track, and the other way round from its end', () => {
    for (let seed = 1; seed <= 100; seed++) {
      const line = lineOf(randomTrack(randomFrom(seed)))
      const back = new Line(line.pieces.map(pieceReversed).reverse())
      const mirrored = new Line(
        line.pieces.map((piece) => ({
          ...piece,
          startCurvature: -piece.startCurvature,
          endCurvature: -piece.endCurvature,
          start: { ...piece.start, yMm: -piece.start.yMm, headingRad: -piece.start.headingRad },
          end: { ...piece.end, yMm: -piece.end.yMm, headingRad: -piece.end.headingRad },
        })),
      )
      const random = randomFrom(seed)
      const car = randomCar(random)
      const atMm = line.lengthMm * (0.2 + 0.6 * random())
      const { leftMm, rightMm } = sweptHalfWidths(line, car, atMm)!
      const other = sweptHalfWidths(mirrored, car, atMm)!
      expect(other.leftMm).toBeCloseTo(rightMm, 9)
      expect(other.rightMm).toBeCloseTo(leftMm, 9)
      const fromEnd = sweptHalfWidths(back, car, line.lengthMm - atMm)!
      expect(Math.abs(fromEnd.leftMm - rightMm)).toBeLessThan(0.02)
      expect(Math.abs(fromEnd.rightMm - leftMm)).toBeLessThan(0.02)
    }
  })

  it('are the closed forms on a circle, all the way round a closed one', () => {
    const start = { xMm: 0, yMm: 0, headingRad: 0 }
    const half = { kind: 'arc', radius: 2000, length: null, angle: 180, turn: 'right', label: null } as const
    const line = new Line(placeElements(start, [half, half], true), true)
    const car = { lengthMm: 500, truckCentresMm: 350, widthMm: 120 }
    const { insideReachMm, outsideReachMm } = overhangOn(2000, car)
    for (const atMm of [0, 1, 3000, line.lengthMm - 1, line.lengthMm + 5]) {
      const swept = sweptHalfWidths(line, car, atMm)!
      expect(swept.rightMm).toBeCloseTo(insideReachMm, 9)
      expect(swept.leftMm).toBeCloseTo(outsideReachMm, 9)
    }
  })

  it('are half the width on a straight, and beyond the end of one', () => {
    const line = lineOf(
      placeElements({ xMm: 0, yMm: 0, headingRad: 1 }, [{ kind: 'tangent', length: 900, label: null }], false),
    )
    const car = { lengthMm: 500, truckCentresMm: 350, widthMm: 120 }
    for (const atMm of [-300, 0, 400, 1300])
      expect(sweptHalfWidths(line, car, atMm)).toEqual({ leftMm: 60, rightMm: 60 })
  })
})
