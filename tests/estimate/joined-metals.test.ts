import { describe, expect, it } from 'vitest'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { TrackInput } from '../../src/plan/rows/track.ts'
import { arc, estimateOf, planOf, straight } from './plans.ts'

/** Published, per kelvin: brass 20.0, aluminium 23.4, stainless 17.3 millionths (tests/published/metals.test.ts). */
const ALPHA = { brass: 20e-6, aluminium: 23.4e-6, stainless: 17.3e-6 } as const

const CLIMATE = { laying: 20, coldest: -10, hottest: 35, sunAllowance: 25 }

/** The joints of one brass track that joins this at its start and its end. */
function jointsOf(joinsExisting: TrackInput['joinsExisting'], joints: PlanInput['joints'] = {}) {
  const plan = planOf(
    [straight(4000), arc(3000, 30)],
    { joinsExisting },
    {
      rail: { section: '250', material: 'brass', temper: 'half-hard' },
      climate: CLIMATE,
      joints,
    },
  )
  return estimateOf(plan).joints
}

const atEnds = (joints: ReturnType<typeof jointsOf>) => {
  const lastMm = Math.max(...joints.map(({ stationMm }) => stationMm))
  return {
    start: joints.filter(({ stationMm }) => stationMm < 1e-6),
    end: joints.filter(({ stationMm }) => stationMm > lastMm - 1e-6),
    between: joints.filter(({ stationMm }) => stationMm >= 1e-6 && stationMm <= lastMm - 1e-6),
  }
}

describe('a join with rail of another metal', () => {
  // Closed form: as much rail on each side, so the gap is (α₁ + α₂)/2α₁ of that between rails of one metal.
  it.each([
    ['sliding joiners', {}],
    ['clamped rail', { kind: 'clamped' }],
  ] as const)('the gap has the expansion of both rails: %s', (_, how) => {
    const alike = atEnds(jointsOf({ start: true, end: true }, how))
    const mixed = atEnds(
      jointsOf(
        { start: { section: '250', material: 'aluminium' }, end: { section: '250', material: 'stainless' } },
        how,
      ),
    )
    const ratio = (metal: 'aluminium' | 'stainless') => (ALPHA.brass + ALPHA[metal]) / (2 * ALPHA.brass)
    for (const [end, metal] of [
      ['start', 'aluminium'],
      ['end', 'stainless'],
    ] as const) {
      expect(mixed[end]).toHaveLength(2)
      for (const [n, joint] of mixed[end].entries()) {
        const other = alike[end][n]!
        expect(other.gapMm!).toBeGreaterThan(0.1)
        expect(joint.gapMm! / other.gapMm!).toBeCloseTo(ratio(metal), 9)
        expect(joint.gapColdestMm! / other.gapColdestMm!).toBeCloseTo(ratio(metal), 9)
        expect(joint.gapHottestMm!).toBeCloseTo(0, 9)
      }
    }
  })

  it('by hand: 1 m of brass and 1 m of aluminium, 40 K below the hottest', () => {
    const plan = planOf(
      [straight(1000)],
      { joinsExisting: { end: { section: '250', material: 'aluminium' } } },
      {
        rail: { section: '250', material: 'brass', temper: 'half-hard' },
        climate: CLIMATE,
      },
    )
    // (20.0 + 23.4)·10⁻⁶ × 500 mm × 40 K = 0.868 mm, less what the gap itself takes off the metre
    const laidMm = 1000 / (1 + 0.5 * ALPHA.brass * 40)
    for (const { gapMm } of estimateOf(plan).joints)
      expect(gapMm).toBeCloseTo((ALPHA.brass + ALPHA.aluminium) * (laidMm / 2) * 40, 9)
    expect((ALPHA.brass + ALPHA.aluminium) * 500 * 40).toBeCloseTo(0.868, 9)
  })

  it('leaves all other joints as they are, and all where the metal is the same', () => {
    const alike = jointsOf({ start: true, end: true })
    expect(atEnds(jointsOf({ start: { section: '250', material: 'aluminium' }, end: true })).between).toEqual(
      atEnds(alike).between,
    )
    expect(
      jointsOf({ start: { section: '250', material: 'brass' }, end: { section: '332', material: 'brass' } }),
    ).toEqual(alike)
  })
})
