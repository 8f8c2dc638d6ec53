import { describe, expect, it } from 'vitest'
import { toDegrees, toRadians } from '../../../src/measure/angle.ts'
import { reversed } from '../../../src/track/turnout/leg.ts'
import { poseOnLeg } from '../../../src/track/turnout/ties.ts'
import { turnoutOf } from '../../../src/track/turnout/turnout.ts'
import type { Leg, TurnoutSize } from '../../../src/track/turnout/types.ts'
import { SIZES, worked } from './sizes.ts'

const fields = (size: TurnoutSize) => {
  const result = turnoutOf(size, 45)
  return result.ok ? [] : result.faults.map(({ field, code }) => `${field} ${code}`)
}

/** Each piece begins where the one before ends. */
function isJoined({ pieces, end, lengthMm }: Leg): boolean {
  const places = pieces.map(({ start, end: to }) => [start, to] as const)
  const gaps = places.slice(1).map(([start], at) => {
    const [, before] = places[at]!
    return Math.hypot(start.xMm - before.xMm, start.yMm - before.yMm)
  })
  const sum = pieces.reduce((total, piece) => total + piece.lengthMm, 0)
  return gaps.every((gap) => gap === 0) && Object.is(places.at(-1)![1].yMm, end.yMm) && Math.abs(sum - lengthMm) < 1e-9
}

describe.each(Object.entries(SIZES))('%s', (_, size) => {
  const turnout = worked(size)
  const { through, diverging } = turnout.legs

  it('has legs without a gap, whose turns add up to their headings', () => {
    for (const leg of [through, diverging]) {
      expect(isJoined(leg)).toBe(true)
      expect(leg.pieces.reduce((sum, { turnedRad }) => sum + turnedRad, 0)).toBeCloseTo(leg.end.headingRad, 12)
    }
  })

  it('is mirrored by its hand to the last digit', () => {
    if (size.hand === 'wye') return expect(through.end.yMm).toBe(-diverging.end.yMm)
    const right = worked({ ...size, hand: 'right' })
    expect(right.legs.diverging.end.xMm).toBe(diverging.end.xMm)
    expect(right.legs.diverging.end.yMm).toBe(-diverging.end.yMm)
    expect(right.legs.diverging.end.headingRad).toBe(-diverging.end.headingRad)
    expect(right.leadMm).toBe(turnout.leadMm)
  })

  it('reversed twice is itself, and once ends at the points', () => {
    for (const leg of [through, diverging]) {
      const back = reversed(leg)
      expect(back.lengthMm).toBe(leg.lengthMm)
      expect([back.pieces.at(-1)!.end.xMm, back.pieces.at(-1)!.end.yMm]).toEqual([0, 0])
      expect(back.pieces.reduce((sum, { turnedRad }) => sum + turnedRad, 0)).toBeCloseTo(-leg.end.headingRad, 12)
      expect(reversed(back).pieces.map(({ lengthMm }) => lengthMm)).toEqual(leg.pieces.map(({ lengthMm }) => lengthMm))
    }
  })

  it('has its frog where the gauge lines of both legs cross: half a gauge from both centre lines', () => {
    const distance = (leg: Leg) => {
      let least = Infinity
      for (let at = 0; at <= leg.lengthMm; at += leg.lengthMm / 20_000) {
        const { xMm, yMm } = poseOnLeg(leg, at)
        least = Math.min(least, Math.hypot(xMm - turnout.frog.xMm, yMm - turnout.frog.yMm))
      }
      return least
    }
    expect(distance(through)).toBeCloseTo(22.5, 3)
    expect(distance(diverging)).toBeCloseTo(22.5, 3)
  })
})

describe('the legs of a turnout', () => {
  it('of a nominal No. 6 end where their centre lines are two gauges apart', () => {
    for (const size of [SIZES['straight frog without']!, SIZES['curved frog by number']!])
      expect(worked(size).legs.diverging.end.yMm).toBeCloseTo(90, 9)
    const wye = worked(SIZES['wye by number']!)
    expect(wye.legs.diverging.end.yMm - wye.legs.through.end.yMm).toBeCloseTo(90, 9)
  })

  it('end level with each other at the length given', () => {
    const { through, diverging } = worked(SIZES['straight frog with switch and toe']!).legs
    expect(through.end.xMm).toBeCloseTo(720, 9)
    expect(diverging.end.xMm).toBeCloseTo(720, 9)
  })

  it('leave with half a gauge and g/2·sec F beside each other at the frog (closed form)', () => {
    const { legs, leadMm, frogRad } = worked({ ...SIZES['straight frog with switch and toe']!, length: 480.5 })
    const offset = legs.diverging.end.yMm - (legs.diverging.end.xMm - leadMm) * Math.tan(frogRad)
    expect(offset).toBeCloseTo(22.5 + 22.5 / Math.cos(frogRad), 9)
  })

  it('are as measured', () => {
    for (const name of ['measured', 'measured without radius']) {
      const { diverging, through } = worked(SIZES[name]!).legs
      expect(diverging.end.xMm).toBeCloseTo(600, 9)
      expect(diverging.end.yMm).toBeCloseTo(52, 9)
      expect(toDegrees(diverging.end.headingRad)).toBeCloseTo(9.5, 12)
      expect(through.lengthMm).toBe(600)
    }
  })

  it('curve by radius and angle', () => {
    const { diverging, through } = worked(SIZES['curved frog by radius and angle']!).legs
    expect(diverging.lengthMm).toBeCloseTo(2438.4 * toRadians(22.5), 9)
    expect(through.lengthMm).toBeCloseTo(2438.4 * Math.sin(toRadians(22.5)), 9)
  })
})

describe('a turnout that contradicts itself', () => {
  it('is refused at the field that is wrong', () => {
    expect(fields({ hand: 'left' })).toEqual(['number missing'])
    expect(fields({ hand: 'left', form: 'curved-frog', angle: 20 })).toEqual(['radius missing'])
    expect(fields({ hand: 'left', form: 'curved-frog', number: 6, radius: 2000 })).toEqual(['radius contradictory'])
    expect(fields({ hand: 'left', form: 'curved-frog', number: 6, toeLength: 20 })).toEqual(['toeLength contradictory'])
    expect(fields({ hand: 'left', number: 6, radius: 2000, toeLength: 20 })).toEqual(['radius contradictory'])
    expect(fields({ hand: 'left', number: 6, outerRadius: 2000 })).toEqual(['outerRadius contradictory'])
    expect(fields({ hand: 'left', form: 'both-curved', number: 6 })).toEqual([
      'outerRadius missing',
      'radius missing',
      'angle missing',
      'number contradictory',
    ])
    expect(fields({ hand: 'wye', form: 'both-curved', outerRadius: 3000, radius: 2000, angle: 20 })).toEqual([
      'form contradictory',
    ])
    expect(fields({ hand: 'left', form: 'both-curved', outerRadius: 2000, radius: 3000, angle: 20 })).toEqual([
      'outerRadius contradictory',
    ])
    expect(fields({ hand: 'left', number: 6, heelSpread: 6 })).toEqual(['heelSpread missing'])
    expect(fields({ hand: 'left', number: 6, heelSpread: 6, heelAngle: 10 })).toEqual(['heelAngle contradictory'])
    expect(fields({ hand: 'left', number: 6, toeLength: 300 })).toEqual(['toeLength contradictory'])
    expect(fields({ hand: 'left', number: 6, radius: 4000 })).toEqual(['radius contradictory'])
    expect(fields({ hand: 'left', number: 6, length: 500 })).toEqual(['length contradictory'])
    expect(fields({ hand: 'left', form: 'curved-frog', radius: 2438.4, angle: 10 })).toEqual(['angle contradictory'])
    const measured = { length: 600, divergingAngle: 9.5, divergingOffset: 52 }
    expect(fields({ hand: 'wye', measured, toeLength: 3 })).toEqual([
      'toeLength contradictory',
      'measured contradictory',
    ])
    expect(fields({ hand: 'left', measured: { ...measured, divergingOffset: 200 } })).toEqual([
      'measured contradictory',
    ])
  })

  it('but both legs curved to one side may end before their rails have parted', () => {
    const { leadMm, legs } = worked({ hand: 'left', form: 'both-curved', outerRadius: 3048, radius: 2438.4, angle: 20 })
    expect(leadMm).toBeGreaterThan(legs.diverging.end.xMm)
  })

  it('says two of heel spread, heel angle and switch length, which give the third', () => {
    const all = { hand: 'left', number: 6, toeLength: 60 } as const
    const byTwo = [
      { heelAngle: 2.5, pointLength: 150 },
      { heelSpread: 150 * Math.sin(toRadians(2.5)), pointLength: 150 },
      { heelSpread: 150 * Math.sin(toRadians(2.5)), heelAngle: 2.5 },
    ].map((heel) => worked({ ...all, ...heel }))
    for (const { leadMm, closureRadiusMm } of byTwo) {
      expect(leadMm).toBeCloseTo(byTwo[0]!.leadMm, 9)
      expect(closureRadiusMm).toBeCloseTo(byTwo[0]!.closureRadiusMm, 8)
    }
  })
})
