import { describe, expect, test } from 'vitest'
import { built, gapOf, measure, refusal, SIX_LEFT, SIX_RIGHT, trackCalled } from './built.ts'

const F = 2 * Math.atan(1 / 12)
const WYE = { id: 'w', hand: 'wye', number: 4 }
const POWER = { currentA: 3 }

describe('a reverse loop', () => {
  const asked = { figure: 'reverse-loop', turnoutTypes: [SIX_LEFT, WYE], radius: 1200 }

  test('of a plain turnout curves away, and around by half a turn more (closed form)', () => {
    const made = built(asked)
    // 2r·cos ψ = y + r·cos F − r, y = 90 mm
    const furthest = Math.acos((90 + 1200 * Math.cos(F) - 1200) / 2400)
    const loop = trackCalled(made, 'loop').elements
    expect(loop.map(({ kind }) => kind)).toEqual(['arc', 'arc', 'tangent'])
    expect(loop[0]!.angleDeg).toBeCloseTo(((furthest - F) * 180) / Math.PI, 9)
    expect(loop[1]!.angleDeg).toBeCloseTo(180 + (furthest * 180) / Math.PI, 9)
    expect(gapOf(made)).toBeLessThan(1e-9)
  })

  test('has the straight between its reverse curves that the standards ask for', () => {
    const made = built({ ...asked, standards: { minimumTangentBetweenReverseCurves: 300, minimumRadius: 900 } })
    const [, between] = trackCalled(made, 'loop').elements
    expect(between).toMatchObject({ kind: 'tangent', lengthMm: 300 })
    expect(made.answer.findings.map(({ rule }) => rule)).not.toContain('reverse-curve')
    expect(gapOf(made)).toBeLessThan(1e-9)
  })

  test('of a wye is the same on both sides of the middle', () => {
    const made = built({ ...asked, wye: 'w' })
    const [out, around, home] = trackCalled(made, 'loop').elements
    expect(home!.lengthMm).toBeCloseTo(out!.lengthMm, 9)
    const middle = around!.start.yMm + around!.end.yMm
    expect(middle).toBeCloseTo(0, 8)
    expect(gapOf(made)).toBeLessThan(1e-9)
    expect(measure(made, 'length of the loop')).toBeCloseTo(trackCalled(made, 'loop').lengthMm, 8)
  })

  test('under power is found to short the rails, as by an estimate', () => {
    const rules = (power: object) => built({ ...asked, ...power }).answer.findings.map(({ rule }) => rule)
    expect(rules({ power: POWER })).toContain('polarity-loop')
    expect(rules({})).not.toContain('polarity-loop')
  })

  test('too small for the legs of its turnout is refused', () => {
    const wide = { id: 'l', hand: 'left', measured: { length: 600, divergingAngle: 40, divergingOffset: 240 } }
    expect(refusal({ ...asked, turnoutTypes: [wide], radius: 60 }).map(([at, code]) => [at, code])).toEqual([
      ['radius', 'out-of-range'],
    ])
  })
})

describe('a wye', () => {
  const asked = { figure: 'wye', turnoutTypes: [SIX_LEFT, SIX_RIGHT, WYE], radius: 1500 }

  test('with a wye at its tail is the same on both sides (closed form)', () => {
    const made = built({ ...asked, wye: 'w' })
    const { end } = trackCalled(made, 'tail').elements.at(-1)!
    const apart = measure(made, 'points to points in the straight')
    expect(end.xMm).toBeCloseTo(apart / 2, 8)
    expect(end.headingDeg).toBeCloseTo(90, 9)
    expect(gapOf(made)).toBeLessThan(1e-9)
    // The leg of a No. 6 ends at (12·67.5 + 135)… = x₁, 90 mm aside; the wye's at x₃, 45 mm aside, with half its angle.
    const [x1, a3] = [3240 * Math.sin(F) + (90 - 3240 * (1 - Math.cos(F))) / Math.tan(F), Math.atan(1 / 8)]
    const along = x1 + 1500 * (Math.cos(a3) - Math.sin(F)) + 45
    expect(apart).toBeCloseTo(2 * along, 7)
  })

  test('with a turnout at its tail has it square to the straight all the same', () => {
    const made = built(asked)
    expect(trackCalled(made, 'tail').elements.at(-1)!.end.headingDeg).toBeCloseTo(90, 9)
    expect(gapOf(made)).toBeLessThan(1e-9)
    expect(made.answer.assumptions.map(({ field }) => field)).toContain('/clear')
  })

  test('under power is found to short the rails, as by an estimate', () => {
    expect(built({ ...asked, power: POWER }).answer.findings.map(({ rule }) => rule)).toContain('polarity-wye')
  })

  test('of turnouts that turn too far together is refused', () => {
    const steep = ['left', 'right'].map((hand) => ({
      id: hand,
      hand,
      measured: { length: 600, divergingAngle: 50, divergingOffset: 300 },
    }))
    expect(refusal({ ...asked, turnoutTypes: steep }).map(([at, code]) => [at, code])).toEqual([
      ['left', 'contradictory'],
    ])
  })
})
