import { describe, expect, it } from 'vitest'
import { preparePlan } from '../../src/estimate/plan.ts'
import { layTrack } from '../../src/estimate/track/laid-track.ts'
import { dividedRail } from '../../src/laying/divided-rails.ts'
import {
  lastJointStation,
  restricts,
  sideBySide,
  squareStations,
  withJointPlaces,
} from '../../src/laying/joint-places.ts'
import { arc, estimateOf, planOf, straight } from '../estimate/plans.ts'

const bridge = { from: 900, to: 1500, reason: 'bridge' }
const road = { from: 600, to: 910, reason: 'road' }

describe('the last station at which a joint may lie', () => {
  it.each([
    ['free', 1000, [], null, 1000],
    ['inside a stretch', 1000, [bridge], null, 900],
    ['at its start', 900, [bridge], null, 900],
    ['at its end', 1500, [bridge], null, 1500],
    ['from one stretch into the next', 1200, [road, bridge], null, 600],
    ['midway between ties', 1000, [], 45, 967.5],
    ['midway already, as it was summed', 967.5 - 1e-9, [], 45, 967.5 - 1e-9],
    ['midway before the stretch', 1000, [bridge], 45, 877.5],
    ['before the first tie', 20, [], 45, -22.5],
  ] as const)('%s (by hand)', (_, stationMm, keepOut, tieSpacingMm, wanted) => {
    expect(lastJointStation(stationMm, { keepOut, tieSpacingMm })).toBeCloseTo(wanted, 6)
  })

  it('nothing restricts a track of which nothing is asked', () => {
    expect(restricts({ keepOut: [], tieSpacingMm: null })).toBe(false)
    expect(restricts({ keepOut: [bridge], tieSpacingMm: null })).toBe(true)
    expect(restricts({ keepOut: [], tieSpacingMm: 45 })).toBe(true)
  })
})

function railsOf(...elements: Parameters<typeof planOf>[0]) {
  const { plan } = preparePlan(planOf(elements))
  return layTrack(plan.tracks[0]!, plan)
}

describe('places along a rail', () => {
  it('lie abreast of the stations: on an arc ℓ = s·(1 − o/R) (closed form)', () => {
    const track = railsOf(arc(3000, 60, 'left'))
    const { left } = track.rails
    const [run] = dividedRail(0, { lengthMm: left.lengthMm }, [])
    const placed = withJointPlaces(run!, left, { keepOut: [bridge], tieSpacingMm: null })
    const perStation = left.lengthMm / track.lengthMm
    expect(placed.jointBy!(1200 * perStation, 0)).toBeCloseTo(900 * perStation, 6)
    expect(placed.jointBy!(1600 * perStation, 0)).toBeCloseTo(1600 * perStation, 6)
  })

  it('negative where there is none', () => {
    const track = railsOf(straight(2000))
    const [run] = dividedRail(0, { lengthMm: 2000 }, [])
    const keepOut = [{ from: -1, to: 500, reason: null }]
    expect(withJointPlaces(run!, track.rails.left, { keepOut, tieSpacingMm: null }).jointBy!(400, 0)).toBeLessThan(0)
  })

  it('each run is told of the one beside it', () => {
    const { rails } = railsOf(straight(2000))
    const runs = (rail: number) => dividedRail(rail, { lengthMm: 2000 }, [800])
    const told = sideBySide(runs(0), runs(1), rails, 6)
    expect(told.map(({ beside }) => beside!.run)).toEqual([8, 9, 6, 7])
    expect(told[1]!.beside!.stationAt(100)).toBeCloseTo(900, 9)
    expect(told[1]!.beside!.placeAt(900)).toBeCloseTo(100, 9)
  })
})

describe('joints opposite each other', () => {
  it('4000 mm of straight from 1524 mm: at the thirds (closed form)', () => {
    const { rails } = railsOf(straight(4000))
    const found = squareStations(rails, 4000, [], 1524, { keepOut: [], tieSpacingMm: null })!
    expect(found).toHaveLength(2)
    expect(found[0]).toBeCloseTo(4000 / 3, 1)
    expect(found[1]).toBeCloseTo(8000 / 3, 1)
  })

  it('null where a stretch without joints is longer than any stick', () => {
    const { rails } = railsOf(straight(4000))
    const keepOut = [{ from: 1000, to: 3000, reason: null }]
    expect(squareStations(rails, 4000, [], 1524, { keepOut, tieSpacingMm: null })).toBeNull()
  })
})

describe('mirrored plans', () => {
  const mirrored = (turn: 'left' | 'right') =>
    estimateOf(
      planOf(
        [straight(1700), arc(2500, 70, turn), straight(900)],
        { keepOut: [{ from: 1500, to: 1900 }] },
        {
          joints: { stagger: 200, betweenTies: true },
          supplies: { sticks: [{ length: 1524, price: '14.50' }], joiners: { pricePerPack: '0.90' } },
        },
      ),
    )

  it('cost the same and have as many joints', () => {
    const [left, right] = [mirrored('left'), mirrored('right')]
    expect(left.cutting.cost).not.toBeNull()
    expect(left.cutting.cost).toBe(right.cutting.cost)
    expect(left.joints).toHaveLength(right.joints.length)
  })

  it('the same plan twice gives the same bytes', () => {
    expect(JSON.stringify(mirrored('left'))).toBe(JSON.stringify(mirrored('left')))
  })
})
