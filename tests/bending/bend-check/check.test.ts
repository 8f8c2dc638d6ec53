import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkBend } from '../../../src/bending/bend-check/check.ts'
import type { BendCheck, BendCheckInput } from '../../../src/bending/bend-check/types.ts'
import { readingsOf, thrown, trackFromReadings } from './simulated-track.ts'

function check(input: BendCheckInput): BendCheck {
  const result = checkBend(input)
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.check
}

const SPACING = 250
const CHORD = 500

/** A curve as one would lay it: straight, run-up, body, run-off, straight. */
function designed(body: number, long: number, run: number): number[] {
  const up = Array.from({ length: run }, (_, n) => (body * (n + 1)) / (run + 1))
  return [0, 0, ...up, ...Array.from({ length: long }, () => body), ...up.toReversed(), 0, 0]
}

describe('a laid curve, lined by the program’s own proposal', () => {
  const curves = fc.record({
    body: fc.double({ min: 6, max: 25, noNaN: true }),
    long: fc.integer({ min: 6, max: 20 }),
    run: fc.integer({ min: 2, max: 5 }),
    seed: fc.array(fc.double({ min: -1.5, max: 1.5, noNaN: true }), { minLength: 40, maxLength: 40 }),
  })

  it('thrown as told and read again it comes out as proposed, within half a millimetre', () => {
    fc.assert(
      fc.property(curves, ({ body, long, run, seed }) => {
        const design = designed(body, long, run)
        const good = trackFromReadings(design, SPACING)
        // Somebody kicked the inner stations about; the two at either end stand.
        const kicked = thrown(
          good,
          design.map((_, n) => (n < 2 || n > design.length - 3 ? 0 : seed[n % seed.length]!)),
        )
        const readings = readingsOf(kicked)
        const { stations, findings } = check({ chordMm: CHORD, readingsMm: readings })
        // A slip is lined as the reading it should have been.
        fc.pre(!findings.some(({ rule }) => rule === 'slip'))
        const again = readingsOf(
          thrown(
            kicked,
            stations.map(({ throwMm }) => throwMm!),
          ),
        )
        stations.forEach(({ targetOrdinateMm }, n) => {
          expect(Math.abs(again[n]! - targetOrdinateMm!)).toBeLessThan(0.5)
        })
      }),
      { numRuns: 40 },
    )
  })

  it('keeps both closures: the errors and their running sum end at nothing', () => {
    fc.assert(
      fc.property(curves, ({ body, long, run, seed }) => {
        const design = designed(body, long, run)
        const readings = design.map((v, n) => v + (n < 2 || n > design.length - 3 ? 0 : seed[n % seed.length]! / 3))
        const { stations, findings } = check({ chordMm: CHORD, readingsMm: readings })
        // A slip is lined as the reading it should have been.
        fc.pre(!findings.some(({ rule }) => rule === 'slip'))
        const errors = stations.map(({ deviationMm }) => deviationMm!)
        let sum = 0
        let half = 0
        for (const error of errors) {
          half += sum
          sum += error
        }
        expect(Math.abs(sum)).toBeLessThan(1e-6)
        expect(Math.abs(half)).toBeLessThan(1e-4)
        expect(Math.abs(stations.at(-1)!.throwMm!)).toBeLessThan(1e-3)
      }),
      { numRuns: 40 },
    )
  })

  it('fixed stations do not move', () => {
    const readingsMm = [0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0]
    const free = check({ chordMm: CHORD, readingsMm })
    const { stations, largestThrowMm } = check({ chordMm: CHORD, readingsMm, fixed: [4, 9] })
    expect(Math.abs(stations[4]!.throwMm!)).toBeLessThan(1e-6)
    expect(Math.abs(stations[9]!.throwMm!)).toBeLessThan(1e-6)
    expect(largestThrowMm!).toBeGreaterThanOrEqual(free.largestThrowMm! - 1e-6)
  })

  it('no throw is larger than in the classical example’s hand-made proposal', () => {
    const readingsMm = [0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0]
    expect(check({ chordMm: CHORD, readingsMm }).largestThrowMm!).toBeLessThan(14)
  })

  it('mirrored readings give the mirrored proposal', () => {
    const readingsMm = [0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0]
    const left = check({ chordMm: CHORD, readingsMm })
    const right = check({ chordMm: CHORD, readingsMm: readingsMm.map((v) => -v) })
    right.stations.forEach(({ targetOrdinateMm }, n) => {
      expect(targetOrdinateMm! + 0).toBeCloseTo(-left.stations[n]!.targetOrdinateMm!, 6)
    })
    expect(right.largestThrowMm).toBeCloseTo(left.largestThrowMm!, 6)
  })
})

describe('what cannot be lined is said', () => {
  it('a missing reading', () => {
    const { stations, findings } = check({ chordMm: CHORD, readingsMm: [0, 4, null, 16, 20, 16, 10, 4, 0] })
    expect(stations.every(({ throwMm }) => throwMm === null)).toBe(true)
    expect(findings.flatMap(({ stations: at }) => at)).toContain(2)
  })

  it('another spacing than half the chord', () => {
    const { stations, findings } = check({ chordMm: CHORD, spacingMm: 200, readingsMm: [0, 4, 10, 16, 10, 4, 0] })
    expect(stations.every(({ throwMm }) => throwMm === null)).toBe(true)
    expect(findings.length).toBeGreaterThan(0)
  })

  it('a proposal that does not close', () => {
    const { findings } = check({ chordMm: CHORD, readingsMm: [0, 10, 20, 10, 0], proposedMm: [0, 12, 20, 12, 0] })
    expect(findings.map(({ severity }) => severity)).not.toEqual([])
  })
})

describe('at the bench', () => {
  it('a slip is named and not smoothed over', () => {
    const good = Array.from({ length: 11 }, () => 13)
    const slipped = good.map((v, n) => (n === 5 ? 23 : v))
    const { findings, stations } = check({ chordMm: CHORD, radiusMm: 2400, readingsMm: slipped })
    expect(findings.some(({ stations: at }) => at.length === 1 && at[0] === 5)).toBe(true)
    expect(stations[5]!.ordinateMm).toBe(23)
    expect(check({ chordMm: CHORD, radiusMm: 2400, readingsMm: good }).findings).toEqual([])
  })

  it('a straight reading has no radius, one that bends the other way a negative one', () => {
    const { stations } = check({ chordMm: CHORD, radiusMm: 2400, readingsMm: [0, -13] })
    expect(stations.map(({ radiusMm }) => radiusMm)).toEqual([null, expect.closeTo(-(CHORD ** 2 / 104 + 6.5), 9)])
    expect(stations.map(({ verdict }) => verdict)).toEqual(['bend-more', 'bend-more'])
  })

  it('verdicts turn at the tolerance, the greater of resolution and percentage', () => {
    const target = 2400 - Math.sqrt(2400 ** 2 - 250 ** 2)
    const verdict = (reading: number, more: Partial<BendCheckInput> = {}) =>
      check({ chordMm: CHORD, radiusMm: 2400, readingsMm: [reading], ...more }).stations[0]!.verdict
    // by hand: 5 % of 13.06 is 0.653, more than 0.5
    expect([target + 0.65, target + 0.66, target - 0.65, target - 0.66].map((r) => verdict(r))).toEqual([
      'good',
      'ease',
      'good',
      'bend-more',
    ])
    expect(verdict(target + 0.9, { resolutionMm: 1 })).toBe('good')
    expect(verdict(target + 0.6, { tolerancePct: 1 })).toBe('ease')
  })
})

it('every fault of the input comes at once', () => {
  const result = checkBend({ chordMm: 500, radiusMm: 200, readingsMm: [1, 2], proposedMm: [1], fixed: [5] })
  if (result.ok) throw new Error('it was accepted')
  expect(result.faults.map(({ path }) => path[0])).toEqual(expect.arrayContaining(['radius', 'proposed', 'fixed']))
})
