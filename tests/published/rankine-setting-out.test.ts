import { describe, expect, it } from 'vitest'
import { arcPegs, stationsAlong } from '../../src/bending/setting-out/arc.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * Setting out by Rankine's deflection angles: worked example of surveying course notes, R 30 m, Δ 60°, sub-chords of
 * 7.32, 20 and 4.09 m (metres and minutes of arc). The notes print the deflection of each sub-chord for itself; the pegs
 * add them up. Their length is cut to 31.41, so the last sub-chord is 4.09 as printed.
 */
const LENGTH = 31.41
const pegs = arcPegs(30, LENGTH, stationsAlong(LENGTH, 20, 7.32))
const minutes = pegs.map(({ deflectionDeg }) => deflectionDeg * 60)
const since = (index: number) => minutes[index]! - minutes[index - 1]!
const spacing = (index: number) => pegs[index]!.atMm - pegs[index - 1]!.atMm

const rows: Row[] = [
  { what: 'first sub-chord', printed: 7.32, computed: spacing(1), within: 0.005, label: 'published' },
  { what: 'second', printed: 20, computed: spacing(2), within: 0.005, label: 'published' },
  { what: 'last', printed: 4.09, computed: spacing(3), within: 0.005, label: 'published' },
  { what: 'its deflection', printed: 419.4, computed: since(1), within: 0.1, label: 'published' },
  { what: 'its deflection', printed: 1145.9, computed: since(2), within: 0.1, label: 'published' },
  { what: 'its deflection', printed: 234.3, computed: since(3), within: 0.1, label: 'published' },
  {
    what: 'the second chord, straight',
    printed: 19.632,
    computed: pegs[2]!.chordFromPreviousMm,
    within: 5e-4,
    label: 'by hand',
  },
]

/**
 * R 1200 mm, Δ 90°, derived: at s = 600 the deflection is 14.3239°, the chord 593.770, tangent offsets x 575.311,
 * y 146.901; the long chord 1697.056 with its middle 351.472 off.
 */
const quarter = 1200 * (Math.PI / 2)
const [, at600, middle, last] = arcPegs(1200, quarter, [0, 600, quarter / 2, quarter])
rows.push(
  { what: 'deflection at 600', printed: 14.3239, computed: at600!.deflectionDeg, within: 5e-5, label: 'derived' },
  { what: 'chord to 600', printed: 593.77, computed: at600!.chordFromStartMm, within: 5e-4, label: 'derived' },
  { what: 'x at 600', printed: 575.311, computed: at600!.tangent!.alongMm, within: 5e-4, label: 'derived' },
  { what: 'y at 600', printed: 146.901, computed: at600!.tangent!.offsetMm, within: 5e-4, label: 'derived' },
  { what: 'long chord', printed: 1697.056, computed: last!.longChord!.alongMm, within: 5e-4, label: 'derived' },
  {
    what: 'end of the long chord',
    printed: 0,
    computed: last!.longChord!.offsetMm,
    within: 1e-9,
    label: 'closed form',
  },
  {
    what: 'middle of the long chord',
    printed: 351.472,
    computed: middle!.longChord!.offsetMm,
    within: 5e-4,
    label: 'derived',
  },
)

describe('curves set out by deflection angles', () => {
  it('agree to the printed digit', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 14 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(14)
    expect(blindRows(rows)).toEqual([])
  })
})
