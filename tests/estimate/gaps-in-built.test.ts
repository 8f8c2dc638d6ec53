import { describe, expect, test } from 'vitest'
import { spurPlan } from './turnout-plans.ts'
import { worked } from './worked.ts'

const CLIMATE = { laying: 20, coldest: -10, hottest: 40, sunAllowance: 20 }
const RISE_K = 40
const BY_HAND = { buyable: false, onHand: 0, heelSpread: 6.5, heelAngle: 2.5, pointLength: 150, toeLength: 60 }

/** The rails of the turnout of a plan, each with the piece that is cut for it. */
function railsOf(plan: object) {
  const { tracks, cutting, expansion } = worked(plan)
  const { rails } = tracks[0]!.elements[1]!.turnout!
  const pieces = cutting.sticks.flatMap((stick) => stick.pieces).filter(({ turnout }) => turnout)
  return {
    growth: RISE_K * (expansion?.expansionPerK ?? 0),
    rails: rails!.map((rail, index) => {
      const own = pieces.filter(({ turnout }) => turnout!.rail === index)
      expect(own).toHaveLength(1)
      return { ...rail, cutMm: own[0]!.lengthMm, fromStartMm: own[0]!.fromMm }
    }),
  }
}

describe('the rails of a turnout that is built by hand', () => {
  const plan = { ...spurPlan(BY_HAND), climate: CLIMATE }

  test('are cut shorter by the gaps at heel and toe, and reach from end to end with them', () => {
    const { rails, growth } = railsOf(plan)
    for (const leg of ['through', 'diverging']) {
      const own = rails.filter((rail) => rail.leg === leg)
      const [stock, ...joined] = own
      const [switchRail, closure, wing, point, guard] = joined
      // By hand: the closure rail has a joint at both ends, switch and wing rail one each.
      expect(closure!.cutMm).toBeCloseTo(closure!.lengthMm / (1 + growth), 6)
      for (const rail of [switchRail!, wing!]) expect(rail.cutMm).toBeCloseTo(rail.lengthMm / (1 + growth / 2), 6)
      for (const rail of [stock!, point!, guard!]) expect(rail.cutMm).toBeCloseTo(rail.lengthMm, 6)
      const half = ({ cutMm }: { cutMm: number }) => (growth * cutMm) / 2
      expect(switchRail!.gapAheadMm).toBeCloseTo(half(switchRail!) + half(closure!), 6)
      expect(closure!.gapAheadMm).toBeCloseTo(half(closure!) + half(wing!), 6)
      const inRow = [switchRail!, closure!, wing!]
      const sumMm = inRow.reduce((mm, { cutMm, gapAheadMm = 0 }) => mm + cutMm + gapAheadMm, 0)
      expect(sumMm).toBeCloseTo(
        inRow.reduce((mm, { lengthMm }) => mm + lengthMm, 0),
        6,
      )
      expect(closure!.fromStartMm).toBeCloseTo(half(closure!), 6)
      expect([stock, wing, point, guard].every((rail) => rail!.gapAheadMm === undefined)).toBe(true)
    }
  })

  test('keep insulators at the toes of a live frog, whatever the weather', () => {
    const power = { currentA: 2 }
    const live = railsOf({ ...spurPlan({ ...BY_HAND, frog: 'live' }), climate: CLIMATE, power })
    const dead = railsOf({ ...plan, power })
    const toes = ({ rails }: typeof live) => rails.filter(({ parts }) => parts.at(-1) === 'closure-rail')
    expect(toes(live)).toHaveLength(2)
    for (const [index, rail] of toes(live).entries()) {
      const without = toes(dead)[index]!
      const thickness = rail.gapAheadMm! - without.gapAheadMm!
      expect(thickness).toBeGreaterThan(0.4)
      expect(without.cutMm - rail.cutMm).toBeCloseTo(thickness / 2, 2)
    }
    const clamped = railsOf({ ...plan, joints: { kind: 'clamped' } })
    for (const rail of toes(clamped)) expect([rail.gapAheadMm, rail.cutMm]).toEqual([0, rail.lengthMm])
  })

  test('have no gaps where nothing is said of the weather', () => {
    for (const rail of railsOf(spurPlan(BY_HAND)).rails) {
      expect(rail.gapAheadMm).toBeUndefined()
      expect(rail.cutMm).toBeCloseTo(rail.lengthMm, 9)
    }
  })
})
