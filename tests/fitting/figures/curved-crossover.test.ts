import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { cases } from '../../cases.ts'
import { built, gapOf, refusal, trackCalled } from './built.ts'

const curved = (id: string, hand: string, outerRadius: number, radius: number, angle: number) => ({
  id,
  hand,
  form: 'both-curved',
  outerRadius,
  radius,
  angle,
})

/** In a curve of 4 m to one of 3.8 m inside it. */
const INWARDS = {
  figure: 'crossover',
  turnoutTypes: [curved('outer', 'left', 4000, 2200, 14), curved('inner', 'right', 9000, 3800, 9)],
  curve: { radius: 4000, turn: 'left' },
  side: 'left',
  spacing: 200,
}
/** The other way, from the inner track to the outer one. */
const OUTWARDS = {
  ...INWARDS,
  turnoutTypes: [curved('inner', 'right', 9000, 3800, 9), curved('outer', 'left', 4000, 2200, 14)],
  curve: { radius: 3800, turn: 'right' },
}

describe('a crossover between concentric curves', () => {
  test.each([
    ['inwards', INWARDS],
    ['outwards', OUTWARDS],
  ])('%s closes to 1e-9 mm', (_, asked) => {
    const made = built(asked)
    expect(gapOf(made)).toBeLessThan(1e-9)
    const { closure } = trackCalled(made, 'crossover')
    expect(Math.abs(closure!.headingDeg!)).toBeLessThan(1e-9)
  })

  test('lies in tracks with one centre', () => {
    for (const [asked, sign, inner] of [
      [INWARDS, 1, 3800],
      [OUTWARDS, -1, 4000],
    ] as const) {
      const made = built(asked)
      const centre = sign * asked.curve.radius
      for (const { start, end } of trackCalled(made, 'other').elements)
        for (const { xMm, yMm } of [start, end]) expect(Math.hypot(xMm, yMm - centre)).toBeCloseTo(inner, 7)
      for (const { start, end } of trackCalled(made, 'main').elements)
        for (const { xMm, yMm } of [start, end])
          expect(Math.hypot(xMm, yMm - centre)).toBeCloseTo(asked.curve.radius, 7)
    }
  })

  test('is the same track from either side', () => {
    const length = (asked: object) => trackCalled(built(asked), 'crossover').lengthMm
    expect(length(OUTWARDS)).toBeCloseTo(length(INWARDS), 7)
  })

  test('of random radii and spacings closes to 1e-9 mm, or is refused', () => {
    let solved = 0
    const sizes = fc.record({
      radius: fc.integer({ min: 2500, max: 12_000 }),
      spacing: fc.integer({ min: 150, max: 400 }),
      sharper: fc.double({ min: 0.4, max: 0.7, noNaN: true }),
      wider: fc.double({ min: 1.6, max: 3, noNaN: true }),
      turn: fc.constantFrom('left', 'right'),
    })
    const runs = cases(300)
    fc.assert(
      fc.property(sizes, ({ radius, spacing, sharper, wider, turn }) => {
        const [near, far] = turn === 'left' ? ['left', 'right'] : ['right', 'left']
        const inner = radius - spacing
        const kinds = [curved('o', near!, radius, radius * sharper, 14), curved('i', far!, inner * wider, inner, 10)]
        const asked = { ...INWARDS, spacing, side: turn, curve: { radius, turn }, turnoutTypes: kinds }
        if (refusal(asked).length > 0) return
        solved += 1
        expect(gapOf(built(asked))).toBeLessThan(1e-9)
      }),
      { numRuns: runs },
    )
    expect(solved).toBeGreaterThan(runs / 4)
  })

  test('whose turnouts do not lie in the curves, or whose track would be beyond the centre, is refused', () => {
    expect(refusal({ ...INWARDS, curve: { radius: 5000, turn: 'left' } })).toEqual([
      ['left', 'contradictory', 'use a both-curved turnout of which one leg has the radius of the track'],
      ['right', 'contradictory', 'use a both-curved turnout of which one leg has the radius of the track'],
    ])
    expect(refusal({ ...INWARDS, spacing: 4000 }).map(([at, code]) => [at, code])).toEqual([
      ['spacing', 'out-of-range'],
    ])
    expect(refusal({ ...INWARDS, curve: undefined }).map(([at]) => at)).toEqual(['left'])
  })
})
