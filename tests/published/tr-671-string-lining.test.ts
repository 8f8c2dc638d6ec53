import { describe, expect, it } from 'vitest'
import { checkBend } from '../../src/bending/bend-check/check.ts'
import { blindRows, type Label, misses, type Row } from './rows.ts'

/**
 * The method of US Army TR 671, *Railway Track Maintenance II*, chapter 3 (published): error = measured − proposed, its
 * running sum, half throws summed once more, throw = 2 × half throw; both sums end at 0. The example is derived: it was
 * computed by that method and agrees with simulated geometry to 0.16 mm. Stations every 250 mm, a string of 500 mm.
 */
const MEASURED = [0, 3, 9, 17, 21, 19, 22, 16, 23, 23, 15, 10, 2, 0]
const PROPOSED = [0, 4, 10, 16, 20, 20, 20, 20, 20, 20, 16, 10, 4, 0]
const SUMS = [0, -1, -2, -1, 0, -1, 1, -3, 0, 3, 2, 2, 0, 0]
const THROWS = [0, 0, -2, -6, -8, -8, -10, -8, -14, -14, -8, -4, 0, 0]

const result = checkBend({ chordMm: 500, readingsMm: MEASURED, proposedMm: PROPOSED })
if (!result.ok) throw new Error(JSON.stringify(result.faults))
const { stations, turnedDeg } = result.check

const row = (what: string, printed: number, computed: number | null, within = 1e-9, label: Label = 'derived'): Row => ({
  what,
  printed,
  computed: computed ?? Number.NaN,
  within,
  label,
})
const rows: Row[] = [
  ...stations.flatMap(({ runningSumMm, throwMm, deviationMm }, n) => [
    row(`error at ${n}`, MEASURED[n]! - PROPOSED[n]!, deviationMm),
    row(`sum at ${n}`, SUMS[n]!, runningSumMm),
    row(`throw at ${n}`, THROWS[n]!, throwMm),
  ]),
  // Σv = 180 and 2·180/250 rad: 82.6° as printed, the sine of each turn taken for its angle
  row('turned', 82.6, turnedDeg, 0.2),
]

describe('string lining', () => {
  it('gives the table of the example', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 43 numbers, and a wrong one would show', () => {
    expect(rows).toHaveLength(43)
    expect(blindRows(rows)).toEqual([])
  })
})
