import { expect, test } from 'vitest'
import { Line } from '../../src/room/line.ts'
import { crowdedLine } from './crowded-line.ts'
import { roomOfLine } from './room-of-line.ts'

test('5,000 elements with 200 obstacles and three kinds of car take a bounded number of places on lines', () => {
  const work = roomOfLine(crowdedLine())
  const { poseAt } = Line.prototype
  let poses = 0
  Line.prototype.poseAt = function counted(atMm) {
    poses++
    return poseAt.call(this, atMm)
  }
  try {
    const { touched, close } = work()
    expect(touched.complete && close.complete).toBe(true)
    expect(touched.touched.length).toBeGreaterThan(20)
    // 0.3 µs each: 500,000 are 150 ms.
    expect(poses).toBeLessThan(500_000)
  } finally {
    Line.prototype.poseAt = poseAt
  }
})
