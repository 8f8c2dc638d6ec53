import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  bestOnOpenTrack,
  spacingInLongRowMm,
  worstOnLoopOhm,
  worstOnOpenTrack,
} from '../../src/laying/feeder-network.ts'
import { resistanceToSupply } from './resistive-network.ts'

// 1 Ω in each feeder and 1 Ω of rail between two.
const FEEDER = { feederOhm: 1, ohmPerMm: 0.001 }

describe('networks by hand', () => {
  it('one feeder: its own resistance and the way to the far end, on a loop two ways side by side', () => {
    expect(bestOnOpenTrack({ ...FEEDER, feeders: 1, lengthMm: 2000 })).toEqual({ endMm: 1000, worstOhm: 2 })
    // 1 + (½ ∥ ½)
    expect(worstOnLoopOhm({ ...FEEDER, feeders: 1, lengthMm: 1000 })).toBeCloseTo(1.25, 12)
  })

  it('two feeders', () => {
    // The end 500 mm out: 0.5 + 1 ∥ 2; half-way between: 1.5 ∥ 1.5.
    const { atEndOhm, betweenOhm } = worstOnOpenTrack({ ...FEEDER, feeders: 2, lengthMm: 2000 }, 500)
    expect(atEndOhm).toBeCloseTo(0.5 + 2 / 3, 12)
    expect(betweenOhm).toBeCloseTo(0.75, 12)
    expect(worstOnLoopOhm({ ...FEEDER, feeders: 2, lengthMm: 2000 })).toBeCloseTo(0.75, 12)
  })

  it('three feeders', () => {
    // The end: 0.5 + 1 ∥ (1 + 1 ∥ 2) = 0.5 + 5/8. Between the first two the ways are 1 and 1 ∥ 2 behind 1 Ω of rail,
    // equal at (1 + 2/3 + 1)/2 each.
    const { atEndOhm, betweenOhm } = worstOnOpenTrack({ ...FEEDER, feeders: 3, lengthMm: 3000 }, 500)
    expect(atEndOhm).toBeCloseTo(0.5 + 5 / 8, 12)
    expect(betweenOhm).toBeCloseTo(2 / 3, 12)
    // On a loop the third feeder is opposite and gives half its current to each side: (½ + 1 ∥ (1 + 2))/2.
    expect(worstOnLoopOhm({ ...FEEDER, feeders: 3, lengthMm: 3000 })).toBeCloseTo((0.5 + 0.75) / 2, 12)
  })

  it('a long row: S with half the ladder and a quarter of the rail (closed form)', () => {
    const spacingOhm = spacingInLongRowMm(0.6, FEEDER.ohmPerMm, 1) * FEEDER.ohmPerMm
    let ladder = 1
    for (let n = 0; n < 100; n++) ladder = (ladder + spacingOhm) / (1 + ladder + spacingOhm)
    expect(ladder / 2 + spacingOhm / 4).toBeCloseTo(0.6, 12)
    expect(spacingInLongRowMm(0.25, 1e-5, 0)).toBeCloseTo(100_000, 8)
  })
})

const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const anyRow = fc.record({
  feeders: fc.integer({ min: 1, max: 9 }),
  lengthMm: positive(1000, 200_000),
  ohmPerMm: positive(1e-6, 1e-3),
  feederOhm: positive(0.001, 20),
})
/** Places to look at, as parts of a stretch. */
const PARTS = Array.from({ length: 41 }, (_, n) => n / 40)
const BETWEEN = PARTS.slice(1, -1)

describe('the network solved node by node', () => {
  it('is nowhere on a loop worse than the closed form, and as bad half-way between two feeders', () => {
    fc.assert(
      fc.property(anyRow, (row) => {
        const apartMm = row.lengthMm / row.feeders
        const feedersMm = Array.from({ length: row.feeders }, (_, n) => n * apartMm)
        const worst = worstOnLoopOhm(row)
        const at = (mm: number) => resistanceToSupply(mm, feedersMm, { ...row, closed: true })
        expect(at(apartMm / 2) / worst).toBeCloseTo(1, 9)
        for (const part of PARTS) expect(at(part * apartMm * 0.999)).toBeLessThanOrEqual(worst * (1 + 1e-9))
      }),
      { numRuns: 60 },
    )
  })

  it('is as bad as the closed form somewhere on an open track, and nowhere worse', () => {
    fc.assert(
      fc.property(anyRow, (row) => {
        const { endMm, worstOhm } = bestOnOpenTrack(row)
        const apartMm = row.feeders === 1 ? 0 : (row.lengthMm - 2 * endMm) / (row.feeders - 1)
        const feedersMm = Array.from({ length: row.feeders }, (_, n) => endMm + n * apartMm)
        const at = (mm: number) => resistanceToSupply(mm, feedersMm, { ...row, closed: false })
        const places = [
          0,
          ...feedersMm,
          ...BETWEEN.flatMap((part) => feedersMm.slice(1).map((mm) => mm - part * apartMm)),
        ]
        const drops = places.map(at)
        for (const drop of drops) expect(drop).toBeLessThanOrEqual(worstOhm * (1 + 1e-6))
        expect(Math.max(...drops) / worstOhm).toBeGreaterThan(0.99)
      }),
      { numRuns: 60 },
    )
  })

  it('is no better with the outermost feeders elsewhere', () => {
    fc.assert(
      fc.property(anyRow, positive(0, 1), (row, part) => {
        const { atEndOhm, betweenOhm } = worstOnOpenTrack(row, (part * row.lengthMm) / 2)
        const elsewhere =
          row.feeders === 1
            ? row.feederOhm + row.ohmPerMm * row.lengthMm * Math.max(part / 2, 1 - part / 2)
            : Math.max(atEndOhm, betweenOhm)
        expect(bestOnOpenTrack(row).worstOhm).toBeLessThanOrEqual(elsewhere * (1 + 1e-9))
      }),
    )
  })

  it('is better with each further feeder', () => {
    fc.assert(
      fc.property(anyRow, (row) => {
        const more = { ...row, feeders: row.feeders + 1 }
        expect(worstOnLoopOhm(more)).toBeLessThan(worstOnLoopOhm(row))
        expect(bestOnOpenTrack(more).worstOhm).toBeLessThanOrEqual(bestOnOpenTrack(row).worstOhm * (1 + 1e-12))
      }),
    )
  })
})
