import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { firstGuesses, type Layout } from '../../../src/bending/bend-check/layout.ts'
import { bestLayout } from '../../../src/bending/bend-check/search.ts'
import { type Lined, type Survey, settled, smallestThrow } from '../../../src/bending/bend-check/smallest-throw.ts'
import { liningTable } from '../../../src/bending/bend-check/string-lining.ts'
import { type Curve, largest, unevenCurve } from './curves.ts'

const surveyOf = (measured: readonly number[]): Survey => ({ measured, limits: measured.map(() => null), doubted: [] })
const searched = (measured: readonly number[]): Lined => {
  const reach = { from: 1, to: measured.length - 1 }
  const guesses = firstGuesses(measured, 1, reach).map(({ cuts }) => ({ cuts, signs: [1, -1] }))
  return bestLayout(surveyOf(measured), guesses, reach, 80)!
}

/** The smallest largest half throw over every layout of one body there is. */
function overAllLayouts(measured: readonly number[]): number {
  const end = measured.length
  let best = Number.POSITIVE_INFINITY
  for (let a = 1; a < end; a++)
    for (let b = a; b < end; b++)
      for (let c = b + 1; c < end; c++)
        for (let d = c; d < end; d++) {
          const lined = smallestThrow(surveyOf(measured), { cuts: [a, b, c, d], signs: [1, -1] })
          if (lined && lined.missed < 1e-6) best = Math.min(best, lined.largestHalfThrow)
        }
  return best
}

/**
 * The same by brute force, knowing nothing of layouts or linear programmes: over a grid of where the run-up begins and
 * ends and the body ends, the run-off's end by bisection so that the first moment of the ordinates is kept, the level so
 * that their sum is. In whole and fractional stations.
 */
function overGrid(measured: readonly number[], step: number): number {
  const stations = measured.length
  const sum = measured.reduce((total, v) => total + v, 0)
  const centroid = measured.reduce((total, v, n) => total + n * v, 0) / sum
  const shape = (a: number, b: number, c: number, d: number) =>
    measured.map((_, n) => Math.max(0, Math.min(1, (n - a) / (b - a), (d - n) / (d - c))))
  const momentOff = (ordinates: readonly number[]) => ordinates.reduce((total, v, n) => total + (n - centroid) * v, 0)
  let best = Number.POSITIVE_INFINITY
  for (let a = 0; a < stations - 3; a += step)
    for (let b = a + step; b < stations - 2; b += step)
      for (let c = Math.ceil(b); c < stations - 1; c += step) {
        let [low, high] = [c + 1e-9, stations - 1]
        if (momentOff(shape(a, b, c, low)) > 0 || momentOff(shape(a, b, c, high)) < 0) continue
        for (let n = 0; n < 50; n++) {
          const middle = (low + high) / 2
          if (momentOff(shape(a, b, c, middle)) > 0) high = middle
          else low = middle
        }
        const ordinates = shape(a, b, c, (low + high) / 2)
        const level = sum / ordinates.reduce((total, v) => total + v, 0)
        const { halfThrows } = liningTable(
          measured,
          ordinates.map((v) => level * v),
        )
        best = Math.min(best, largest(halfThrows))
      }
  return best
}

const small = unevenCurve({ stations: [7, 12], mostOutMm: 5, stepMm: 0.5 })
const middling = unevenCurve({ stations: [20, 40], mostOutMm: 5, stepMm: 0.5 })

describe('the search over layouts', () => {
  it('finds what all layouts together have to offer', () => {
    let compared = 0
    fc.assert(
      fc.property(small, ({ readingsMm }: Curve) => {
        fc.pre(readingsMm[0] === 0 && readingsMm.at(-1) === 0)
        const best = overAllLayouts(readingsMm)
        fc.pre(Number.isFinite(best))
        expect(searched(readingsMm).largestHalfThrow).toBeCloseTo(best, 6)
        compared++
      }),
      { numRuns: 60, seed: 7 },
    )
    expect(compared).toBe(60)
  })

  it('is never undercut by brute force on a grid, and comes near what the grid finds', () => {
    fc.assert(
      fc.property(unevenCurve({ stations: [9, 12], mostOutMm: 3, stepMm: 0.5 }), ({ readingsMm }: Curve) => {
        const engine = searched(readingsMm)
        const grid = overGrid(readingsMm, 0.25)
        expect(engine.largestHalfThrow).toBeLessThanOrEqual(grid + 1e-6)
        expect(engine.largestHalfThrow).toBeGreaterThan(0.5 * grid - 0.25)
      }),
      { numRuns: 15, seed: 11 },
    )
  })

  it('finds nothing to move in an even curve, and no more than the stations are out in an uneven one', () => {
    fc.assert(
      fc.property(middling, ({ evenMm, outMm }: Curve) => {
        expect(searched(evenMm).largestHalfThrow).toBeLessThan(1e-7)
        const readings = evenMm.map((v, n) => v + outMm[n]! - ((outMm[n - 1] ?? 0) + (outMm[n + 1] ?? 0)) / 2)
        expect(2 * searched(readings).largestHalfThrow).toBeLessThanOrEqual(largest(outMm) + 1e-6)
      }),
      { numRuns: 40 },
    )
  })
})

describe('one layout', () => {
  const measured = [0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0]
  const layout: Layout = { cuts: [1, 4, 10, 13], signs: [1, -1] }

  it('keeps the end’s direction and place, and a fixed station, to the last digits once settled', () => {
    const survey = { ...surveyOf(measured), limits: measured.map((_, n) => (n === 6 || n === 9 ? 0 : null)) }
    const lined = settled(survey, smallestThrow(survey, layout)!)
    const table = liningTable(measured, lined.ordinates)
    expect(Math.abs(table.lastSum)).toBeLessThan(1e-11)
    expect(Math.abs(table.lastHalfThrow)).toBeLessThan(1e-11)
    expect(Math.abs(table.halfThrows[6]!)).toBeLessThan(1e-11)
    expect(Math.abs(table.halfThrows[9]!)).toBeLessThan(1e-11)
  })

  it('runs evenly up, holds its level, and runs evenly off', () => {
    const { ordinates } = smallestThrow(surveyOf(measured), layout)!
    const steps = ordinates.slice(1).map((v, n) => v - ordinates[n]!)
    expect(steps[2]).toBeCloseTo(steps[1]!, 9)
    expect(ordinates.slice(4, 10).every((v) => Math.abs(v - ordinates[4]!) < 1e-9)).toBe(true)
    expect(steps[11]).toBeCloseTo(steps[10]!, 9)
    expect(ordinates[0]).toBe(0)
    expect(ordinates[13]).toBe(0)
  })

  it('leaves a doubted reading out of account', () => {
    const even = [0, 4, 10, 16, 20, 20, 20, 20, 20, 20, 16, 10, 4, 0]
    const slipped = even.with(6, 29)
    const trusting = smallestThrow(surveyOf(slipped), layout)!
    const doubting = smallestThrow({ ...surveyOf(slipped), doubted: [6] }, layout)!
    expect(trusting.largestHalfThrow).toBeGreaterThan(1)
    expect(doubting.largestHalfThrow).toBeLessThan(1e-8)
    expect(doubting.ordinates[6]).toBeCloseTo(20, 6)
  })

  it('says how far a hopeless layout misses', () => {
    expect(smallestThrow(surveyOf(measured), { cuts: [1, 1, 2, 2], signs: [1, -1] })!.missed).toBeGreaterThan(10)
  })
})
