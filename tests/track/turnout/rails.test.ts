import { describe, expect, it } from 'vitest'
import { besideLeg } from '../../../src/track/turnout/beside-leg.ts'
import { type TurnoutRail, type TurnoutRailPart, turnoutRails } from '../../../src/track/turnout/rails.ts'
import { poseOnLeg } from '../../../src/track/turnout/ties.ts'
import { SIZES, worked } from './sizes.ts'

const [g, w, f] = [45, 2.8448, 3]
const OF = { gaugeMm: g, headWidthMm: w, flangewayMm: f }

const railsOf = (name: string) => turnoutRails(worked(SIZES[name]!), SIZES[name]!.hand, OF)
const railWith = (rails: readonly TurnoutRail[], leg: string, part: TurnoutRailPart) =>
  rails.find((rail) => rail.leg === leg && rail.parts.includes(part))!

describe('the rails of a turnout with switch and toe (No. 6, heel 6.5 mm at 2.5°, toe 60 mm; closed forms)', () => {
  const name = 'straight frog with switch and toe'
  const turnout = worked(SIZES[name]!)
  const rails = railsOf(name)
  const F = 2 * Math.atan(1 / 12)
  const S = (2.5 * Math.PI) / 180

  it('are two of each part', () => {
    for (const part of ['stock-rail', 'switch-rail', 'closure-rail', 'wing-rail', 'point-rail', 'guard-rail'] as const)
      expect(rails.filter(({ parts }) => parts.length === 1 && parts[0] === part)).toHaveLength(2)
    expect(rails).toHaveLength(12)
  })

  it('closure rails are those of the field books, the curved one at the middle of its head', () => {
    expect(railWith(rails, 'through', 'closure-rail').lengthMm).toBeCloseTo(turnout.straightClosureMm!, 9)
    const curved = railWith(rails, 'diverging', 'closure-rail')
    expect(curved.lengthMm).toBeCloseTo((turnout.outerGaugeRadiusMm + w / 2) * (F - S), 9)
    expect(curved.stretches).toHaveLength(1)
    expect(1 / curved.stretches[0]!.curvature).toBeCloseTo(turnout.outerGaugeRadiusMm + w / 2, 8)
    expect(1 / curved.stretches[0]!.trackCurvature).toBeCloseTo(turnout.closureRadiusMm, 8)
  })

  it('stock rails run through; that of the diverging leg is bent by the heel angle at the points', () => {
    const straight = railWith(rails, 'through', 'stock-rail')
    expect(straight).toMatchObject({ side: 'right', kinks: [], fromMm: 0 })
    expect(straight.lengthMm).toBeCloseTo(720, 9)
    const bent = railWith(rails, 'diverging', 'stock-rail')
    expect(bent.side).toBe('left')
    expect(bent.kinks).toEqual([{ atMm: 0, turnRad: expect.closeTo(S, 3) }])
    expect(1 / bent.stretches[1]!.curvature).toBeCloseTo(turnout.closureRadiusMm - (g + w) / 2, 8)
    // The two rails of a leg that turns through F differ by (g + w)·F.
    expect(turnout.legs.diverging.lengthMm - bent.lengthMm).toBeCloseTo(((g + w) / 2) * F, 9)
  })

  it('switch rails are straight and as long as given', () => {
    expect(railWith(rails, 'through', 'switch-rail').lengthMm).toBeCloseTo(150, 9)
    const { lengthMm, stretches } = railWith(rails, 'diverging', 'switch-rail')
    expect(stretches[0]!.curvature).toBe(0)
    // p = 150 at its gauge line, less what the line through the middle of the head gains at the bend.
    expect(lengthMm).toBeCloseTo(150, 0)
  })

  it('wing rails bend by the frog angle at the throat, (f + w/2 − w/2·cos F)/sin F ahead of the point', () => {
    const wing = railWith(rails, 'through', 'wing-rail')
    const [kink] = wing.kinks
    expect(kink!.turnRad).toBeCloseTo(F, 9)
    // From the toe, 60 mm ahead of the point, to where y = w/2 meets the line f + w/2 beside the other gauge line.
    const throatMm = (f + w / 2 - (w / 2) * Math.cos(F)) / Math.sin(F)
    expect(kink!.atMm).toBeCloseTo(60 - throatMm, 6)
    const other = railWith(rails, 'diverging', 'wing-rail')
    expect(other.kinks[0]!.turnRad).toBeCloseTo(-F, 9)
    expect(other.lengthMm).toBeCloseTo(wing.lengthMm, 6)
  })

  it('point rails reach from the point of the frog to the end', () => {
    expect(railWith(rails, 'through', 'point-rail').lengthMm).toBeCloseTo(720 - turnout.leadMm, 9)
    // The centre line ends at 720 mm; beside the frog it is at lead − g/2·sin F.
    const beyond = (720 - turnout.leadMm + (g / 2) * Math.sin(F)) / Math.cos(F)
    expect(railWith(rails, 'diverging', 'point-rail').lengthMm).toBeCloseTo(beyond, 8)
  })

  it('guard rails reach a gauge ahead and half a gauge behind the frog', () => {
    for (const leg of ['through', 'diverging']) {
      const guard = railWith(rails, leg, 'guard-rail')
      expect(guard.side).toBe(railWith(rails, leg, 'stock-rail').side)
      expect(guard.lengthMm).toBeCloseTo(1.5 * g, 0)
    }
  })
})

describe('of every form', () => {
  it.each(Object.keys(SIZES))('%s: what is cut makes up each leg but for the frog', (name) => {
    const turnout = worked(SIZES[name]!)
    const rails = railsOf(name)
    for (const leg of ['through', 'diverging'] as const) {
      const { lengthMm, pieces } = turnout.legs[leg]
      const stock = railWith(rails, leg, 'stock-rail')
      const offsetMm = ((g + w) / 2) * (stock.side === 'left' ? 1 : -1)
      const turned = pieces.reduce((sum, { turnedRad }) => sum + turnedRad, 0)
      expect(stock.lengthMm).toBeCloseTo(lengthMm - offsetMm * turned, 7)
      for (const rail of rails) {
        expect(rail.lengthMm).toBeGreaterThan(0)
        expect(rail.stretches.reduce((sum, stretch) => sum + stretch.lengthMm, 0)).toBeCloseTo(rail.lengthMm, 9)
      }
      // To the throat, a gap over the flangeway, and from the point on.
      const frogSide = rails.filter((rail) => rail.leg === leg && rail.side !== stock.side)
      const wing = frogSide.find(({ parts }) => parts.includes('wing-rail'))!
      const runs = frogSide.filter((rail) => !rail.parts.includes('wing-rail'))
      const cut = runs.reduce((sum, rail) => sum + rail.lengthMm, 0) + wing.kinks[0]!.atMm
      const whole = lengthMm + offsetMm * turned
      const F = turnout.frogRad
      const ofStraights = (f + w / 2 - (w / 2) * Math.cos(F)) / Math.sin(F)
      expect((whole - cut) / ofStraights).toBeCloseTo(1, /switch and toe|wye by number/.test(name) ? 9 : 1)
    }
  })

  it('a right-hand one is the mirror image', () => {
    const size = SIZES['straight frog with switch and toe']!
    const right = turnoutRails(worked({ ...size, hand: 'right' }), 'right', OF)
    const left = turnoutRails(worked(size), 'left', OF)
    expect(right.map(({ lengthMm }) => lengthMm.toFixed(9))).toEqual(left.map(({ lengthMm }) => lengthMm.toFixed(9)))
    expect(right.map(({ side }) => side)).toEqual(left.map(({ side }) => (side === 'left' ? 'right' : 'left')))
    expect(right.flatMap(({ kinks }) => kinks.map(({ turnRad }) => -turnRad.toFixed(9)))).toEqual(
      left.flatMap(({ kinks }) => kinks.map(({ turnRad }) => Number(turnRad.toFixed(9)))),
    )
  })

  it.each(Object.keys(SIZES))('%s: a place beside a leg is found again', (name) => {
    const { legs } = worked(SIZES[name]!)
    for (const leg of [legs.through, legs.diverging])
      for (const share of [0.31, 0.62, 0.97]) {
        const pose = poseOnLeg(leg, share * leg.lengthMm)
        const [xMm, yMm] = [pose.xMm - 20 * Math.sin(pose.headingRad), pose.yMm + 20 * Math.cos(pose.headingRad)]
        const found = besideLeg(leg, { xMm, yMm })
        expect(found.stationMm).toBeCloseTo(share * leg.lengthMm, 8)
        expect(found.leftMm).toBeCloseTo(20, 8)
      }
  })
})
