import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { readCompactTrack } from '../../../src/estimate/questions/compact-track/read-compact.ts'
import { compactTrack } from '../../../src/estimate/questions/compact-track/write-compact.ts'
import { readPlan } from '../../../src/estimate/read-plan.ts'
import type { ElementInput } from '../../../src/plan/rows/track.ts'
import { arc, easement, straight } from '../plans.ts'

/** The elements of a track in one word, as a plan has them. */
function elementsOf(word: string): readonly ElementInput[] {
  const read = readCompactTrack(word)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  const plan = readPlan({
    rail: { section: '250', material: 'brass' },
    tracks: [{ name: 'x', elements: read.elements }],
  })
  if (!plan.ok) throw new Error(JSON.stringify(plan.faults))
  return plan.plan.tracks[0]!.elements
}

describe('a track in one word', () => {
  it.each([
    ['S6ft', { kind: 'tangent', length: 1828.8 }],
    ['S1p2m', { kind: 'tangent', length: 1200 }],
    ['S1524', { kind: 'tangent', length: 1524 }],
    ['S45p5mm', { kind: 'tangent', length: 45.5 }],
    // By hand: 7 ft 6-1/2 in = 90.5 in of 25.4 mm.
    ['S7ft6-1o2in', { kind: 'tangent', length: 2298.7 }],
    ['S7ft6in', { kind: 'tangent', length: 2286 }],
    ['S6-1o2in', { kind: 'tangent', length: 165.1 }],
    ['S1o2in', { kind: 'tangent', length: 12.7 }],
    ['Ld18ft-a45_S1m', { kind: 'arc', radius: 2743.2, turn: 'left', angle: 45 }],
    ['Rr2743p2-l600_S1m', { kind: 'arc', radius: 2743.2, turn: 'right', length: 600 }],
    ['Rr3m-a22p5_S1m', { kind: 'arc', radius: 3000, turn: 'right', angle: 22.5 }],
  ] as const)('%s', (word, element) => {
    const [first] = elementsOf(word)
    expect(first).toMatchObject(element)
  })

  test('every fault is told with its place', () => {
    const read = readCompactTrack('S6ft_X5_Ld18ft_E_Lr2m-a4o5_s5_S6,5m')
    expect(read.ok).toBe(false)
    if (read.ok) return
    expect(read.faults.map(({ path, code }) => [path[1], code])).toEqual(
      [1, 2, 3, 4, 5, 6].map((n) => [n, 'bad-track']),
    )
    // By hand: the third element begins after "S6ft_X5_".
    expect(read.faults[1]!.detail).toContain('element 3, from character 9: "Ld18ft"')
    for (const empty of ['', '_', 'S6ft_']) expect(readCompactTrack(empty).ok).toBe(false)
  })

  const number = fc.double({ min: 0.001, max: 99_999, noNaN: true })
  const element = fc.oneof(
    number.map(straight),
    fc
      .tuple(
        fc.double({ min: 500, max: 99_999, noNaN: true }),
        fc.double({ min: 0.01, max: 720, noNaN: true }),
        fc.boolean(),
      )
      .map(([radiusMm, deg, left]) => arc(radiusMm, deg, left ? 'left' : 'right')),
    fc
      .tuple(fc.double({ min: 500, max: 99_999, noNaN: true }), number)
      .map(([radius, length]): ElementInput => ({ kind: 'arc', radius, turn: 'left', length })),
  )

  test('written and read again is the same to a millionth of a millimetre, in letters, digits, - and _ alone', () => {
    fc.assert(
      fc.property(fc.array(element, { minLength: 1, maxLength: 40 }), (elements) => {
        const word = compactTrack(elements)
        expect(word).toMatch(/^[A-Za-z0-9_-]+$/)
        expect(word.length).toBeLessThan(1_500)
        const again = elementsOf(word)
        expect(again).toHaveLength(elements.length)
        for (const [n, one] of elements.entries()) {
          const other = again[n]!
          expect(other.kind).toBe(one.kind)
          if (one.kind !== 'arc' || other.kind !== 'arc') {
            if ('length' in one && 'length' in other) expect(other.length).toBeCloseTo(one.length!, 5)
            continue
          }
          expect(other.turn).toBe(one.turn)
          expect(Math.abs(other.radius - one.radius)).toBeLessThanOrEqual(5.1e-7)
          const size = (of: Extract<ElementInput, { kind: 'arc' }>) =>
            of.angle === undefined ? of.length! : ((of.angle * Math.PI) / 180) * of.radius
          expect(size(other)).toBeCloseTo(size(one), 4)
        }
      }),
    )
  })

  test('nothing is rounded away, and whole numbers stay short', () => {
    expect(compactTrack([straight(1e-9), easement(600), arc(2743.2, 45, 'right')])).toBe(
      'S0p000000001_E600_Rr2743p2-a45',
    )
  })
})
