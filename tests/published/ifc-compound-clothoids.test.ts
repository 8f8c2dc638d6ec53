import { describe, expect, it } from 'vitest'
import { placeElements } from '../../src/track/place.ts'
import { arc, easement, ORIGIN, poseAt } from '../track/tracks.ts'
import { blindRows, misses, type Row } from './rows.ts'

/**
 * Clothoids between two arcs, from the open test set of transition curves for alignments in IFC (buildingSMART, "Clothoid
 * TS5" and "TS7", control points of 2025, metres): 100 m from R 1000 to R 300, and from R 300 to R 1000. Published as x, y at
 * a distance s along it, to 1e-13. Compared to 1e-11 of the 100 m, to the left and mirrored.
 */
const LENGTH = 100
const WITHIN = 1e-11 * LENGTH
const CLOTHOIDS = [
  {
    from: 1000,
    to: 300,
    points: [
      [10, 9.99980280676496, 0.0538883438371172],
      [25, 24.9961237849498, 0.373233220707878],
      [50, 49.9566969512643, 1.73527951347574],
      [75, 74.8052843570738, 4.44651886368147],
      [100, 99.4068642447563, 8.85797863211989],
    ],
  },
  {
    from: 300,
    to: 1000,
    points: [
      [10, 9.9982441006641, 0.16276360503566],
      [25, 24.9747370655794, 0.980417647611907],
      [50, 49.8252008723562, 3.67440418550316],
      [75, 74.4949888006786, 7.7101131029272],
      [100, 98.9869256442883, 12.7191586166162],
    ],
  },
] as const

/** Where the easement is `s` along itself, seen from its start. */
function along(from: number, to: number, turn: 'left' | 'right', s: number) {
  const placed = placeElements(ORIGIN, [arc(from, 20, turn), easement(LENGTH), arc(to, 20, turn)], false)
  const { start, fromMm } = placed[1]!
  const at = poseAt(placed, fromMm + s)
  const [dx, dy] = [at.xMm - start.xMm, at.yMm - start.yMm]
  const [cos, sin] = [Math.cos(start.headingRad), Math.sin(start.headingRad)]
  return { x: dx * cos + dy * sin, y: (turn === 'left' ? 1 : -1) * (dy * cos - dx * sin) }
}

const rows: Row[] = CLOTHOIDS.flatMap(({ from, to, points }) =>
  (['left', 'right'] as const).flatMap((turn) =>
    points.flatMap(([s, x, y]): Row[] => {
      const at = along(from, to, turn, s)
      const what = `${s} m along R ${from} to R ${to}, ${turn}`
      return [
        { what: `x, ${what}`, printed: x, computed: at.x, within: WITHIN, label: 'published' },
        { what: `y, ${what}`, printed: y, computed: at.y, within: WITHIN, label: 'published' },
      ]
    }),
  ),
)

describe('clothoids between two arcs', () => {
  it('agree to 1e-11 of their length', () => {
    expect(misses(rows)).toEqual([])
  })

  it('compares all 40 numbers, and a wrong one among them would show', () => {
    expect(rows).toHaveLength(40)
    expect(blindRows(rows)).toEqual([])
  })
})
