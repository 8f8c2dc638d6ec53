import { describe, expect, it } from 'vitest'
import { frogAngleRad } from '../../src/track/turnout/frog.ts'
import { crossoverOf } from '../../src/track/turnout/parallels.ts'
import { blindRows, misses, type Row } from './rows.ts'
import { turnout } from './turnouts.ts'

/**
 * Crossover and ladder between parallel tracks 150 mm apart, gauge 45 mm, and the circular lead to a theoretical point,
 * N = ½·cot(F/2): lead 2gN, centre line 2gN². Derived figures, to 0.005 mm; the formulas are those of field books, from memory.
 */
const six = crossoverOf(150, 45, frogAngleRad(6, 'half-cot'))
const eight = crossoverOf(150, 45, frogAngleRad(8, 'half-cot'))
const row = (what: string, printed: number, computed: number): Row => ({
  what,
  printed,
  computed,
  within: 0.005,
  label: 'derived',
})

const rows = [
  row('No. 6, frog to frog', 353.75, six.frogToFrogMm),
  row('No. 6, straight', 366.25, six.straightMm),
  row('No. 6, intersections', 893.75, six.intersectionsMm),
  row('No. 6, ladder', 906.25, six.ladderMm),
  row('No. 8, frog to frog', 475.31, eight.frogToFrogMm),
  row('No. 8, straight', 484.69, eight.straightMm),
  row('No. 8, intersections', 1195.31, eight.intersectionsMm),
  row('No. 8, ladder', 1204.69, eight.ladderMm),
  ...[
    [4, 360, 1440],
    [5, 450, 2250],
    [6, 540, 3240],
    [8, 720, 5760],
  ].flatMap(([number, lead, radius]) => {
    const { leadMm, closureRadiusMm } = turnout({ number: number! })
    return [row(`No. ${number}, lead`, lead!, leadMm), row(`No. ${number}, radius`, radius!, closureRadiusMm)]
  }),
]

describe('crossovers between parallel tracks', () => {
  it('agree to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 16 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(16)
    expect(blindRows(rows)).toEqual([])
  })
})
