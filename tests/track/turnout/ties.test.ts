import { describe, expect, it } from 'vitest'
import { turnoutTies } from '../../../src/track/turnout/ties.ts'
import { turnoutOf } from '../../../src/track/turnout/turnout.ts'
import { worked } from './sizes.ts'

describe('the ties of a turnout', () => {
  const six = worked({ hand: 'left', form: 'curved-frog', number: 6 })

  it('are longer by the distance of the two centre lines (closed form: chord from arc to tangent)', () => {
    const ties = turnoutTies(six, 45, 82)
    expect(ties[0]).toEqual({ atMm: 0, lengthMm: 82 })
    const at = 450
    const [x, y] = [3240 * Math.sin(at / 3240), 3240 * (1 - Math.cos(at / 3240))]
    expect(ties[10]!.atMm).toBe(at)
    expect(ties[10]!.lengthMm).toBeCloseTo(82 + Math.hypot(at - x, y), 9)
  })

  it('end where each leg has room for ties of its own', () => {
    const ties = turnoutTies(six, 45, 82)
    expect(ties.at(-1)!.lengthMm).toBeLessThanOrEqual(164)
    // √(2·3240·82) = 729 mm: s²/2R = 82 by the small-angle rule.
    expect(ties).toHaveLength(17)
    expect(turnoutTies(six, 1000, 82)).toEqual([{ atMm: 0, lengthMm: 82 }])
  })

  it('of a mirrored turnout are the same', () => {
    const right = turnoutOf({ hand: 'right', form: 'curved-frog', number: 6 }, 45)
    expect(right.ok && turnoutTies(right.turnout, 45, 82)).toEqual(turnoutTies(six, 45, 82))
  })
})
