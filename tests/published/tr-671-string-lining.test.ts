import { describe, expect, it } from 'vitest'
import { checkBend } from '../../src/bending/bend-check/check.ts'
import type { BendCheck } from '../../src/bending/bend-check/types.ts'
import { readingsOf, thrown, trackFromReadings } from '../bending/bend-check/simulated-track.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * US Army TR 671, *Railway Track Maintenance II*, chapter 3. Published: the rules of the string-lining table (error,
 * running sum, half throw, throw, what moving a station does to the ordinates, 2v/s for the turn at a station). The
 * example worked by them is derived; so is how near the curve comes to it when it is really thrown: 0.16 mm.
 */
const MEASURED = [0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0]
const PROPOSED = [0, 4, 10, 16, 20, 20, 20, 20, 20, 20, 16, 10, 4, 0]
const RUNNING_SUMS = [0, -1, -2, -1, 0, -1, 1, -3, 0, 3, 2, 2, 0, 0]
const THROWS = [0, 0, -2, -6, -8, -8, -10, -8, -14, -14, -8, -4, 0, 0]
const SPACING = 250

function checked(readingsMm: readonly number[], proposedMm: readonly number[]): BendCheck {
  const result = checkBend({ chordMm: 2 * SPACING, readingsMm, proposedMm })
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.check
}

const check = checked(MEASURED, PROPOSED)
const column = (label: Row['label'], what: string, printed: readonly number[], computed: readonly (number | null)[]) =>
  printed.map(
    (value, n): Row => ({ what: `${what} at ${n}`, printed: value, computed: computed[n]!, within: 0, label }),
  )

describe('the string-lining table', () => {
  const rows: Row[] = [
    ...column(
      'derived',
      'running sum',
      RUNNING_SUMS,
      check.stations.map(({ runningSumMm }) => runningSumMm),
    ),
    ...column(
      'derived',
      'throw',
      THROWS,
      check.stations.map(({ throwMm }) => throwMm),
    ),
    { what: 'turned, degrees', printed: 82.6, computed: check.turnedDeg!, within: 0.05, label: 'derived' },
    {
      what: 'radius of the body',
      printed: 1572.5,
      computed: checked(PROPOSED, PROPOSED).bestFitRadiusMm!,
      within: 0.05,
      label: 'derived',
    },
  ]

  it('comes out as worked, to the last digit', () => {
    expect(misses(rows)).toEqual([])
    expect(check.findings).toEqual([])
    expect(check.largestThrowMm).toBe(14)
  })

  it('compares all 30 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(30)
    expect(blindRows(rows.map((row) => ({ ...row, within: Math.max(row.within, 1e-6) })))).toEqual([])
  })

  it('the thrown curve, measured again, is the proposed one to 0.16 mm', () => {
    const track = thrown(trackFromReadings(MEASURED, SPACING), THROWS)
    const off = readingsOf(track).map((reading, n) => Math.abs(reading - PROPOSED[n]!))
    expect(Math.max(...off)).toBeCloseTo(0.16, 2)
  })
})

describe('moving one station by t', () => {
  const t = 6
  const track = trackFromReadings(PROPOSED, SPACING)
  const moved = readingsOf(
    thrown(
      track,
      PROPOSED.map((_, n) => (n === 7 ? t : 0)),
    ),
  )
  const change = moved.map((reading, n) => reading - PROPOSED[n]!)

  it('changes its ordinate by t and each neighbour’s by −t/2, in the track itself', () => {
    expect(change[7]).toBeCloseTo(t, 1)
    expect(change[6]).toBeCloseTo(-t / 2, 1)
    expect(change[8]).toBeCloseTo(-t / 2, 1)
    expect(change.filter((_, n) => n < 6 || n > 8).every((by) => Math.abs(by) < 1e-9)).toBe(true)
  })

  it('keeps the sum of the ordinates, but for the square of the turn at the station', () => {
    const turn = (2 * PROPOSED[7]!) / SPACING
    expect(Math.abs(change.reduce((sum, by) => sum + by, 0))).toBeLessThan(t * turn ** 2)
  })

  it('is undone by the table', () => {
    const byTheRule = PROPOSED.map((v, n) => v + (n === 7 ? t : n === 6 || n === 8 ? -t / 2 : 0))
    const { stations } = checked(byTheRule, PROPOSED)
    expect(stations.map(({ throwMm }) => throwMm)).toEqual(PROPOSED.map((_, n) => (n === 7 ? -t : 0)))
  })
})

describe('the turn at a station', () => {
  it.each([4, 20, 50])('is about 2v/s: v %d mm', (v) => {
    const { turnedDeg } = checked([0, v, 0], [0, v, 0])
    const turnedRad = (turnedDeg! * Math.PI) / 180
    expect(turnedRad / ((2 * v) / SPACING)).toBeGreaterThan(1)
    expect(turnedRad / ((2 * v) / SPACING)).toBeLessThan(1.007)
  })
})
