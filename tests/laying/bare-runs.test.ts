import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { bareRun, type OpenedRun } from '../../src/laying/bare-runs.ts'
import { RunTrim } from '../../src/laying/cutting/trim.ts'
import type { RunOfRail } from '../../src/laying/divided-rails.ts'

const run = (lengthMm: number): RunOfRail => ({ rail: 0, startMm: 0, lengthMm })
const NOTHING = { start: 0, end: 0 }
const opened = (part: Partial<OpenedRun> = {}): OpenedRun => ({
  openPerMm: 1e-3,
  keptMm: NOTHING,
  free: { start: false, end: false },
  longestMm: 1500,
  ...part,
})

/** What a piece is long that reaches from one place of the run to another: each side is a joint, or a free end. */
const laidMm = (placeMm: number, openPerMm: number, gaps: number) => placeMm / (1 + (gaps / 2) * openPerMm)

describe('a run without its gaps', () => {
  it('between joints is shorter by what its rail leaves open', () => {
    const bare = bareRun(run(3003), opened())
    // By hand: 3000 mm and a thousandth of them.
    expect(bare.lengthMm).toBeCloseTo(3000, 9)
    expect(bare.runAt!(1500)).toBeCloseTo(1501.5, 9)
    expect(bare.runAt!(0)).toBe(0)
    expect(bare.runAt!(bare.lengthMm)).toBe(3003)
  })

  it('whole sticks from end to end of a track fill it with the gaps between them', () => {
    const bare = bareRun(run(4 * 1500 + 3 * 1.5), opened({ free: { start: true, end: true } }))
    expect(bare.lengthMm).toBeCloseTo(6000, 9)
    // By hand: half a gap beyond the first stick, then a stick and a gap each.
    expect([1, 2, 3].map((sticks) => bare.runAt!(1500 * sticks))).toEqual(
      [1500.75, 3002.25, 4503.75].map((mm) => expect.closeTo(mm, 9)),
    )
  })

  it('one piece with two free ends loses nothing; with insulators their thickness', () => {
    expect(bareRun(run(1200), opened({ free: { start: true, end: true } })).lengthMm).toBeCloseTo(1200, 9)
    const kept = bareRun(run(1204), opened({ openPerMm: 0, keptMm: { start: 1, end: 3 } }))
    expect(kept.lengthMm).toBeCloseTo(1200, 9)
    expect(kept.runAt!(600)).toBeCloseTo(601, 9)
  })

  it('is the run itself where nothing stays open, and where almost nothing would be left', () => {
    const whole = run(900)
    expect(bareRun(whole, opened({ openPerMm: 0 }))).toBe(whole)
    expect(bareRun(whole, opened({ keptMm: { start: 300, end: 300 } }))).toBe(whole)
  })

  it('puts joints where the run may have them, and trims by the places on the run', () => {
    const trim = new RunTrim({ bends: [{ fromMm: 1501, toMm: 1802 }], eachMm: 50, creepMm: (mm) => mm, creepAt: 'end' })
    const bare = bareRun(
      {
        ...run(3003),
        jointBy: (mm) => (mm < 500 ? -1 : Math.floor(mm / 500) * 500),
        trim,
        beside: { run: 1, stationAt: (mm) => mm + 7, placeAt: (stationMm) => stationMm - 7 },
      },
      opened(),
    )
    const by = bare.jointBy!(1500, 0)
    expect(bare.runAt!(by)).toBeCloseTo(1500, 9)
    expect(bare.jointBy!(400, 0)).toBe(-1)
    expect(bare.beside!.stationAt(1500)).toBeCloseTo(1508.5, 9)
    expect(bare.beside!.placeAt(1508.5)).toBeCloseTo(1500, 9)
    // The creep is that of the place on the run, and the bend begins at 1501 there.
    expect(bare.trim!.creepMm(1500)).toBeCloseTo(1501.5, 9)
    expect(bare.runAt!(bare.trim!.spec.bends[0]!.fromMm)).toBeCloseTo(1501, 9)
  })

  it('however it is divided, no piece is laid longer than it is planned, and a whole stick stays whole', () => {
    const parts = fc.array(fc.integer({ min: 1, max: 15 }), { minLength: 1, maxLength: 6 })
    fc.assert(
      fc.property(
        parts,
        fc.double({ min: 0, max: 5e-3, noNaN: true }),
        fc.boolean(),
        fc.boolean(),
        fc.constantFrom(0, 1.5),
        fc.constantFrom(0, 2),
        (hundreds, openPerMm, freeStart, freeEnd, keptStart, keptEnd) => {
          const planned = hundreds.map((each) => 100 * each)
          const keptMm = { start: freeStart ? 0 : keptStart, end: freeEnd ? 0 : keptEnd }
          const free = { start: freeStart, end: freeEnd }
          const last = planned.length - 1
          const gapsOf = (n: number) => 2 - Number(freeStart && n === 0) - Number(freeEnd && n === last)
          const keptOf = (n: number) => (n === 0 ? keptMm.start : 0) + (n === last ? keptMm.end : 0)
          const placesMm = planned.map((mm, n) => mm * (1 + (gapsOf(n) / 2) * openPerMm) + keptOf(n))
          const lengthMm = placesMm.reduce((sum, mm) => sum + mm, 0)
          const bare = bareRun(run(lengthMm), { openPerMm, keptMm, free, longestMm: 1500 })
          const plannedMm = planned.reduce((sum, mm) => sum + mm, 0)
          expect(bare.lengthMm).toBeGreaterThanOrEqual(plannedMm - 1e-9)
          // The same pieces, the last one a little longer where that is what the run asks for.
          const runAt = bare.runAt ?? ((mm: number) => mm)
          let fromMm = 0
          for (const [n, mm] of planned.entries()) {
            const toMm = n === last ? bare.lengthMm : fromMm + mm
            const laid = laidMm(runAt(toMm) - runAt(fromMm) - keptOf(n), openPerMm, gapsOf(n))
            if (toMm - fromMm <= 1500) expect(laid).toBeLessThanOrEqual(toMm - fromMm + 1e-9)
            if (mm === 1500 && n < last) expect(laid).toBeCloseTo(1500, 6)
            fromMm = toMm
          }
          expect(runAt(fromMm)).toBeCloseTo(lengthMm, 9)
        },
      ),
    )
  })
})
