import { describe, expect, it } from 'vitest'
import { Envelope } from '../../src/room/envelope.ts'
import { Line, pieceReversed } from '../../src/room/line.ts'
import { stretchesNear } from '../../src/room/near.ts'
import { boxAround, type Outline } from '../../src/room/outline.ts'
import type { CarPlan } from '../../src/room/overhang.ts'
import { mostReachMm } from '../../src/room/reach.ts'
import { sweptHalfWidths } from '../../src/room/swept-width.ts'
import { type Touch, touchesOf } from '../../src/room/touching.ts'
import type { Point } from '../../src/track/sample.ts'
import { randomFrom } from '../random.ts'
import { lineOf, randomCar, randomTrack } from './random-lines.ts'

function touches(line: Line, car: CarPlan, outline: Outline): Touch[] {
  const mostMm = mostReachMm(line, car)
  const [stretches] = stretchesNear(line, [boxAround(outline)], mostMm, car.lengthMm / 10)
  return touchesOf(new Envelope(line, car), outline, stretches!, mostMm, () => false)
}

/** A point beside a line, left positive. */
function beside(line: Line, atMm: number, leftMm: number): Point {
  const { xMm, yMm, headingRad } = line.poseAt(atMm)
  return { xMm: xMm - leftMm * Math.sin(headingRad), yMm: yMm + leftMm * Math.cos(headingRad) }
}

/** Whether a car somewhere on the line covers a point: moved in small steps, nothing but its rectangle. */
function deepestOver(line: Line, car: CarPlan, point: Point, aboutMm: number): number {
  const [cos, sin] = (({ headingRad }) => [Math.cos(headingRad), Math.sin(headingRad)])(line.poseAt(aboutMm))
  const track = line.poseAt(aboutMm)
  const offset = (point.yMm - track.yMm) * cos - (point.xMm - track.xMm) * sin
  const side = Math.sign(offset)
  let reach = 0
  for (let frontMm = aboutMm - car.lengthMm; frontMm <= aboutMm + 1.5 * car.lengthMm; frontMm += 0.5) {
    const front = line.poseAt(frontMm)
    let [far, near] = [frontMm - 1.3 * car.truckCentresMm, frontMm - 0.5 * car.truckCentresMm]
    for (let step = 0; step < 30; step++) {
      const middle = (far + near) / 2
      const { xMm, yMm } = line.poseAt(middle)
      if (Math.hypot(front.xMm - xMm, front.yMm - yMm) > car.truckCentresMm) far = middle
      else near = middle
    }
    const rear = line.poseAt(near)
    const along = Math.atan2(front.yMm - rear.yMm, front.xMm - rear.xMm)
    // Where the side of the car meets the line square to the track.
    const [mx, my] = [(front.xMm + rear.xMm) / 2 - track.xMm, (front.yMm + rear.yMm) / 2 - track.yMm]
    const w = (side * car.widthMm) / 2
    const ahead = (mx - w * Math.sin(along)) * cos + (my + w * Math.cos(along)) * sin
    const left = (my + w * Math.cos(along)) * cos - (mx - w * Math.sin(along)) * sin
    const turn = along - track.headingRad
    const to = -ahead / Math.cos(turn)
    if (Math.abs(to) <= car.lengthMm / 2) reach = Math.max(reach, side * (left + to * Math.sin(turn)))
  }
  return reach - Math.abs(offset)
}

describe('cars and what stands beside the line', () => {
  it('a wall across the line is found however thin, also square to it with its corners far away', () => {
    const random = randomFrom(37)
    for (let each = 0; each < 60; each++) {
      const line = lineOf(randomTrack(random))
      const car = randomCar(random)
      const atMm = line.lengthMm * (0.05 + 0.9 * random())
      const thickMm = 10 ** (-2 + 3 * random())
      const half = mostReachMm(line, car) + car.lengthMm * random()
      // Every other one square to the line, the others up to 30° from it.
      const { xMm, yMm, headingRad } = line.poseAt(atMm)
      const turned = headingRad + (each % 2 === 0 ? 0 : (random() - 0.5) * (Math.PI / 3))
      const [cos, sin] = [Math.cos(turned), Math.sin(turned)]
      const corner = (along: number, left: number) => ({
        xMm: xMm + along * cos - left * sin,
        yMm: yMm + along * sin + left * cos,
      })
      const corners = [corner(0, -half), corner(thickMm, -half), corner(thickMm, half), corner(0, half)]
      const found = touches(line, car, { corners })
      expect(
        found.some((one) => one.across && one.fromMm < atMm + 2 * thickMm + 1 && one.toMm > atMm - 1),
        `${each}: ${thickMm} mm thick at ${atMm}`,
      ).toBe(true)
    }
  })

  it('a 5-mm post anywhere is found, within 0.1 mm of how deep a car moved over the line reaches into it', () => {
    const random = randomFrom(31)
    let touching = 0
    for (let each = 0; each < 60; each++) {
      const line = lineOf(randomTrack(random))
      const car = randomCar(random)
      const atMm = line.lengthMm * (0.05 + 0.9 * random())
      const side = random() < 0.5 ? 1 : -1
      const { leftMm, rightMm } = sweptHalfWidths(line, car, atMm)!
      const reach = side === 1 ? leftMm : rightMm
      const offMm = reach + 2.5 - 12 + 15 * random()
      const centre = beside(line, atMm, side * offMm)
      const found = touches(line, car, { centre, radiusMm: 2.5 }).filter((one) => Math.abs(one.atMm - atMm) < 50)
      const deep = deepestOver(line, car, centre, atMm) + 2.5
      if (deep > 0.1) {
        expect(found).toHaveLength(1)
        expect(Math.abs(found[0]!.depthMm - deep)).toBeLessThan(0.1)
        expect(found[0]!.side).toBe(side)
        expect(Math.abs(found[0]!.atMm - atMm)).toBeLessThan(2.5)
        touching++
      } else if (deep < -0.1) expect(found).toEqual([])
    }
    expect(touching).toBeGreaterThan(30)
  })

  it('a polygon is met as deep as the deepest of the points along its sides, and nowhere but between the ends told', () => {
    const random = randomFrom(8)
    let touching = 0
    for (let each = 0; each < 30; each++) {
      const line = lineOf(randomTrack(random))
      const car = randomCar(random)
      const atMm = line.lengthMm * (0.2 + 0.6 * random())
      const side = random() < 0.5 ? 1 : -1
      const corners = [
        beside(line, atMm - 50 - 300 * random(), side * (50 + 60 * random())),
        beside(line, atMm + 20 * random(), side * (40 + 80 * random())),
        beside(line, atMm + 50 + 300 * random(), side * (50 + 60 * random())),
        beside(line, atMm, side * 500),
      ]
      const found = touches(line, car, { corners })
      let [deepest, fromMm, toMm] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
      for (const [n, a] of corners.entries()) {
        const b = corners[(n + 1) % 4]!
        for (let part = 0; part <= 1; part += 0.005) {
          const point = { xMm: a.xMm + part * (b.xMm - a.xMm), yMm: a.yMm + part * (b.yMm - a.yMm) }
          const there = nearest(line, point, atMm)
          if (Math.abs(there.leftMm) > 250) continue
          const swept = sweptHalfWidths(line, car, there.atMm)!
          const deep = (there.leftMm > 0 ? swept.leftMm : swept.rightMm) - Math.abs(there.leftMm)
          if (deep > deepest) deepest = deep
          if (deep <= 0) continue
          fromMm = Math.min(fromMm, there.atMm)
          toMm = Math.max(toMm, there.atMm)
        }
      }
      if (deepest < 0.05) continue
      touching++
      expect(found.length).toBeGreaterThan(0)
      expect(Math.abs(Math.max(...found.map(({ depthMm }) => depthMm)) - deepest)).toBeLessThan(0.1)
      // The points are up to 4 mm apart.
      expect(Math.abs(Math.min(...found.map((one) => one.fromMm)) - fromMm)).toBeLessThan(5)
      expect(Math.abs(Math.max(...found.map((one) => one.toMm)) - toMm)).toBeLessThan(5)
    }
    expect(touching).toBeGreaterThan(14)
  })

  it('is the same on a mirrored line, and from its other end', () => {
    for (let seed = 1; seed <= 30; seed++) {
      const random = randomFrom(seed)
      const line = lineOf(randomTrack(random))
      const car = randomCar(random)
      const atMm = line.lengthMm * (0.2 + 0.6 * random())
      const centre = beside(line, atMm, 60 * random() + 30)
      const found = touches(line, car, { centre, radiusMm: 40 })
      const mirrored = new Line(
        line.pieces.map((piece) => ({
          ...piece,
          startCurvature: -piece.startCurvature,
          endCurvature: -piece.endCurvature,
          start: { ...piece.start, yMm: -piece.start.yMm, headingRad: -piece.start.headingRad },
          end: { ...piece.end, yMm: -piece.end.yMm, headingRad: -piece.end.headingRad },
        })),
      )
      const other = touches(mirrored, car, { centre: { ...centre, yMm: -centre.yMm }, radiusMm: 40 })
      const back = touches(new Line(line.pieces.map(pieceReversed).reverse()), car, { centre, radiusMm: 40 })
      expect(other).toHaveLength(found.length)
      expect(back).toHaveLength(found.length)
      for (const [n, { depthMm, fromMm, side }] of found.entries()) {
        expect(other[n]!.depthMm).toBeCloseTo(depthMm, 3)
        expect(other[n]!.side).toBe(-side)
        const fromEnd = back[found.length - 1 - n]!
        expect(Math.abs(fromEnd.depthMm - depthMm)).toBeLessThan(0.05)
        expect(Math.abs(line.lengthMm - fromEnd.toMm - fromMm)).toBeLessThan(1)
      }
    }
  })

  it('no car reaches further than the estimate by which what is far off is left out', () => {
    const random = randomFrom(77)
    for (let each = 0; each < 200; each++) {
      const line = lineOf(randomTrack(random))
      const car = randomCar(random)
      const most = mostReachMm(line, car)
      for (let n = 0; n < 5; n++) {
        const { leftMm, rightMm } = sweptHalfWidths(line, car, line.lengthMm * random())!
        expect(Math.max(leftMm, rightMm)).toBeLessThanOrEqual(most)
      }
    }
  })
})

/** The nearest place of a line, looked for in millimetres. */
function nearest(line: Line, point: Point, aboutMm: number) {
  let best = { atMm: 0, apart: Number.POSITIVE_INFINITY }
  for (let atMm = aboutMm - 600; atMm <= aboutMm + 600; atMm += 5) {
    const { xMm, yMm } = line.poseAt(atMm)
    const apart = Math.hypot(point.xMm - xMm, point.yMm - yMm)
    if (apart < best.apart) best = { atMm, apart }
  }
  let { atMm } = best
  for (let step = 0; step < 8; step++) {
    const { xMm, yMm, headingRad } = line.poseAt(atMm)
    atMm += (point.xMm - xMm) * Math.cos(headingRad) + (point.yMm - yMm) * Math.sin(headingRad)
  }
  const { xMm, yMm, headingRad } = line.poseAt(atMm)
  const leftMm = (point.yMm - yMm) * Math.cos(headingRad) - (point.xMm - xMm) * Math.sin(headingRad)
  return { atMm, leftMm }
}
