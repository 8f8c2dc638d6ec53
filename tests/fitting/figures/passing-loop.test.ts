import { describe, expect, test } from 'vitest'
import { built, gapOf, measure, refusal, SIX_LEFT, SIX_RIGHT, trackCalled } from './built.ts'

const LOOP = { figure: 'passing-loop', turnoutTypes: [SIX_LEFT, SIX_RIGHT], spacing: 150, clear: 2000, radius: 3000 }
const F = 2 * Math.atan(1 / 12)

describe('a passing loop', () => {
  test('is brought back parallel by a straight and an arc (closed forms)', () => {
    const made = built(LOOP)
    // The legs of a No. 6 end 90 mm aside: the arc takes 3000(1 − cos F) of the other 60, a straight the rest.
    const straight = (60 - 3000 * (1 - Math.cos(F))) / Math.sin(F)
    const siding = trackCalled(made, 'siding').elements
    expect(siding.map(({ kind }) => kind)).toEqual(['tangent', 'arc', 'tangent', 'arc', 'tangent'])
    expect(siding[0]!.lengthMm).toBeCloseTo(straight, 9)
    expect(siding[1]!.angleDeg).toBeCloseTo((F * 180) / Math.PI, 9)
    expect(siding[2]!.lengthMm).toBeCloseTo(2000, 9)
    expect(siding[2]!.start.yMm).toBeCloseTo(150, 9)
    expect(gapOf(made)).toBeLessThan(1e-9)
  })

  test('with tracks that stand clear from less than the spacing is clear on its curves too (by hand)', () => {
    const straightPart = (more: object) => measure(built({ ...LOOP, ...more }), 'straight part of the siding')
    // 140 mm is reached 10 mm before the arc of 3000 mm is parallel: cos h = 1 − 10/3000, 3000·h = 245.02 mm earlier.
    const earlier = 3000 * Math.acos(1 - 10 / 3000)
    expect(straightPart({ fouling: 140 })).toBeCloseTo(2000 - 2 * earlier, 6)
    // 100 mm lies on the straight, 10 mm beyond the leg's end.
    const onCurve = (60 - 10) / Math.sin(F) - (3000 * (1 - Math.cos(F))) / Math.sin(F) + 3000 * F
    expect(straightPart({ fouling: 100 })).toBeCloseTo(2000 - 2 * onCurve, 6)
    // 11.25 mm lies on the arc of the turnout: 3240(1 − cos h).
    const onLead = 3240 * Math.acos(1 - 11.25 / 3240)
    const whole = straightPart({ fouling: 11.25, clear: 5000 })
    const leg = 3240 * F + (90 - 3240 * (1 - Math.cos(F))) / Math.sin(F)
    const back = (60 - 3000 * (1 - Math.cos(F))) / Math.sin(F) + 3000 * F
    expect(whole).toBeCloseTo(5000 - 2 * (leg + back - onLead), 6)
  })

  test('with turnouts that are not alike closes as well', () => {
    const kinds = [
      { ...SIX_LEFT, number: 5, toeLength: 40 },
      { ...SIX_RIGHT, form: 'curved-frog', number: 8 },
    ]
    expect(gapOf(built({ ...LOOP, spacing: 200, turnoutTypes: kinds }))).toBeLessThan(1e-9)
  })

  test('that cannot be built is refused with the nearest that can', () => {
    const [[place, code, hint]] = refusal({ ...LOOP, spacing: 120 }) as [[string, string, string]]
    expect([place, code]).toEqual(['spacing', 'out-of-range'])
    // 90 + 3000(1 − cos F) = 131.4 mm; for 120 mm a radius of 30/(1 − cos F) = 2175 mm.
    expect(hint).toBe('use a spacing of 131.4 mm or more, or a radius of 2175 mm or less')
    expect(refusal({ ...LOOP, spacing: 120, radius: 2175 })).toEqual([])
    expect(refusal({ ...LOOP, spacing: 131.4 })).toEqual([])
    expect(refusal({ ...LOOP, fouling: 150.1 }).map(([at]) => at)).toEqual(['fouling'])
    expect(refusal({ ...LOOP, fouling: 60, clear: 100 }).map(([at]) => at)).toEqual(['clear'])
    expect(refusal({ ...LOOP, spacing: 90 })[0]![2]).toContain('by giving its length')
  })

  test('as short as its curves has no straight', () => {
    const made = built({ ...LOOP, fouling: 140, clear: 2 * 3000 * Math.acos(1 - 10 / 3000) })
    expect(trackCalled(made, 'siding').elements.map(({ kind }) => kind)).toEqual(['tangent', 'arc', 'arc', 'tangent'])
    expect(gapOf(made)).toBeLessThan(1e-6)
  })
})
