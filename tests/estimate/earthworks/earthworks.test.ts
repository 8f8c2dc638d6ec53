import { describe, expect, test } from 'vitest'
import { readPlan } from '../../../src/estimate/read-plan.ts'
import { worked } from '../worked.ts'

const GROUND = [
  { at: 0, elevation: 0 },
  { at: 4000, elevation: 200 },
  { at: 8000, elevation: -200 },
]

function planWith(track: object = {}, more: object = {}) {
  return {
    rail: { section: '250', material: 'brass' },
    tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: 8000 }], ground: GROUND, ...track }],
    ...more,
  }
}

const earthworksIn = (plan: unknown) => worked(plan).tracks[0]!.earthworks!
const faultsIn = (plan: unknown) => {
  const read = readPlan(plan)
  return read.ok ? [] : read.faults.map(({ path, code }) => `/${path.join('/')} ${code}`)
}

describe('cut and fill of a track', () => {
  test('by hand: level at 0 through a hill of 200 mm and a dip of 200 mm', () => {
    const { stretches, formation, cutL, fillL, cutBarrows, fillBarrows, balance } = earthworksIn(planWith())
    expect(formation).toEqual({ widthMm: 250, depthMm: 0, cutSlope: 1, fillSlope: 1.5 })
    // A triangle 6 m long and 200 mm deep: ∫h = 6000·100, ∫h² = 6000·200²/3; then one 2 m long.
    const cut = (250 * 6000 * 100 + (6000 * 200 ** 2) / 3) * 1e-6
    const fill = (250 * 2000 * 100 + (1.5 * (2000 * 200 ** 2)) / 3) * 1e-6
    expect(cutL).toBeCloseTo(cut, 9)
    expect(fillL).toBeCloseTo(fill, 9)
    expect(
      stretches.map(({ kind, fromMm, toMm, greatestMm, greatestAtMm }) => [
        kind,
        fromMm,
        toMm,
        greatestMm,
        greatestAtMm,
      ]),
    ).toEqual([
      ['cut', 0, 6000, 200, 4000],
      ['fill', 6000, 8000, 200, 8000],
    ])
    expect(stretches.map(({ widestMm }) => widestMm)).toEqual([650, 850])
    expect([cutBarrows, fillBarrows]).toEqual([Math.ceil((cut * 1.25) / 80), Math.ceil((fill * 1.25) / 80)])
    // More cut than fill: the profile has to rise.
    expect(balance.shiftMm).toBeGreaterThan(0)
  })

  test('a plan shifted by the balance has as much cut as fill, and nothing left to shift', () => {
    const { balance } = earthworksIn(planWith())
    const shifted = earthworksIn(planWith({ start: { elevation: balance.shiftMm } }))
    expect(shifted.cutL).toBeCloseTo(balance.volumeL, 6)
    expect(shifted.fillL).toBeCloseTo(balance.volumeL, 6)
    expect(shifted.balance.shiftMm).toBeCloseTo(0, 8)
  })

  test('the bed of ballast gives the formation, and says so', () => {
    const tie = { length: 110, width: 15, height: 12 }
    const roadbed = { kind: 'raised', crownWidth: 160, depthUnderTie: 50, shoulderSlope: 1, tie }
    const { tracks, assumptions } = worked(planWith({}, { roadbed }))
    // 0.25 in of rail, 12 mm of tie, 50 mm of ballast; 160 + 2·62 wide at its bottom.
    expect(tracks[0]!.earthworks!.formation).toEqual({
      widthMm: 284,
      depthMm: expect.closeTo(6.35 + 62, 6),
      cutSlope: 1,
      fillSlope: 1.5,
    })
    const own = assumptions.filter(({ field }) => field.startsWith('/earthworks'))
    expect(own.map(({ field }) => field.split('/')[2])).toEqual([
      'fillSlope',
      'swellPct',
      'barrowL',
      'formationWidth',
      'formationDepth',
      'cutSlope',
    ])
    const trench = { kind: 'trench', crownWidth: 200, depthUnderTie: 80 }
    expect(earthworksIn(planWith({}, { roadbed: trench })).formation).toMatchObject({ widthMm: 200, cutSlope: 0 })
    const earthworks = {
      formationWidth: 300,
      formationDepth: 10,
      cutSlope: 0.5,
      fillSlope: 2,
      swellPct: 0,
      barrowL: 50,
    }
    const given = worked(planWith({}, { roadbed, earthworks }))
    expect(given.tracks[0]!.earthworks!.formation).toEqual({ widthMm: 300, depthMm: 10, cutSlope: 0.5, fillSlope: 2 })
    expect(given.assumptions.filter(({ field }) => field.startsWith('/earthworks'))).toEqual([])
  })

  test('without ground a plan says nothing of it, with settings or without', () => {
    const without = worked(planWith({ ground: [] }))
    expect(without.tracks[0]).not.toHaveProperty('earthworks')
    expect(worked(planWith({ ground: [] }, { earthworks: { barrowL: 60 } }))).toEqual(without)
    expect(without.cautions.filter((caution) => /^(Digging|Rock|Retaining)/.test(caution))).toEqual([])
  })

  test('cautions for digging, and for banks over a metre', () => {
    const cautions = (plan: unknown) =>
      worked(plan).cautions.flatMap((caution) => /^(Digging|Rock|Retaining walls)/.exec(caution)?.[0] ?? [])
    expect(cautions(planWith())).toEqual(['Digging', 'Rock'])
    const cliff = GROUND.map(({ at, elevation }) => ({ at, elevation: 6 * elevation }))
    expect(cautions(planWith({ ground: cliff }))).toEqual(['Digging', 'Rock', 'Retaining walls'])
    const onTheGround = [
      { at: 0, elevation: 0 },
      { at: 8000, elevation: 0 },
    ]
    expect(cautions(planWith({ ground: onTheGround }))).toEqual([])
    expect(earthworksIn(planWith({ ground: onTheGround }))).toMatchObject({
      stretches: [],
      cutL: 0,
      balance: { shiftMm: 0 },
    })
  })

  test('track that is there already is not dug', () => {
    const plan = planWith()
    const tracks = [{ ...plan.tracks[0]!, name: 'old', state: 'existing' }, plan.tracks[0]!]
    const answers = worked({ ...plan, tracks }).tracks
    expect(answers.map((track) => 'earthworks' in track)).toEqual([false, true])
  })

  test('a step in the ground, such as a wall, ends one stretch and begins another', () => {
    const ground = [
      { at: 0, elevation: 100 },
      { at: 3000, elevation: 100 },
      { at: 3000, elevation: -50 },
      { at: 8000, elevation: -50 },
    ]
    const { stretches } = earthworksIn(planWith({ ground }))
    expect(stretches.map(({ kind, fromMm, toMm, greatestMm }) => [kind, fromMm, toMm, greatestMm])).toEqual([
      ['cut', 0, 3000, 100],
      ['fill', 3000, 8000, 50],
    ])
  })

  test('wrong grounds, all at once', () => {
    const at = (...stations: number[]) => stations.map((station) => ({ at: station, elevation: 0 }))
    expect(faultsIn(planWith({ ground: at(0, 5000, 4000, 9000) }))).toEqual([
      '/tracks/0/ground/2/at out-of-order',
      '/tracks/0/ground/3/at out-of-range',
    ])
    expect(faultsIn(planWith({ ground: at(0, 5000, 5000, 5000) }))).toEqual(['/tracks/0/ground/3/at contradictory'])
    expect(faultsIn(planWith({ ground: at(5000, 5000) }))).toEqual(['/tracks/0/ground too-few'])
    expect(faultsIn(planWith({ ground: at(5000) }, { earthworks: { barrowL: 0 } }))).toEqual([
      '/earthworks/barrowL out-of-range',
      '/tracks/0/ground too-few',
    ])
    expect(faultsIn(planWith({ ground: Array.from({ length: 2001 }, (_, n) => ({ at: n, elevation: 0 })) }))).toEqual([
      '/tracks/0/ground too-many',
    ])
  })
})
