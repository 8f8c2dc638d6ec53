import { describe, expect, it } from 'vitest'
import { toRadians } from '../../../src/measure/angle.ts'
import { curvedCrossing } from '../../../src/track/turnout/both-curved.ts'
import { frogAngleRad } from '../../../src/track/turnout/frog.ts'
import {
  curvedFrogRad,
  type Lead,
  type LeadOf,
  leadOf,
  NO_HEEL,
  toeLengthForRadiusMm,
} from '../../../src/track/turnout/lead.ts'

const PLAIN: LeadOf = {
  gaugeMm: 45,
  frogRad: frogAngleRad(6, 'half-cot'),
  symmetrical: false,
  heel: NO_HEEL,
  toeLengthMm: 0,
}
const HEEL = { spreadMm: 6.5, angleRad: toRadians(2.5), pointLengthMm: 150 }

function lead(given: Partial<LeadOf>): Lead {
  const result = leadOf({ ...PLAIN, ...given })
  if (!result.ok) throw new Error(result.why)
  return result.lead
}

function why(given: Partial<LeadOf>): string | null {
  const result = leadOf({ ...PLAIN, ...given })
  return result.ok ? null : result.why
}

describe('the lead of a turnout', () => {
  it('without heel and toe is 2gN with R = 2gN², at any gauge and number (closed form)', () => {
    for (const gaugeMm of [16.5, 45, 1435.1])
      for (const number of [2, 4, 6.5, 10, 40]) {
        const { leadMm, closureRadiusMm } = lead({ gaugeMm, frogRad: frogAngleRad(number, 'half-cot') })
        expect(leadMm / (2 * gaugeMm * number)).toBeCloseTo(1, 11)
        expect(closureRadiusMm / (2 * gaugeMm * number ** 2)).toBeCloseTo(1, 11)
      }
  })

  it('is put together from switch, closure and toe so that the outer rail crosses the whole gauge', () => {
    const found = lead({ heel: HEEL, toeLengthMm: 60 })
    const { outerGaugeRadiusMm: r, frogRad: f } = found
    // Closed form: heel spread, rise of the arc and rise of the toe make up the gauge; the same along the track.
    expect(6.5 + r * (Math.cos(HEEL.angleRad) - Math.cos(f)) + 60 * Math.sin(f)).toBeCloseTo(45, 10)
    expect(150 + r * (Math.sin(f) - Math.sin(HEEL.angleRad)) + 60 * Math.cos(f)).toBeCloseTo(found.leadMm, 10)
    expect(found.curvedClosureMm).toBeCloseTo(r * (f - HEEL.angleRad), 10)
    expect(found.closureRadiusMm).toBeCloseTo(r - 22.5, 10)
    expect(found.toeSpreadMm).toBeCloseTo(120 * Math.sin(f / 2), 10)
    expect(found.leadMm).toBeCloseTo(150 + found.straightClosureMm + 60, 10)
  })

  it('is tighter than a nominal No. 6 looks: 2202 mm where 2gN² is 3240 (by hand)', () => {
    // (45 − 6.5 − 60·0.165517)/(0.9990482 − 0.9862069) = 28.5690/0.0128413 = 2224.8; less 22.5.
    expect(lead({ heel: HEEL, toeLengthMm: 60 }).closureRadiusMm).toBeCloseTo(2202.3, 0)
  })

  it('of a wye is that of half the gauge and half the angle', () => {
    const { leadMm, outerGaugeRadiusMm: r, frogRad } = lead({ symmetrical: true })
    // Closed form: the outer rail rises by half the gauge, R(1 − cos F/2) = g/2, over a length of R·sin F/2.
    expect(r * (1 - Math.cos(frogRad / 2))).toBeCloseTo(22.5, 9)
    expect(leadMm).toBeCloseTo(r * Math.sin(frogRad / 2), 9)
  })

  it('leaves no room to curve where heel and toe take the gauge up', () => {
    expect(why({ heel: { ...HEEL, angleRad: PLAIN.frogRad } })).toBe('heel-beyond-frog')
    expect(why({ heel: { ...HEEL, spreadMm: 45 } })).toBe('no-room')
    expect(why({ toeLengthMm: 45 / Math.sin(PLAIN.frogRad) })).toBe('no-room')
    expect(why({ toeLengthMm: (45 / Math.sin(PLAIN.frogRad)) * 0.99999 })).toBe('too-tight')
  })
})

describe('the same the other way round', () => {
  it('a curve through the frog has the angle whose number gives its radius', () => {
    const { closureRadiusMm } = lead({ heel: HEEL })
    expect(curvedFrogRad({ ...PLAIN, heel: HEEL, radiusMm: closureRadiusMm })).toBeCloseTo(PLAIN.frogRad, 12)
    const wye = lead({ symmetrical: true })
    expect(curvedFrogRad({ ...PLAIN, symmetrical: true, radiusMm: wye.closureRadiusMm })).toBeCloseTo(PLAIN.frogRad, 12)
  })

  it('a closure radius gives the toe length back', () => {
    const { closureRadiusMm } = lead({ heel: HEEL, toeLengthMm: 60 })
    expect(toeLengthForRadiusMm({ ...PLAIN, heel: HEEL, radiusMm: closureRadiusMm })).toBeCloseTo(60, 9)
    expect(toeLengthForRadiusMm({ ...PLAIN, radiusMm: 3240 })).toBeCloseTo(0, 8)
    expect(toeLengthForRadiusMm({ ...PLAIN, radiusMm: 4000 })).toBeLessThan(0)
  })
})

describe('both legs curved to one side', () => {
  it('cross where a point lies on both rails (closed form)', () => {
    const [gauge, outer, inner] = [45, 3048, 2438.4]
    const { leadMm: x, offsetMm: y, frogRad } = curvedCrossing(gauge, outer, inner)
    expect(Math.hypot(x, outer - y)).toBeCloseTo(outer - gauge / 2, 9)
    expect(Math.hypot(x, inner - y)).toBeCloseTo(inner + gauge / 2, 9)
    const headings = [Math.atan2(x, outer - y), Math.atan2(x, inner - y)]
    expect(frogRad).toBeCloseTo(headings[1]! - headings[0]!, 12)
  })

  it('comes to a curved frog in straight track as the outer radius grows', () => {
    const { frogRad, leadMm } = curvedCrossing(45, 1e9, 3240)
    expect(frogRad).toBeCloseTo(frogAngleRad(6, 'half-cot'), 6)
    expect(leadMm).toBeCloseTo(540, 2)
  })
})
