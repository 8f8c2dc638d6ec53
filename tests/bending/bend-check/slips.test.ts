import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { slipsAmong } from '../../../src/bending/bend-check/slips.ts'
import { type Curve, checked, displaced, profile, sampled, unevenCurve } from './curves.ts'
import { namedIn } from './named-slips.ts'

const EVEN = [0, 4, 10, 16, 20, 20, 20, 20, 20, 20, 16, 10, 4, 0]
const LONG = sampled(
  profile([
    [2, 0],
    [8, 18],
    [24, 18],
    [31, 0],
  ]),
  34,
)
const beyond = { straightBefore: true, straightAfter: true }
const named = (readings: readonly (number | null)[]) => slipsAmong(readings, beyond, 0.5).map(({ station }) => station)

describe('a slip', () => {
  it.each([3, 5, 6, 7, 8, 10])('of 10 mm at station %d of an even curve is named, with what was expected', (n) => {
    for (const by of [10, -10]) {
      const slips = slipsAmong(EVEN.with(n, EVEN[n]! + by), beyond, 0.5)
      expect(slips.map(({ station }) => station)).toEqual([n])
      expect(Math.abs(slips[0]!.expectedMm - EVEN[n]!)).toBeLessThan(2)
    }
  })

  it('is named wherever it stands in a long one, and nothing else is', () => {
    for (let n = 4; n < 30; n++) expect([n, named(LONG.with(n, LONG[n]! + 8))]).toEqual([n, [n]])
  })

  it('is named when it stands among noise well below it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 22 }),
        fc.constantFrom(8, -8, 15),
        fc.array(fc.integer({ min: -1, max: 1 }), { minLength: 34, maxLength: 34 }),
        (n, by, noise) => {
          const readings = LONG.map((v, at) => v + noise[at]! / 4 + (at === n ? by : 0))
          expect(named(readings)).toEqual([n])
        },
      ),
      { numRuns: 15, seed: 21 },
    )
  })

  it('is named beside a gap', () => {
    expect(named((LONG.with(12, 30) as (number | null)[]).with(14, null))).toEqual([12])
  })

  it('two far apart are both named', () => {
    expect(named(LONG.with(10, LONG[10]! + 9).with(20, LONG[20]! - 9))).toEqual([10, 20])
  })
})

describe('not a slip', () => {
  it.each([6, -6, 12, -12, 30])('a station really out of place by %d mm, wherever it stands', (t) => {
    for (const curve of [EVEN, LONG])
      for (let n = 2; n < curve.length - 2; n++)
        expect([
          n,
          named(
            displaced(
              curve,
              curve.map((_, at) => (at === n ? t : 0)),
            ),
          ),
        ]).toEqual([n, []])
  })

  it.each([
    [2, 27, -6],
    [2, 28, 6],
    [5, 10, -17],
    [5, 22, -18],
  ])('a station out of place that a rule of %d mm reads coarsely, station %d by %d mm', (stepMm, n, outMm) => {
    const readings = displaced(
      LONG,
      LONG.map((_, at) => (at === n ? outMm : 0)),
    ).map((reading) => Math.round(reading / stepMm) * stepMm)
    expect(slipsAmong(readings, beyond, stepMm)).toEqual([])
  })

  it('an even curve, whatever its corners', () => {
    fc.assert(
      fc.property(unevenCurve({ stations: [10, 40], mostOutMm: 0, stepMm: 0.5 }), ({ readingsMm }: Curve) => {
        expect(named(readingsMm)).toEqual([])
      }),
      { numRuns: 30 },
    )
  })

  it('hardly ever a curve with every station out of place', () => {
    const curves = fc.sample(unevenCurve({ stations: [12, 40], mostOutMm: 5, stepMm: 0.5 }), { numRuns: 60, seed: 23 })
    const wrong = curves.filter(({ readingsMm }) => named(readingsMm).length > 0)
    expect(wrong.length).toBeLessThan(3)
  })

  it('the uneven example', () => {
    expect(named([0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0])).toEqual([])
  })

  it('what three readings show', () => {
    expect(named([0, 30, 0])).toEqual([])
  })
})

describe('8 mm wrong among noise of 0.3 mm, anywhere in a random curve', () => {
  it('is named in 90 % of them, and a right reading in hardly any', () => {
    const { found, falsely, displacedCalled } = namedIn({ curves: 20, seed: 12, stations: [16, 36] })
    expect(found / 20).toBeGreaterThanOrEqual(0.9)
    expect(falsely).toBe(0)
    expect(displacedCalled).toBeLessThanOrEqual(1)
  }, 60_000)
})

describe('in the check', () => {
  const slipped = EVEN.with(7, 30)

  it('it is the first finding; the reading stays in the table, and the throws do without it', () => {
    const check = checked({ chordMm: 500, readingsMm: slipped })
    expect(check.findings).toMatchObject([{ rule: 'slip', severity: 'warn', stations: [7], measured: 30, unit: 'mm' }])
    expect(check.findings[0]!.limit).toBeCloseTo(20, 6)
    expect(check.stations[7]!.ordinateMm).toBe(30)
    expect(check.proposal!.bodies).toHaveLength(1)
    // Derived: with 20 in its place the curve is even.
    expect(check.largestThrowMm).toBeLessThan(1e-6)
    expect(checked({ chordMm: 500, readingsMm: [...slipped, 0, null] }).findings[0]!.rule).toBe('slip')
  })

  it('against a proposal it is looked for among the errors', () => {
    const rules = (readingsMm: number[]) =>
      checked({ chordMm: 500, readingsMm, proposedMm: EVEN }).findings.map(({ rule, stations }) => [rule, ...stations])
    expect(rules(slipped)).toContainEqual(['slip', 7])
    expect(
      rules(
        displaced(
          EVEN,
          EVEN.map((_, n) => (n === 7 ? 7 : 0)),
        ),
      ),
    ).toEqual([])
  })

  it('is not looked for when the stations do not stand half a chord apart', () => {
    const { findings } = checked({ chordMm: 500, spacingMm: 200, readingsMm: slipped })
    expect(findings.map(({ rule }) => rule)).not.toContain('slip')
  })
})
