import { describe, expect, test } from 'vitest'
import {
  balancingShiftMm,
  type DepthPiece,
  depthAt,
  depthPieces,
  type GroundStation,
  partsOf,
  surplusMm3,
  volumeMm3,
} from '../../../src/estimate/earthworks/cut-and-fill.ts'
import { elevationOn, profileOf } from '../../../src/track/grade.ts'
import { cases } from '../../cases.ts'
import { randomFrom } from '../../random.ts'

const FORMATION = { widthMm: 240, cutSlope: 1, fillSlope: 1.5 }

/** An invented hillside: grades with vertical curves, and ground that crosses them. */
function hillside(chance: () => number) {
  const count = 2 + Math.floor(5 * chance())
  const points = Array.from({ length: count }, (_, index) => ({
    at: 4000 * index + 500 * chance(),
    elevation: 150 * chance(),
    ...(index > 0 && index < count - 1 && chance() < 0.7 ? { verticalCurve: 400 + 1000 * chance() } : {}),
  }))
  const lengthMm = 4000 * (count - 1) + 1000
  const ground: GroundStation[] = []
  for (let atMm = 300 * chance(); atMm < lengthMm + 500; atMm += 200 + 1800 * chance()) {
    ground.push({ atMm, elevationMm: 300 * chance() - 75 })
    // A step now and then.
    if (chance() < 0.15) ground.push({ atMm, elevationMm: 300 * chance() - 75 })
  }
  return { profile: profileOf(points), ground, lengthMm }
}

/** Ground by its points, in other words than those of the program. */
function groundAt(ground: readonly GroundStation[], atMm: number): number {
  const next = ground.findIndex((each) => each.atMm > atMm)
  const [a, b] = [ground[next - 1]!, ground[next]!]
  return (a.elevationMm * (b.atMm - atMm) + b.elevationMm * (atMm - a.atMm)) / (b.atMm - a.atMm)
}

function volumes(pieces: readonly DepthPiece[], shiftMm = 0): { cut: number; fill: number } {
  const sum = { cut: 0, fill: 0 }
  for (const piece of pieces)
    for (const part of partsOf(piece, shiftMm)) sum[part.kind] += volumeMm3(part, FORMATION, shiftMm)
  return sum
}

describe('random hillsides', () => {
  const chance = randomFrom(20_260)
  const hills = Array.from({ length: cases(60) }, () => hillside(chance))

  test('against dense sums between the profile and the ground', () => {
    for (const { profile, ground, lengthMm } of hills) {
      const depthMm = 60
      const pieces = depthPieces(profile, ground, depthMm, lengthMm)
      const { cut, fill } = volumes(pieces)
      const [fromMm, toMm] = [ground[0]!.atMm, Math.min(lengthMm, ground.at(-1)!.atMm)]
      const steps = 200_000
      const stepMm = (toMm - fromMm) / steps
      const dense = { cut: 0, fill: 0 }
      for (let step = 0; step < steps; step++) {
        const atMm = fromMm + (step + 0.5) * stepMm
        const h = groundAt(ground, atMm) - (elevationOn(profile, atMm) - depthMm)
        if (h > 0) dense.cut += (FORMATION.widthMm + FORMATION.cutSlope * h) * h * stepMm
        else dense.fill += (FORMATION.widthMm - FORMATION.fillSlope * h) * -h * stepMm
      }
      // Steps in the ground fall within one of the 200,000.
      const whole = cut + fill
      expect(Math.abs(cut - dense.cut) / whole).toBeLessThan(2e-5)
      expect(Math.abs(fill - dense.fill) / whole).toBeLessThan(2e-5)
    }
  })

  test('the formation meets the ground where one kind ends and the other begins', () => {
    for (const { profile, ground, lengthMm } of hills)
      for (const piece of depthPieces(profile, ground, 60, lengthMm)) {
        const parts = partsOf(piece)
        for (const { toMm } of parts.slice(0, -1)) expect(Math.abs(depthAt(piece, toMm))).toBeLessThan(1e-9)
        for (const { kind, fromMm, toMm } of parts)
          for (const share of [0.1, 0.5, 0.9])
            expect(Math.sign(depthAt(piece, fromMm + share * (toMm - fromMm)))).toBe(kind === 'cut' ? 1 : -1)
      }
  })

  test('with the balancing shift cut equals fill, and a little more or less tips it', () => {
    for (const { profile, ground, lengthMm } of hills) {
      const pieces = depthPieces(profile, ground, 60, lengthMm)
      const shiftMm = balancingShiftMm(pieces, FORMATION)
      const { cut, fill } = volumes(pieces, shiftMm)
      expect(Math.abs(cut - fill) / (cut + fill)).toBeLessThan(1e-10)
      expect(surplusMm3(pieces, FORMATION, shiftMm - 0.001)).toBeGreaterThan(0)
      expect(surplusMm3(pieces, FORMATION, shiftMm + 0.001)).toBeLessThan(0)
    }
  })

  test('upside down, with the slopes exchanged, cut is fill', () => {
    for (const { profile, ground, lengthMm } of hills) {
      const pieces = depthPieces(profile, ground, 60, lengthMm)
      const turned = pieces.map(({ a, b, c, ...piece }) => ({ ...piece, a: -a, b: -b, c: -c }))
      const exchanged = { ...FORMATION, cutSlope: FORMATION.fillSlope, fillSlope: FORMATION.cutSlope }
      expect(surplusMm3(turned, exchanged)).toBeCloseTo(-surplusMm3(pieces, FORMATION), 0)
      expect(balancingShiftMm(turned, exchanged)).toBeCloseTo(-balancingShiftMm(pieces, FORMATION), 8)
    }
  })
})

test('closed form: a parabola over level ground', () => {
  // h = k·t·(L − t) from 0 to L: ∫h = k·L³/6, ∫h² = k²·L⁵/30.
  const [k, lengthMm] = [1e-5, 2000]
  const piece = { fromMm: 0, lengthMm, a: 0, b: k * lengthMm, c: -k }
  const [part, ...others] = partsOf(piece)
  expect(others).toEqual([])
  const expected = (240 * k * lengthMm ** 3) / 6 + (k * k * lengthMm ** 5) / 30
  expect(volumeMm3(part!, FORMATION) / expected).toBeCloseTo(1, 12)
})

test('prismoidal formula: L/6·(A1 + 4·Am + A2) where the depth changes evenly', () => {
  const piece = { fromMm: 0, lengthMm: 3000, a: 100, b: 0.05, c: 0 }
  const area = (h: number) => (240 + h) * h
  const expected = (3000 / 6) * (area(100) + 4 * area(175) + area(250))
  expect(volumeMm3(partsOf(piece)[0]!, FORMATION) / expected).toBeCloseTo(1, 14)
})

test('by hand: parallel to the ground the shift is the depth, and on the ground there is nothing to dig', () => {
  const profile = profileOf([{ at: 0, elevation: 100 }])
  const ground = [0, 5000].map((atMm) => ({ atMm, elevationMm: 140 }))
  expect(balancingShiftMm(depthPieces(profile, ground, 0, 5000), FORMATION)).toBe(40)
  const level = depthPieces(profile, ground, -40, 5000)
  expect(level.flatMap((piece) => partsOf(piece))).toEqual([])
  expect(balancingShiftMm(level, FORMATION)).toBe(0)
})
