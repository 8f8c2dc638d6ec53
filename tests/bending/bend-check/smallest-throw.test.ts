import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { firstGuesses, type Layout, neighboursOf } from '../../../src/bending/bend-check/layout.ts'
import type { Effort } from '../../../src/bending/bend-check/linear-program.ts'
import { ordinatesAt } from '../../../src/bending/bend-check/profile.ts'
import { bestLayout } from '../../../src/bending/bend-check/search.ts'
import { type Lined, type Survey, settled, smallestThrow } from '../../../src/bending/bend-check/smallest-throw.ts'
import { liningTable } from '../../../src/bending/bend-check/string-lining.ts'
import { UNHURRIED } from '../../cases.ts'
import { type Curve, largest, unevenCurve } from './curves.ts'

const surveyOf = (measured: readonly number[]): Survey => ({ measured, limits: measured.map(() => null), doubted: [] })
const unbounded = () => ({ left: Number.POSITIVE_INFINITY })
const lineTo = (survey: Survey, layout: Layout) => smallestThrow(survey, layout, unbounded())
const searchOf = (measured: readonly number[], bodies: number, effort: Effort) => {
  const reach = { from: 1, to: measured.length - 1 }
  return bestLayout(surveyOf(measured), firstGuesses(measured, bodies, reach), {
    reach,
    patience: 80,
    effort,
    reserve: 0,
  })
}
const searched = (measured: readonly number[]): Lined => {
  const reach = { from: 1, to: measured.length - 1 }
  const guesses = firstGuesses(measured, 1, reach).map(({ cuts }) => ({ cuts, signs: [1, -1] }))
  return bestLayout(surveyOf(measured), guesses, { reach, patience: 80, effort: unbounded(), reserve: 0 })!.lined
}

/** The smallest largest half throw over every layout of one body there is. */
function overAllLayouts(measured: readonly number[]): number {
  const end = measured.length
  let best = Number.POSITIVE_INFINITY
  for (let a = 1; a < end; a++)
    for (let b = a; b < end; b++)
      for (let c = b + 1; c < end; c++)
        for (let d = c; d < end; d++) {
          const lined = lineTo(surveyOf(measured), { cuts: [a, b, c, d], signs: [1, -1] })
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
      { numRuns: 60, seed: 7, ...UNHURRIED },
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

describe('with several bodies', () => {
  it('no layout a step away has a smaller largest throw', () => {
    let compared = 0
    fc.assert(
      fc.property(middling, fc.constantFrom(2, 3), ({ readingsMm }: Curve, bodies) => {
        const reach = { from: 1, to: readingsMm.length - 1 }
        const found = searchOf(readingsMm, bodies, unbounded())
        fc.pre(found !== null)
        expect(found!.isLocallyLeast).toBe(true)
        // What rounding misses weighs a thousandfold.
        const merit = ({ largestHalfThrow, missed }: Lined) => largestHalfThrow + 1000 * missed
        for (const next of neighboursOf(found!.lined.layout, reach)) {
          const lined = lineTo(surveyOf(readingsMm), next)
          if (!lined) continue
          expect(merit(lined)).toBeGreaterThan(merit(found!.lined) - 1e-5)
          compared++
        }
      }),
      { numRuns: 25, ...UNHURRIED },
    )
    expect(compared).toBeGreaterThan(100)
  })

  it('a layout much like it changes nothing but the work', () => {
    fc.assert(
      fc.property(middling, ({ readingsMm }: Curve) => {
        const { lined } = searchOf(readingsMm, 2, unbounded())!
        const survey = surveyOf(readingsMm)
        const alone = lineTo(survey, lined.layout)!
        const hinted = smallestThrow(survey, lined.layout, unbounded(), lined)!
        expect(hinted.largestHalfThrow).toBeCloseTo(alone.largestHalfThrow, 7)
        expect(hinted.missed).toBeLessThan(1e-6 + alone.missed * 1.001)
      }),
      { numRuns: 25 },
    )
  })

  it('stops where its effort is spent, says so, and has something to show', () => {
    const measured = Array.from({ length: 60 }, (_, n) => (n === 0 || n === 59 ? 0 : 20 * Math.sin(n * n)))
    const effort = { left: 300_000 }
    const found = searchOf(measured, 4, effort)
    expect(found?.isLocallyLeast).toBe(false)
    expect(effort.left).toBeLessThanOrEqual(0)
    expect(searchOf(measured, 4, { left: 0 })).toBeNull()
  })
})

describe('one layout', () => {
  const ordinatesIn = ({ layout, unknowns }: Lined) => ordinatesAt(layout, unknowns, measured.length)
  const measured = [0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0]
  const layout: Layout = { cuts: [1, 4, 10, 13], signs: [1, -1] }

  it('keeps the end’s direction and place, and a fixed station, to the last digits once settled', () => {
    const survey = { ...surveyOf(measured), limits: measured.map((_, n) => (n === 6 || n === 9 ? 0 : null)) }
    const lined = settled(survey, lineTo(survey, layout)!)
    const table = liningTable(measured, ordinatesIn(lined))
    expect(Math.abs(table.lastSum)).toBeLessThan(1e-11)
    expect(Math.abs(table.lastHalfThrow)).toBeLessThan(1e-11)
    expect(Math.abs(table.halfThrows[6]!)).toBeLessThan(1e-11)
    expect(Math.abs(table.halfThrows[9]!)).toBeLessThan(1e-11)
  })

  it('runs evenly up, holds its level, and runs evenly off', () => {
    const ordinates = ordinatesIn(lineTo(surveyOf(measured), layout)!)
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
    const trusting = lineTo(surveyOf(slipped), layout)!
    const doubting = lineTo({ ...surveyOf(slipped), doubted: [6] }, layout)!
    expect(trusting.largestHalfThrow).toBeGreaterThan(1)
    expect(doubting.largestHalfThrow).toBeLessThan(1e-8)
    expect(ordinatesIn(doubting)[6]).toBeCloseTo(20, 6)
  })

  it('says how far a hopeless layout misses', () => {
    expect(lineTo(surveyOf(measured), { cuts: [1, 1, 2, 2], signs: [1, -1] })!.missed).toBeGreaterThan(10)
  })
})
