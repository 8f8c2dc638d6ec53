import { describe, expect, it } from 'vitest'
import { arc, estimateOf, planOf, straight } from './plans.ts'

/** Code 250: a head of 0.112 in (NMRA RP-15.1), so the middles of the heads are 22.5 + 1.4224 mm from the centre line. */
const OFFSET = 22.5 + (0.112 * 25.4) / 2
const RADIUS = 3000
const ARC_MM = (RADIUS * Math.PI) / 3
const GRADE = 0.05

/** A tangent of 2 m and 60° of R 3 m, all of it at 5 %. */
function climb(turn: 'left' | 'right', more: object = {}) {
  const lengthMm = 2000 + ARC_MM
  const gradeLine = [
    { at: 0, elevation: 0 },
    { at: lengthMm, elevation: lengthMm * GRADE },
  ]
  return estimateOf(planOf([straight(2000), arc(RADIUS, 60, turn)], { gradeLine }, more))
}

// Closed form: √(plan² + rise²), each rail with its own plan length.
const straightMm = 2000 * Math.hypot(1, GRADE)
const ofArc = (offsetMm: number) => ARC_MM * Math.hypot(1 + offsetMm / RADIUS, GRADE)

describe.each(['left', 'right'] as const)('a curve to the %s on a grade', (turn) => {
  const other = turn === 'left' ? 'right' : 'left'
  const expected = { [turn]: ofArc(-OFFSET), [other]: ofArc(OFFSET) }

  it('has bends and rails as long as they are laid', () => {
    const { bends, tracks } = climb(turn)
    for (const { side, lengthMm } of bends) expect(lengthMm).toBeCloseTo(expected[side]!, 8)
    for (const side of ['left', 'right'] as const)
      expect(tracks[0]!.rails[side].lengthMm).toBeCloseTo(straightMm + expected[side]!, 8)
    expect(bends).toHaveLength(2)
  })

  it('is cut to pieces that add up to the rail, with the bend marked where it begins on it', () => {
    const { cutting, tracks } = climb(turn)
    for (const side of ['left', 'right'] as const) {
      const pieces = cutting.sticks.flatMap((stick) => stick.pieces).filter(({ rail }) => rail === side)
      const sum = pieces.reduce((mm, { lengthMm }) => mm + lengthMm, 0)
      expect(sum).toBeCloseTo(tracks[0]!.rails[side].lengthMm, 7)
      const bent = pieces.flatMap(({ fromMm, bends }) =>
        bends.map((bend) => [fromMm + bend.fromMm, fromMm + bend.toMm]),
      )
      expect(Math.min(...bent.flat())).toBeCloseTo(straightMm, 7)
      expect(Math.max(...bent.flat())).toBeCloseTo(straightMm + expected[side]!, 7)
      const bentMm = bent.reduce((mm, [from, to]) => mm + to! - from!, 0)
      expect(bentMm).toBeCloseTo(expected[side]!, 7)
    }
  })

  it('grows by the length of each rail', () => {
    const more = {
      climate: { laying: 20, coldest: 0, hottest: 30, sunAllowance: 20 },
      joints: { kind: 'clamped' },
    }
    const { expansion } = climb(turn, more)
    const [length] = expansion!.lengths
    expect(length!.leftMm).toBeCloseTo(straightMm + expected.left!, 8)
    expect(length!.rightMm).toBeCloseTo(straightMm + expected.right!, 8)
    // derived: α·L·ΔT of the longer rail, 0 to 50 °C
    const longerMm = straightMm + ofArc(OFFSET)
    expect(length!.growthMm).toBeCloseTo(expansion!.expansionPerK! * longerMm * 50, 8)
  })
})
