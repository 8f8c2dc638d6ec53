import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { liningTable } from '../../../src/bending/bend-check/string-lining.ts'
import type { BendCheck, Body, Run } from '../../../src/bending/bend-check/types.ts'
import { type Curve, checked, displaced, largest, profile, sampled, unevenCurve } from './curves.ts'
import { readingsOf, thrown, trackOfCurvature } from './simulated-track.ts'

const CHORD = 500
const SPACING = 250
const uneven = unevenCurve({ stations: [14, 40], mostOutMm: 4, stepMm: 0.5 })
const lined = (readingsMm: readonly number[], more = {}) => checked({ chordMm: CHORD, readingsMm, ...more })
/** The same for readings that are lined as they are: a slip is lined as the reading it should have been. */
const linedAsRead = (readingsMm: readonly number[], more = {}) => {
  const check = lined(readingsMm, more)
  fc.pre(!check.findings.some(({ rule }) => rule === 'slip'))
  return check
}
const targets = ({ stations }: BendCheck) => stations.map(({ targetOrdinateMm }) => targetOrdinateMm!)
const throws = ({ stations }: BendCheck) => stations.map(({ throwMm }) => throwMm!)

/** The ordinate at a place along the curve from the stretches alone, as the answer tells them. */
function ordinateFrom(runs: readonly Run[], bodies: readonly Body[], atMm: number): number {
  const run = runs.find(({ fromMm, toMm }) => (fromMm ?? -1e9) <= atMm && atMm <= (toMm ?? 1e9))
  if (run) {
    const part = run.toMm === run.fromMm ? 1 : (atMm - run.fromMm!) / (run.toMm! - run.fromMm!)
    return run.fromOrdinateMm + part * (run.toOrdinateMm - run.fromOrdinateMm)
  }
  return bodies.find(({ fromMm, toMm }) => (fromMm ?? -1e9) <= atMm && atMm <= (toMm ?? 1e9))?.ordinateMm ?? 0
}

describe('the proposal for a curve out of place', () => {
  it('is a run-up, bodies and a run-off, as its stretches tell', () => {
    fc.assert(
      fc.property(uneven, ({ readingsMm }: Curve) => {
        const check = lined(readingsMm)
        const { runs, bodies } = check.proposal!
        expect(runs).toHaveLength(bodies.length + 1)
        targets(check).forEach((target, n) => {
          expect(target).toBeCloseTo(ordinateFrom(runs, bodies, n * SPACING), 6)
        })
      }),
      { numRuns: 60 },
    )
  })

  it('leaves both ends in place and direction to 1e-9, and its throws are those of the table', () => {
    fc.assert(
      fc.property(uneven, ({ readingsMm }: Curve) => {
        const check = linedAsRead(readingsMm)
        const table = liningTable(readingsMm, targets(check))
        expect(Math.abs(table.lastSum)).toBeLessThan(1e-9)
        expect(Math.abs(table.lastHalfThrow)).toBeLessThan(1e-9)
        throws(check).forEach((throwMm, n) => {
          expect(throwMm).toBeCloseTo(2 * table.halfThrows[n]!, 8)
        })
        expect(check.largestThrowMm).toBe(largest(throws(check)))
        expect([throws(check)[0], throws(check).at(-1)]).toEqual([0, 0])
      }),
      { numRuns: 60 },
    )
  })

  it('moves nothing further than putting every station back would', () => {
    fc.assert(
      fc.property(unevenCurve({ stations: [14, 40], mostOutMm: 4, stepMm: 0 }), ({ readingsMm, outMm }: Curve) => {
        expect(lined(readingsMm).largestThrowMm).toBeLessThanOrEqual(largest(outMm) + 1e-6)
      }),
      { numRuns: 60, seed: 3 },
    )
  })

  it('does not move fixed stations, and moves the others no less for it', () => {
    const sizes = fc.record({ curve: uneven, at: fc.integer({ min: 30, max: 70 }) })
    fc.assert(
      fc.property(sizes, ({ curve: { readingsMm }, at }) => {
        const fixed = [Math.round((at / 100) * (readingsMm.length - 1))]
        const free = linedAsRead(readingsMm)
        const held = linedAsRead(readingsMm, { fixed })
        expect(throws(held)[fixed[0]!]).toBe(0)
        expect(Math.abs(liningTable(readingsMm, targets(held)).halfThrows[fixed[0]!]!)).toBeLessThan(1e-9)
        if (free.proposal!.bodies.length === held.proposal!.bodies.length)
          expect(held.largestThrowMm!).toBeGreaterThanOrEqual(free.largestThrowMm! - 1e-6)
      }),
      { numRuns: 60, seed: 5 },
    )
  })
})

describe('the same curve seen otherwise', () => {
  it('mirrored: the ordinates change sign, outward stays outward', () => {
    fc.assert(
      fc.property(uneven, ({ readingsMm }: Curve) => {
        const check = lined(readingsMm)
        const mirror = lined(readingsMm.map((v) => -v))
        expect(targets(mirror).map((v) => 0 - v)).toEqual(targets(check).map((v) => v + 0))
        expect(throws(mirror)).toEqual(throws(check))
        expect(mirror.stations.map(({ verdict }) => verdict)).toEqual(check.stations.map(({ verdict }) => verdict))
        expect(mirror.bestFitRadiusMm).toBe(-check.bestFitRadiusMm!)
      }),
      { numRuns: 30 },
    )
  })

  it('walked from the other end: as much to move', () => {
    fc.assert(
      fc.property(uneven, ({ readingsMm }: Curve) => {
        const back = lined(readingsMm.toReversed()).largestThrowMm!
        expect(back).toBeCloseTo(lined(readingsMm).largestThrowMm!, 6)
      }),
      { numRuns: 30, seed: 9 },
    )
  })

  it('at another scale: every length with it', () => {
    fc.assert(
      fc.property(uneven, fc.constantFrom(0.25, 4), ({ readingsMm }: Curve, k) => {
        const check = lined(readingsMm)
        const scaled = checked({ chordMm: k * CHORD, readingsMm: readingsMm.map((v) => k * v), resolutionMm: k * 0.5 })
        expect(scaled.largestThrowMm! / k).toBeCloseTo(check.largestThrowMm!, 6)
        expect(scaled.stations.map(({ verdict }) => verdict)).toEqual(check.stations.map(({ verdict }) => verdict))
      }),
      { numRuns: 30, seed: 13 },
    )
  })
})

describe('thrown as told and measured again', () => {
  /** Curvature runs up, holds and runs off between these stations; the noise stands for a track laid by eye. */
  const laid = fc.record({
    ends: fc.tuple(
      fc.integer({ min: 15, max: 25 }),
      fc.integer({ min: 45, max: 70 }),
      fc.integer({ min: 115, max: 150 }),
      fc.integer({ min: 180, max: 215 }),
    ),
    radiusMm: fc.integer({ min: 1500, max: 6000 }),
    out: fc.array(fc.integer({ min: -30, max: 30 }), { minLength: 25, maxLength: 25 }),
    turn: fc.constantFrom(1, -1),
  })

  const bendsBothWays = {
    ends: [15, 45, 115, 180] as [number, number, number, number],
    radiusMm: 1500,
    out: [...Array<number>(17).fill(0), 30, 15, 29, 0, 27, 0, 0, 0],
    turn: -1,
  }

  it.each([0, 0.5])(
    'a track of real geometry comes out as proposed within half a millimetre, read to %d mm',
    (step) => {
      fc.assert(
        fc.property(laid, ({ ends, radiusMm, out, turn }) => {
          const curvature = profile(ends.map((at, n) => [at / 10, n === 1 || n === 2 ? 1 / radiusMm : 0] as const))
          const even = trackOfCurvature((atMm) => curvature(atMm / SPACING), 25, SPACING)
          const uneven = thrown(
            even,
            out.map((by, n) => (n < 2 || n > 22 ? 0 : by / 10)),
          )
          const track = turn > 0 ? uneven : uneven.map(({ x, y }) => ({ x, y: -y }))
          const shown = readingsOf(track)
          const readings = shown.map((v) => (step === 0 ? v : Math.round(v / step) * step))
          const check = linedAsRead(readings)
          // Where the noise makes it bend both ways, throws are outward where readings are positive, as its finding says.
          const bothWays = check.findings.some(({ rule }) => rule === 'reverse-curve')
          const side = bothWays ? 1 : turn
          const again = readingsOf(
            thrown(
              track,
              throws(check).map((throwMm) => side * throwMm),
            ),
          )
          targets(check).forEach((target, n) => {
            expect(Math.abs(again[n]! - target)).toBeLessThan(0.5)
          })
        }),
        { numRuns: 40, examples: [[bendsBothWays]] },
      )
    },
  )
})

describe('how many bodies', () => {
  const noise = [0.5, -1, 1.5, -0.5, 1, -1.5, 0, 1, -0.5, -1, 0.5, 1.5, -1.5, 0.5]
  const out = (stations: number) =>
    Array.from({ length: stations }, (_, n) => (n < 2 || n > stations - 3 ? 0 : noise[(n * 5) % noise.length]!))
  const levels = (readingsMm: readonly number[], more = {}) =>
    lined(readingsMm, more).proposal!.bodies.map(({ ordinateMm }) => ordinateMm)
  const curve = (corners: [number, number][], stations: number) =>
    displaced(sampled(profile(corners), stations), out(stations))

  it('one for a curve of one radius, however it is out of place', () => {
    fc.assert(
      fc.property(unevenCurve({ stations: [20, 40], mostOutMm: 2, stepMm: 0.5 }), ({ readingsMm }: Curve) => {
        expect(levels(readingsMm)).toHaveLength(1)
      }),
      { numRuns: 40, seed: 17 },
    )
  })

  it('two for a compound curve', () => {
    const check = lined(
      curve(
        [
          [2, 0],
          [6, 20],
          [16, 20],
          [19, 12],
          [30, 12],
          [33, 0],
        ],
        36,
      ),
    )
    expect(check.proposal!.bodies.map(({ ordinateMm }) => Math.round(ordinateMm))).toEqual([20, 12])
    expect(check.findings.map(({ rule }) => rule)).toEqual(['several-bodies'])
    expect(check.largestThrowMm).toBeLessThan(8)
  })

  it('one again when the two differ by less than the tolerance', () => {
    const readings = sampled(
      profile([
        [2, 0],
        [6, 20],
        [16, 20],
        [19, 19.3],
        [30, 19.3],
        [33, 0],
      ]),
      36,
    )
    expect(levels(readings)).toHaveLength(1)
    expect(levels(readings, { tolerancePct: 1, resolutionMm: 0.1 })).toHaveLength(2)
  })

  it('two that bend opposite ways for a reverse curve, with a word on which side is outward', () => {
    const check = lined(
      curve(
        [
          [2, 0],
          [5, 18],
          [13, 18],
          [18, -14],
          [27, -14],
          [31, 0],
        ],
        34,
      ),
    )
    expect(check.proposal!.bodies.map(({ ordinateMm }) => Math.round(ordinateMm))).toEqual([18, -14])
    expect(check.findings.map(({ rule }) => rule)).toEqual(['several-bodies', 'reverse-curve'])
    expect(check.largestThrowMm).toBeLessThan(8)
  })

  it('three for two curves with a straight between them, the straight being one', () => {
    const readings = sampled(
      profile([
        [2, 0],
        [4, 18],
        [11, 18],
        [13, 0],
        [20, 0],
        [23, 15],
        [30, 15],
        [33, 0],
      ]),
      36,
    )
    const { proposal, largestThrowMm } = lined(readings)
    expect(proposal!.bodies.map(({ ordinateMm }) => Math.round(ordinateMm))).toEqual([18, 0, 15])
    expect(largestThrowMm).toBeLessThan(1e-6)
  })

  it('none for a straight track with a station out of it', () => {
    const check = lined(displaced(new Array<number>(9).fill(0), [0, 0, 0, 4]))
    expect(check.proposal).toEqual({ bodies: [], runs: [] })
    expect(throws(check)).toEqual([0, 0, 0, -4, 0, 0, 0, 0, 0])
    expect(check.bestFitRadiusMm).toBeNull()
  })

  it('one more when a maximum throw asks for it', () => {
    const readings = [0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0]
    expect(levels(readings)).toHaveLength(1)
    const limited = lined(readings, { maximumThrowMm: 2 })
    expect(limited.proposal!.bodies.length).toBeGreaterThan(1)
    expect(limited.largestThrowMm).toBeLessThanOrEqual(2)
    expect(limited.findings.map(({ rule }) => rule)).not.toContain('maximum-throw')
  })
})

describe('what cannot be had', () => {
  const readings = [0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0]

  it('a maximum throw too small: the smallest largest throw, and where it falls', () => {
    const check = lined(readings, { maximumThrowMm: 0.01 })
    const finding = check.findings.find(({ rule }) => rule === 'maximum-throw')!
    expect(finding).toMatchObject({ severity: 'stop', limit: 0.01, unit: 'mm', measured: check.largestThrowMm })
    expect(finding.stations.every((n) => Math.abs(throws(check)[n]!) > 0.01)).toBe(true)
    expect(finding.stations.length).toBeGreaterThan(0)
  })

  it('everything fixed in a crooked curve', () => {
    const check = lined(readings, { fixed: readings.map((_, n) => n) })
    expect(check.findings.map(({ rule }) => rule)).toEqual(['no-proposal'])
    expect(check.stations.every(({ throwMm, targetOrdinateMm }) => throwMm === null && targetOrdinateMm === null)).toBe(
      true,
    )
  })

  it('everything fixed in an even one can: nothing moves', () => {
    const even = [0, 4, 10, 16, 20, 20, 20, 20, 20, 20, 16, 10, 4, 0]
    const check = lined(even, { fixed: even.map((_, n) => n) })
    expect(largest(throws(check))).toBe(0)
    expect(check.findings).toEqual([])
  })
})

describe('short and unfinished curves', () => {
  it.each([[[0]], [[5]], [[0, 3, 0]], [[5, -3]], [[0.2, 0.4]], [[0, 5, 0.3]], [[0, 0, 0, 0]]])(
    '%j stays as it is: there is nothing to even out',
    (readings) => {
      const check = lined(readings)
      expect(largest(throws(check))).toBeLessThan(1e-9)
      targets(check).forEach((target, n) => {
        expect(target).toBeCloseTo(readings[n]!, 9)
      })
    },
  )

  it('a curve that goes on beyond both ends keeps its end stations, and that is said', () => {
    const check = lined([12, 15, 20, 20, 20, 21, 19, 20, 20, 20])
    expect([throws(check)[0], throws(check).at(-1)]).toEqual([0, 0])
    expect(check.findings).toMatchObject([{ rule: 'unfinished-end', severity: 'note', stations: [0, 9] }])
    expect([check.proposal!.runs[0]!.fromMm, check.proposal!.runs.at(-1)!.toMm]).toEqual([null, null])
    expect(check.largestThrowMm).toBeLessThan(2)
  })

  it('more than 200 stations are not proposed for', () => {
    const check = lined(
      sampled(
        profile([
          [3, 0],
          [40, 10],
          [160, 10],
          [195, 0],
        ]),
        201,
      ),
    )
    expect(check.findings).toMatchObject([{ rule: 'too-many-to-propose', severity: 'stop', measured: 201, limit: 200 }])
    expect(check.proposal).toBeNull()
  })

  it('200 are', () => {
    expect(
      lined(
        sampled(
          profile([
            [3, 0],
            [40, 10],
            [160, 10],
            [195, 0],
          ]),
          200,
        ),
      ).largestThrowMm,
    ).toBeLessThan(1e-6)
  })
})
