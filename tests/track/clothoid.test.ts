import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { poseAlong, turnedAlong } from '../../src/track/clothoid.ts'
import type { Pose } from '../../src/track/types.ts'
import { apartMm, ORIGIN } from './tracks.ts'

/**
 * The same integral by another road: composite Simpson with Kahan summation, at least 2,000 steps that turn at most 1/400 rad. Its
 * own error is below 1e-13 of the length.
 */
function bySimpson(k0: number, k1: number, length: number, at: number): { xMm: number; yMm: number } {
  const rate = (k1 - k0) / length
  const phase = (u: number) => u * (k0 + (rate * u) / 2)
  const turning = Math.max(Math.abs(k0), Math.abs(k1)) * at
  const steps = 2 * Math.ceil(Math.max(turning * 200, 1000))
  const sums = [0, 0]
  const lost = [0, 0]
  const add = (axis: 0 | 1, value: number) => {
    const corrected = value - lost[axis]!
    const next = sums[axis]! + corrected
    lost[axis] = next - sums[axis]! - corrected
    sums[axis] = next
  }
  for (let step = 0; step <= steps; step++) {
    const weight = step === 0 || step === steps ? 1 : step % 2 ? 4 : 2
    const angle = phase((at * step) / steps)
    add(0, weight * Math.cos(angle))
    add(1, weight * Math.sin(angle))
  }
  const width = at / steps / 3
  return { xMm: sums[0]! * width, yMm: sums[1]! * width }
}

const missPerLength = (k0: number, k1: number, length: number, at: number) => {
  const reached = poseAlong(ORIGIN, k0, k1, length, at)
  const expected = bySimpson(k0, k1, length, at)
  return Math.hypot(reached.xMm - expected.xMm, reached.yMm - expected.yMm) / length
}

describe('a clothoid against an independent quadrature', () => {
  it.each([
    ['straight to R 1200 over 400 mm', 0, 1 / 1200, 400],
    ['R 1200 to straight, to the right', -1 / 1200, 0, 400],
    ['between two arcs of one turn', 1 / 2400, 1 / 700, 1300],
    ['reversing through zero', 1 / 900, -1 / 1500, 800],
    ['reversing, the straight not in the middle', -1 / 5000, 1 / 600, 3000],
    ['more than one turn', 0, 1 / 600, 9000],
    ['curvatures that are almost equal', 1 / 600, 1 / 600 + 1e-12, 5000],
    ['many turns from straight', 0, 0.2, 10_000],
    ['many turns on both sides of straight', -0.11, 0.07, 20_000],
    ['many turns between two close curvatures', 0.1, 0.1001, 10_000],
    ['a thousandth of a micrometre', 0, 1 / 1200, 1e-6],
    ['a thousand kilometres', 0, 1e-9, 1e9],
  ])('%s', (_name, k0, k1, length) => {
    for (const part of [0.1, 0.37, 0.5, 0.93, 1]) {
      expect(missPerLength(k0, k1, length, length * part)).toBeLessThan(1e-12)
    }
  })

  it('holds for any curvatures and scale', () => {
    const turning = fc.double({ min: -60, max: 60, noNaN: true })
    const exponent = fc.double({ min: -6, max: 9, noNaN: true })
    fc.assert(
      fc.property(turning, turning, exponent, fc.double({ min: 0, max: 1, noNaN: true }), (t0, t1, e, part) => {
        const length = 10 ** e
        expect(missPerLength(t0 / length, t1 / length, length, length * part)).toBeLessThan(1e-12)
      }),
      { numRuns: 150 },
    )
  })

  it('changes method without a jump: 32 rad by panels, beyond by the far series', () => {
    for (const turned of [31.9, 31.999999, 32.000001, 32.1, 160, 1000]) {
      expect(missPerLength(0, turned / 5000, 5000, 5000)).toBeLessThan(1e-12)
    }
  })

  it('takes hundreds of turns: a clothoid winds into its limit point', () => {
    // closed form: ∫₀^∞ exp(i·c·u²/2) du = √(π/c)/2 · (1 + i); the rest beyond L is at most 1/κ(L) long
    const length = 100_000
    const rate = 0.1 / length
    const end = poseAlong(ORIGIN, 0, 0.1, length, length)
    expect(end.headingRad / (2 * Math.PI)).toBeCloseTo(795.7747154594767, 9)
    const limit = Math.sqrt(Math.PI / rate) / 2
    expect(Math.hypot(end.xMm - limit, end.yMm - limit)).toBeLessThan(1 / 0.1 + 1e-6)
    expect(Math.hypot(end.xMm - limit, end.yMm - limit)).toBeGreaterThan(9.99)
  })
})

describe('derived figures of an easement R 1200, L 400 mm (derived by series, no publication)', () => {
  const end = poseAlong(ORIGIN, 0, 1 / 1200, 400, 400)

  it('end point, shift and its station', () => {
    expect(end.xMm).toBeCloseTo(398.8903, 4)
    expect(end.yMm).toBeCloseTo(22.1782, 4)
    expect(end.yMm - 1200 * (1 - Math.cos(end.headingRad))).toBeCloseTo(5.55005, 5)
    expect(end.xMm - 1200 * Math.sin(end.headingRad)).toBeCloseTo(199.815, 4)
  })

  it('turns through L/2R (closed form)', () => {
    expect(end.headingRad).toBeCloseTo(400 / 2400, 15)
  })
})

describe('arcs and tangents', () => {
  it('a quarter of R 1200 to the left and to the right (by hand)', () => {
    const length = 600 * Math.PI
    const left = poseAlong(ORIGIN, 1 / 1200, 1 / 1200, length, length)
    expect(left.xMm).toBeCloseTo(1200, 9)
    expect(left.yMm).toBeCloseTo(1200, 9)
    const right = poseAlong(ORIGIN, -1 / 1200, -1 / 1200, length, length)
    expect(right.xMm).toBeCloseTo(1200, 9)
    expect(right.yMm).toBeCloseTo(-1200, 9)
  })

  it('loses no digit on a nearly straight arc: versine L²/2R (closed form)', () => {
    for (const radius of [1e6, 1e9, 1e12]) {
      const end = poseAlong(ORIGIN, 1 / radius, 1 / radius, 1000, 1000)
      expect(end.yMm / (1000 ** 2 / (2 * radius))).toBeCloseTo(1, 6)
      expect(end.xMm).toBeCloseTo(1000, 3)
    }
    const tiny = poseAlong(ORIGIN, 1 / 1200, 1 / 1200, 1e-6, 1e-6)
    expect(tiny.yMm / (1e-12 / 2400)).toBeCloseTo(1, 12)
    expect(tiny.xMm).toBe(1e-6)
  })

  it('an arc and 405°: a full turn more ends at the same place', () => {
    const k = 1 / 700
    const short = poseAlong(ORIGIN, k, k, 5000, (700 * Math.PI) / 4)
    const long = poseAlong(ORIGIN, k, k, 5000, (700 * Math.PI * 9) / 4)
    expect(apartMm(short, long)).toBeLessThan(1e-9)
    expect(long.headingRad - short.headingRad).toBeCloseTo(2 * Math.PI, 12)
  })

  it('a tangent goes straight on in the start heading', () => {
    const start: Pose = { xMm: 5, yMm: -7, headingRad: Math.PI / 6 }
    const end = poseAlong(start, 0, 0, 2000, 1000)
    expect(end.xMm).toBeCloseTo(5 + 866.0254037844386, 9)
    expect(end.yMm).toBeCloseTo(-7 + 500, 9)
    expect(end.headingRad).toBe(start.headingRad)
  })

  it('nothing at all stays where it is', () => {
    const start: Pose = { xMm: 5, yMm: -7, headingRad: 1 }
    expect(poseAlong(start, 0, 0, 0, 0)).toEqual(start)
    expect(poseAlong(start, 0, 1 / 1200, 0, 0)).toEqual(start)
    expect(poseAlong(start, 0, 1 / 1200, 400, 0)).toEqual(start)
    expect(turnedAlong(0, 1 / 1200, 0, 0)).toBe(0)
  })
})

describe('turnedAlong (closed form)', () => {
  it('is the area under the curvature', () => {
    expect(turnedAlong(0, 1 / 1200, 400, 400)).toBeCloseTo(1 / 6, 15)
    expect(turnedAlong(0, 1 / 1200, 400, 200)).toBeCloseTo(1 / 24, 15)
    expect(turnedAlong(1 / 1200, -1 / 1200, 400, 400)).toBe(0)
    expect(turnedAlong(1 / 1200, -1 / 1200, 400, 200)).toBeCloseTo(1 / 12, 15)
    expect(turnedAlong(-1 / 600, -1 / 600, 400, 300)).toBeCloseTo(-0.5, 15)
  })
})

describe('a clothoid cut in two', () => {
  it('ends where the whole one does', () => {
    const curvature = fc.double({ min: -1 / 300, max: 1 / 300, noNaN: true })
    const part = fc.double({ min: 0.001, max: 0.999, noNaN: true })
    fc.assert(
      fc.property(curvature, curvature, fc.double({ min: 1, max: 1e5, noNaN: true }), part, (k0, k1, length, cut) => {
        const at = cut * length
        const between = k0 + (k1 - k0) * cut
        const whole = poseAlong(ORIGIN, k0, k1, length, length)
        const first = poseAlong(ORIGIN, k0, between, at, at)
        const second = poseAlong(first, between, k1, length - at, length - at)
        expect(apartMm(second, whole)).toBeLessThan(1e-11 * length)
        expect(apartMm(first, poseAlong(ORIGIN, k0, k1, length, at))).toBeLessThan(1e-11 * length)
        expect(Math.abs(second.headingRad - whole.headingRad)).toBeLessThan(1e-11)
      }),
    )
  })

  it('turns about its start: the start heading only rotates the figure', () => {
    const start: Pose = { xMm: 100, yMm: 200, headingRad: 2 }
    const plain = poseAlong(ORIGIN, 1 / 900, -1 / 700, 1000, 777)
    const turned = poseAlong(start, 1 / 900, -1 / 700, 1000, 777)
    expect(turned.xMm).toBeCloseTo(100 + plain.xMm * Math.cos(2) - plain.yMm * Math.sin(2), 9)
    expect(turned.yMm).toBeCloseTo(200 + plain.xMm * Math.sin(2) + plain.yMm * Math.cos(2), 9)
    expect(turned.headingRad).toBeCloseTo(2 + plain.headingRad, 12)
  })
})
