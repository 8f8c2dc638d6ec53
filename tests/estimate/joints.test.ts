import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { planFaults } from '../../src/estimate/faults/faults.ts'
import type { ClimateInput, JointsInput } from '../../src/plan/rows/joints.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import { BREAK, type Break, type BreakKind, type TrackInput } from '../../src/plan/rows/track.ts'
import { arc, BRASS_250, easement, estimateOf, planOf, straight } from './plans.ts'

/** Brass, 20e-6 per K: laid at 15 °C, 40 K under the hottest the rail gets, 25 K over the coldest. */
const CLIMATE: ClimateInput = { laying: 15, coldest: -10, hottest: 35, sunAllowance: 20 }
const ALPHA = 20e-6
const RING = [arc(3000, 360)]

const BREAK_KINDS = BREAK.fields.kind.choices!.map(({ value }) => value as BreakKind)

const breakAt = (atMm: number, kind: BreakKind): Break => ({ at: atMm, kind })
const line = (found: Estimate, item: string) => found.bill.lines.find((each) => each.item === item)
const rulesIn = (found: Estimate) => found.findings.map(({ rule }) => rule)
const piecesOf = (found: Estimate) => found.cutting.sticks.flatMap(({ pieces }) => pieces)

describe('breaks', () => {
  const BREAKS = [
    breakAt(1000, 'turnout'),
    breakAt(2100, 'insulated'),
    breakAt(3300.5, 'bridge-end'),
    breakAt(4600, 'expansion-joint'),
  ]
  const divided = estimateOf(planOf([straight(1500), arc(2400, 60), straight(3000)], { breaks: BREAKS }))

  it('divide both rails where they stand', () => {
    for (const { at: atMm } of BREAKS) {
      const there = divided.joints.filter(({ stationMm }) => stationMm === atMm)
      expect(there.map(({ rail }) => rail)).toEqual(['left', 'right'])
      for (const { rail, atMm: alongMm } of there)
        expect(piecesOf(divided).filter((piece) => piece.rail === rail && piece.fromMm === alongMm)).toHaveLength(1)
    }
    expect(divided.joints.filter(({ stationMm }) => stationMm === 1000).map(({ atMm }) => atMm)).toEqual([1000, 1000])
    // By hand: the left rail is the inner one of a curve to the left, shorter by half the gauge and half the head a radian.
    const [left, right] = divided.joints.filter(({ stationMm }) => stationMm === 4600)
    const apartMm = (45 + 2.8448) * (Math.PI / 3)
    expect(right!.atMm - left!.atMm).toBeCloseTo(apartMm, 6)
  })

  it('take what belongs there: nothing of ours at a turnout, a joiner at the end of a bridge', () => {
    const [track] = divided.tracks
    const pieces = piecesOf(divided).length
    expect(track!.joints).toBe(pieces - 2)
    expect(divided.joints).toHaveLength(pieces - 2)
    expect(line(divided, 'insulated-joiner')).toMatchObject({ required: 2, unitPrice: null })
    expect(line(divided, 'expansion-joint')).toMatchObject({ required: 2 })
    expect(line(divided, 'joiner')!.required).toBe(pieces - 2 - 6)
    expect(rulesIn(divided)).not.toContain('break-joins-nothing')
  })

  it('at an end decide how it is joined, and are idle where nothing is', () => {
    const joins = { start: true, end: false }
    const ends = [breakAt(0, 'insulated'), breakAt(2000, 'expansion-joint')]
    const found = estimateOf(planOf([straight(2000)], { joinsExisting: joins, breaks: ends }))
    expect(line(found, 'insulated-joiner')!.required).toBe(2)
    expect(line(found, 'expansion-joint')).toBeUndefined()
    expect(rulesIn(found)).toEqual(['break-joins-nothing'])
    const turnout = estimateOf(planOf([straight(2000)], { breaks: [breakAt(2000, 'turnout')] }))
    expect(rulesIn(turnout)).toEqual([])
  })

  it('at station 0 of a loop say how it closes; elsewhere the loop keeps its start as a joint', () => {
    const at0 = estimateOf(planOf(RING, { closed: true, breaks: [breakAt(0, 'insulated')] }))
    expect(at0.joints.filter(({ kind }) => kind === 'closing')).toEqual([])
    expect(line(at0, 'insulated-joiner')!.required).toBe(2)
    const inside = estimateOf(planOf(RING, { closed: true, breaks: [breakAt(500, 'insulated')] }))
    expect(inside.joints.filter(({ kind }) => kind === 'closing').map(({ atMm }) => atMm)).toEqual([0, 0])
  })

  it('refuse what is not on the track, out of order, or twice', () => {
    const faultsOf = (track: Partial<TrackInput>) =>
      planFaults(planOf([straight(1000)], track)).map(({ path, code }) => `${path.join('/')} ${code}`)
    const breaks = [
      breakAt(100, 'insulated'),
      breakAt(100, 'turnout'),
      breakAt(50, 'turnout'),
      breakAt(1000.1, 'turnout'),
    ]
    expect(faultsOf({ breaks })).toEqual([
      'tracks/0/breaks/1/at out-of-order',
      'tracks/0/breaks/2/at out-of-order',
      'tracks/0/breaks/3/at out-of-range',
    ])
    expect(faultsOf({ breaks: [breakAt(0, 'turnout'), breakAt(1000, 'turnout')] })).toEqual([])
    expect(faultsOf({ closed: true, breaks: [breakAt(1000, 'insulated')] })).toEqual([
      'tracks/0/breaks/0/at out-of-range',
    ])
  })
})

describe('gaps', () => {
  const inWeather = (
    elements: Parameters<typeof planOf>[0],
    track: Partial<TrackInput> = {},
    joints: JointsInput = {},
  ) => estimateOf(planOf(elements, track, { climate: CLIMATE, joints }))

  it('are null without the weather, and nothing is assumed of what only matters in it', () => {
    const found = estimateOf(planOf([straight(4000)]))
    expect(found.expansion).toBeNull()
    expect(found.joints[0]).toMatchObject({ kind: 'joiner', gapMm: null, gapInch64: null, gapHottestMm: null })
    expect(found.assumptions.map(({ field }) => field).filter((field) => /climate|joints/.test(field))).toEqual([
      '/joints/stagger',
    ])
  })

  it('are what half of each piece grows from laying to the hottest', () => {
    // By hand: pieces of 1524 mm on either side, 20e-6 × 1524 × 40 K = 1.2192 mm, which is 3/64 in; 65 K: 1.9812 mm.
    const found = inWeather([straight(4 * 1524 + 3 * 1.2192)])
    const [first] = found.joints
    expect(first).toMatchObject({ track: 'main', rail: 'left', kind: 'joiner' })
    expect(first!.atMm).toBeCloseTo(1524 + 1.2192 / 2, 9)
    expect(first!.stationMm).toBeCloseTo(1524 + 1.2192 / 2, 9)
    expect(first!.gapMm).toBeCloseTo(1.2192, 9)
    expect(first!.gapInch64).toBe('3/64 in')
    expect(first!.gapColdestMm).toBeCloseTo(1.9812, 9)
    expect(first!.gapHottestMm).toBe(0)
    // Whole sticks stay whole.
    expect(found.cutting.sticks).toHaveLength(8)
    expect(found.cutting.wasteMm).toBeCloseTo(0, 6)
  })

  it('shorten a piece by what it needs itself, whatever its neighbours', () => {
    const breaks = [breakAt(1000, 'insulated'), breakAt(1300, 'insulated')]
    const found = inWeather([straight(2300)], { breaks }, { insulatorThickness: 2 })
    const lengths = piecesOf(found)
      .filter(({ rail }) => rail === 'left')
      .sort((a, b) => a.fromMm - b.fromMm)
      .map(({ lengthMm }) => lengthMm)
    // By hand: 1 mm at each insulator, and 4e-4 of the piece for each of its gaps.
    const [outer, inner] = [999 / 1.0004, 298 / 1.0008]
    expect(lengths).toEqual([outer, inner, outer].map((mm) => expect.closeTo(mm, 6)))
    expect(found.joints[0]!.gapMm).toBeCloseTo(2 + 4e-4 * (outer + inner), 9)
  })

  it('an insulated joint keeps its insulator at the hottest, and is not too wide for it', () => {
    const breaks = [breakAt(1524, 'insulated')]
    const found = inWeather([straight(3048)], { breaks }, { insulatorThickness: 2, gapLimit: 1.99 })
    expect(found.joints[0]!.gapHottestMm).toBe(2)
    expect(found.joints[0]!.gapMm).toBeCloseTo(2 + (20e-6 * 40 * 1523) / 1.0004, 9)
    expect(rulesIn(found)).toEqual([])
    expect(rulesIn(inWeather([straight(3048)], { breaks }, { gapLimit: 1.97 }))).toEqual(['gap-too-wide'])
  })

  it('too wide for a joiner are found, with the longest piece that will do', () => {
    const sticks = [{ length: 3000 }]
    const plan = planOf([straight(3 * 3000 + 2 * 2.4)], {}, { climate: CLIMATE, supplies: { sticks } })
    const [finding] = estimateOf(plan).findings
    // By hand: 20e-6 × 3000 × 65 K = 3.9 mm against 2.5; 2.5 / (20e-6 × 65) = 1923 mm.
    expect(finding).toMatchObject({ rule: 'gap-too-wide', severity: 'warn', limit: 2.5, unit: 'mm', track: 'main' })
    expect(finding!.measured).toBeCloseTo(3.9, 9)
    expect(finding!.cure).toContain('1923 mm')
  })

  it('laid hotter or colder than it ever gets: no gap, or a warning', () => {
    const laid = (layingC: number) =>
      estimateOf(planOf([straight(3048)], {}, { climate: { ...CLIMATE, laying: layingC } }))
    const hot = laid(60)
    expect(rulesIn(hot)).toEqual(['laid-too-hot'])
    expect(hot.joints[0]!.gapMm).toBe(0)
    expect(hot.joints[0]!.gapHottestMm).toBeCloseTo(ALPHA * 1524 * 5, 9)
    expect(rulesIn(laid(-11))).toEqual(['laid-too-cold'])
    expect(rulesIn(laid(55))).toEqual([])
    expect(rulesIn(laid(-10))).toEqual([])
  })

  it('where tracks of the plan meet, half of the piece beyond counts, whichever way round it is drawn', () => {
    const sticks = [{ length: 2000 }]
    const meeting = (turned: boolean) => {
      const second = turned
        ? { name: 'b', start: { x: 3000, y: 0, heading: 180 }, elements: [straight(1200)] }
        : { name: 'b', start: { x: 1800, y: 0, heading: 0 }, elements: [straight(1200)] }
      const plan = planOf([straight(1800)], {}, { climate: CLIMATE, supplies: { sticks } })
      return estimateOf({ ...plan, tracks: [...plan.tracks, second] })
    }
    for (const found of [meeting(false), meeting(true)]) {
      const gaps = found.joints.map(({ kind, gapMm }) => [kind, gapMm!.toFixed(9)])
      // By hand: only the second track is cut for the gap, half of what it grows.
      const expected = (ALPHA * ((1800 + 1200 / 1.0004) / 2) * 40).toFixed(9)
      expect(gaps).toEqual([
        ['join', expected],
        ['join', expected],
      ])
    }
  })

  it('left goes on as left where a track is drawn on, as right where it is drawn towards the other', () => {
    const bent = [arc(1500, 40)]
    const alone = estimateOf(planOf(bent)).tracks[0]!
    const { xMm: x, yMm: y, headingDeg: heading } = alone.end
    const towards = { x: x + 900 * Math.cos((40 * Math.PI) / 180), y: y + 900 * Math.sin((40 * Math.PI) / 180) }
    const on = { name: 'b', start: { x, y, heading }, elements: [straight(900)] }
    const back = { name: 'b', start: { ...towards, heading: heading + 180 }, elements: [straight(900)] }
    const gapOf = (second: TrackInput, side: 'left' | 'right') => {
      // Sticks long enough for each rail, and too short for anything else beside it.
      const plan = planOf(bent, {}, { climate: CLIMATE, supplies: { sticks: [{ length: 1100 }] } })
      return estimateOf({ ...plan, tracks: [...plan.tracks, second] }).joints.find(({ rail }) => rail === side)!.gapMm
    }
    // By hand: half of 900 mm and half of the rail of the curve that goes on, 40 K.
    const expected = (railMm: number) => (ALPHA * 40 * (900 / 1.0004 + railMm)) / 2
    const { left, right } = alone.rails
    expect(right.lengthMm - left.lengthMm).toBeGreaterThan(30)
    expect(gapOf(on, 'left')).toBeCloseTo(expected(left.lengthMm), 9)
    expect(gapOf(on, 'right')).toBeCloseTo(expected(right.lengthMm), 9)
    expect(gapOf(back, 'left')).toBeCloseTo(expected(right.lengthMm), 9)
    expect(gapOf(back, 'right')).toBeCloseTo(expected(left.lengthMm), 9)
  })

  it('do not make a piece that was just long enough too short: the one before lends it a little more', () => {
    // Trimmed pieces are laid stick after stick, the last of them just over the shortest piece.
    const bender = { span: 80, outerRollerRadius: 6, bearsOn: 'head', mode: 'rolled', ends: 'trim' } as const
    const found = estimateOf(planOf([straight(1524 + 75.1), arc(1500, 3)], {}, { climate: CLIMATE, bender }))
    expect(rulesIn(found)).not.toContain('piece-too-short')
    const shortest = Math.min(...piecesOf(found).map(({ lengthMm }) => lengthMm))
    expect(shortest).toBeGreaterThanOrEqual(150)
    expect(shortest).toBeLessThan(160)
  })

  it('a metal whose expansion is unknown leaves them open and says so', () => {
    const material = { youngsModulusGpa: 100, yieldMpa: 300, hardening: { model: 'perfectly-plastic' } } as const
    const found = estimateOf(planOf([straight(4000)], {}, { rail: { section: '250', material }, climate: CLIMATE }))
    expect(rulesIn(found)).toEqual(['expansion-unknown'])
    expect(found.joints[0]!.gapMm).toBeNull()
    expect(found.expansion).toMatchObject({ expansionPerK: null, heldStressHottestMpa: null, longestLengthMm: null })
  })

  it('lists its defaults, and whose expansion is taken for an unknown temper', () => {
    const { sunAllowance, ...climate } = CLIMATE
    expect(sunAllowance).toBe(20)
    const rail = { section: '250', material: 'brass' }
    const { assumptions } = estimateOf(planOf([straight(1000)], {}, { rail, climate }))
    const fields = assumptions.map(({ field }) => field)
    expect(fields).toEqual(expect.arrayContaining(['/climate/sunAllowance', '/joints/kind', '/joints/gapLimit']))
    expect(fields).not.toContain('/joints/insulatorThickness')
    expect(assumptions.filter(({ field, value }) => field === '/rail/temper' && value.includes('20.0'))).toHaveLength(1)
  })

  it('refuses a coldest hotter than the hottest, and held rail that slides', () => {
    const faults = planFaults(
      planOf([straight(1)], {}, { climate: { laying: 1, coldest: 5, hottest: 4 }, joints: { held: true } }),
    )
    expect(faults.map(({ path, code }) => `${path.join('/')} ${code}`)).toEqual([
      'climate/coldest contradictory',
      'joints/held contradictory',
    ])
  })
})

describe('clamped rail', () => {
  const clamped = (elements: Parameters<typeof planOf>[0], track: Partial<TrackInput> = {}, joints: JointsInput = {}) =>
    estimateOf(planOf(elements, track, { climate: CLIMATE, joints: { kind: 'clamped', ...joints } }))

  it('has gaps only where it ends, and moves as one between', () => {
    const found = clamped([straight(12_000)], { breaks: [breakAt(7000, 'expansion-joint')] })
    // By hand: half of 7 m and half of 5 m move to the joint, 20e-6 × 6000 × 40 K = 4.8 mm, of rail so much shorter.
    for (const { kind, gapMm } of found.joints) expect(gapMm).toBeCloseTo(kind === 'expansion' ? 4.8 / 1.0004 : 0, 9)
    expect(found.expansion!.lengths.map(({ fromMm, toMm }) => [fromMm, toMm])).toEqual([
      [0, 7000],
      [7000, 12_000],
    ])
    // By hand: 10 mm / (20e-6 × 65 K) = 7692.3 mm.
    expect(found.expansion!.longestLengthMm).toBeCloseTo(7692.307692, 5)
    expect(rulesIn(found)).toEqual([])
  })

  it('too long for its expansion joints is told where more must go, and there they do', () => {
    const without = clamped([straight(9000), arc(4000, 45), straight(9000), arc(3000, 30, 'right')])
    expect(rulesIn(without)).toContain('expansion-joint-missing')
    const stations = without.expansion!.lengths[0]!.expansionJointsAtMm!
    // By hand: 22.7 m of rail, at most 7.69 m each, are three lengths.
    expect(stations).toHaveLength(2)
    const breaks = stations.map((atMm) => breakAt(atMm, 'expansion-joint'))
    const cured = clamped([straight(9000), arc(4000, 45), straight(9000), arc(3000, 30, 'right')], { breaks })
    expect(rulesIn(cured)).not.toContain('expansion-joint-missing')
    expect(rulesIn(cured)).not.toContain('gap-too-wide')
  })

  it('as a ring breathes and needs no joint; one joint in it takes all it grows', () => {
    const ring = clamped(RING, { closed: true })
    expect(ring.joints.map(({ gapMm }) => gapMm)).toEqual(ring.joints.map(() => 0))
    expect(rulesIn(ring)).not.toContain('expansion-joint-missing')
    // By hand: 20e-6 × 3000 × 40 K = 2.4 mm out, 25 K: 1.5 mm in.
    expect(ring.expansion!.breathing).toHaveLength(1)
    expect(ring.expansion!.breathing[0]!.outwardMm).toBeCloseTo(2.4, 9)
    expect(ring.expansion!.breathing[0]!.inwardMm).toBeCloseTo(1.5, 9)
    const cut = clamped(RING, { closed: true, breaks: [breakAt(4000, 'expansion-joint')] })
    const joint = cut.joints.find(({ kind, rail }) => kind === 'expansion' && rail === 'left')!
    expect(joint.gapMm).toBeCloseTo((ALPHA * cut.tracks[0]!.rails.left.lengthMm * 40) / 1.0008, 9)
    expect(rulesIn(cut)).toContain('expansion-joint-missing')
  })

  it('round a loop runs over its start: the lengths make up its rails', () => {
    for (const places of [[4000], [0], [0, 9000], [4000, 9000, 17_000]]) {
      const breaks = places.map((atMm) => breakAt(atMm, 'expansion-joint'))
      const { expansion, tracks } = clamped(RING, { closed: true, breaks })
      const total = (side: 'leftMm' | 'rightMm') => expansion!.lengths.reduce((sum, each) => sum + each[side], 0)
      expect(expansion!.lengths).toHaveLength(places.length)
      expect(total('leftMm')).toBeCloseTo(tracks[0]!.rails.left.lengthMm, 6)
      expect(total('rightMm')).toBeCloseTo(tracks[0]!.rails.right.lengthMm, 6)
      expect(expansion!.lengths.every(({ leftMm }) => leftMm > 0)).toBe(true)
    }
  })

  it('held has no gaps but stress, and can buckle', () => {
    const held = clamped([straight(6000)], {}, { held: true })
    expect(held.joints.map(({ gapMm }) => gapMm)).toEqual(held.joints.map(() => 0))
    const { heldStressHottestMpa, heldStressColdestMpa, heldForceHottestN, bucklingLengthMm } = held.expansion!
    // By hand: 110 300 MPa × 20e-6 × 40 K = 88.24 MPa; 25 K: 55.15 MPa.
    expect(heldStressHottestMpa).toBeCloseTo(88.24, 9)
    expect(heldStressColdestMpa).toBeCloseTo(55.15, 9)
    const { areaMm2, lateralSecondMomentMm4 } = held.rail.sectionProperties
    expect(heldForceHottestN).toBeCloseTo(88.24 * areaMm2, 6)
    // Closed form: Euler's load of a column of that length with pinned ends is the held force.
    const eulerN = (Math.PI ** 2 * 110_300 * lateralSecondMomentMm4) / bucklingLengthMm! ** 2
    expect(eulerN).toBeCloseTo(heldForceHottestN!, 6)
    expect(rulesIn(held)).toEqual(['held-rail-can-buckle'])
    expect(held.cautions.join()).toContain('spring sideways')
    expect(held.expansion!.lengths).toEqual([])
    expect(rulesIn(clamped([arc(4000, 90)], {}, { held: true }))).not.toContain('held-rail-can-buckle')
  })

  it('with figures that cannot be meant lists no thousands of joints', () => {
    const found = clamped([straight(100_000)], {}, { expansionJointLimit: 0.01 })
    expect(found.expansion!.lengths[0]!.expansionJointsAtMm).toBeNull()
    expect(rulesIn(found)).toEqual(['expansion-joint-missing'])
  })
})

describe('any plan in any weather', () => {
  const element = fc.oneof(
    fc.double({ min: 600, max: 5000, noNaN: true }).map(straight),
    fc
      .tuple(
        fc.double({ min: 800, max: 9000, noNaN: true }),
        fc.double({ min: 40, max: 200, noNaN: true }),
        fc.boolean(),
      )
      .map(([radiusMm, angle, left]) => arc(radiusMm, angle, left ? 'left' : 'right')),
  )
  const plans: fc.Arbitrary<PlanInput> = fc
    .record({
      elements: fc.array(element, { minLength: 1, maxLength: 5 }),
      eased: fc.boolean(),
      closed: fc.boolean(),
      joins: fc.record({ start: fc.boolean(), end: fc.boolean() }),
      shares: fc.uniqueArray(fc.tuple(fc.integer({ min: 0, max: 99 }), fc.constantFrom(...BREAK_KINDS)), {
        maxLength: 4,
        selector: ([share]) => share,
      }),
      climate: fc.record({
        laying: fc.integer({ min: -20, max: 70 }),
        coldest: fc.integer({ min: -30, max: 0 }),
        hottest: fc.integer({ min: 20, max: 40 }),
      }),
      joints: fc.constantFrom<JointsInput>({}, { kind: 'clamped' }, { kind: 'clamped', held: true }),
      stickMm: fc.constantFrom(900, 1524, 1828.8, 2500),
      kerf: fc.constantFrom(0, 1, 2.5),
    })
    .map(({ elements, eased, closed, joins, shares, climate, joints, stickMm, kerf }) => {
      const all = eased && elements.at(-1)!.kind === 'arc' ? [...elements, easement(300)] : elements
      const track = { closed, ...(closed ? {} : { joinsExisting: joins }) }
      const supplies = { sticks: [{ length: stickMm, price: '9.00' }], kerf }
      const bare = planOf(all, track, { rail: BRASS_250, climate, joints, supplies })
      const easable = planFaults(bare).length === 0 ? bare : planOf(elements, track, { climate, joints, supplies })
      const lengthMm = estimateOf({ rail: BRASS_250, tracks: easable.tracks }).tracks[0]!.lengthMm
      const breaks = shares.sort(([a], [b]) => a - b).map(([share, kind]) => breakAt((lengthMm * share) / 100, kind))
      return { ...easable, tracks: [{ ...easable.tracks[0]!, breaks }] }
    })

  /** A run that ends in an insulator, where sums of lengths come out a little short of its end. */
  const WITH_INSULATOR = {
    rail: { section: '250', material: 'brass', temper: 'half-hard' },
    standards: { minimumTangentBetweenReverseCurves: 0 },
    tracks: [
      {
        name: 'main',
        closed: false,
        joinsExisting: { start: true, end: true },
        elements: [{ kind: 'tangent' as const, length: 4712.342578599879 }],
        breaks: [{ at: 3157.2695276619183, kind: 'insulated' as const }],
      },
    ],
    climate: { laying: 5, coldest: 0, hottest: 40 },
    joints: {},
    supplies: { sticks: [{ length: 2500, price: '9.00' }], kerf: 0 },
  }

  it('its pieces and gaps make up its rails, its sticks come out even, and its joints are counted', () => {
    fc.assert(
      fc.property(plans, (plan) => {
        const result = estimate(plan)
        if (!result.ok) throw new Error(JSON.stringify(result.faults))
        const { tracks, cutting, joints, bill, findings } = result.estimate
        const track = tracks[0]!
        const minimumMm = 150
        for (const rail of ['left', 'right'] as const) {
          const pieces = piecesOf(result.estimate)
            .filter((piece) => piece.rail === rail)
            .sort((a, b) => a.fromMm - b.fromMm)
          const own = joints.filter((joint) => joint.rail === rail)
          const piecesMm = pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
          const gapsMm = own.reduce((sum, { gapMm }) => sum + gapMm!, 0)
          expect(piecesMm + gapsMm).toBeCloseTo(track.rails[rail].lengthMm, 5)
          // Between a piece and the next there is nothing but the gap of the joint that stands between them.
          for (let n = 1; n < pieces.length; n++) {
            const endMm = pieces[n - 1]!.fromMm + pieces[n - 1]!.lengthMm
            const joint = own.find(({ atMm }) => atMm >= endMm - 1e-6 && atMm <= pieces[n]!.fromMm + 1e-6)
            expect(pieces[n]!.fromMm - endMm).toBeCloseTo(joint!.gapMm!, 5)
          }
          for (const { bends, lengthMm } of pieces)
            for (const { fromMm, toMm } of bends) {
              expect(fromMm).toBeGreaterThanOrEqual(0)
              expect(toMm).toBeLessThanOrEqual(lengthMm + 1e-6)
            }
          if (!findings.some(({ rule }) => rule === 'piece-too-short'))
            for (const { lengthMm } of pieces) expect(lengthMm).toBeGreaterThanOrEqual(minimumMm - 1e-6)
        }
        for (const { lengthMm, kerfMm, trimMm, offcutMm, pieces } of cutting.sticks) {
          const piecesMm = pieces.reduce((sum, piece) => sum + piece.lengthMm, 0)
          expect(piecesMm + kerfMm + trimMm + offcutMm).toBeCloseTo(lengthMm, 5)
          expect(offcutMm).toBeGreaterThanOrEqual(0)
        }
        const ends = track.closure ? 2 : 2 * Object.values(plan.tracks[0]!.joinsExisting ?? {}).filter(Boolean).length
        expect(track.joints).toBe(piecesOf(result.estimate).length - 2 + ends)
        expect(joints).toHaveLength(track.joints)
        const required = (item: string) => bill.lines.find((each) => each.item === item)?.required ?? 0
        const turnouts = joints.filter(({ kind }) => kind === 'turnout').length
        expect(required('joiner') + required('insulated-joiner') + required('expansion-joint') + turnouts).toBe(
          track.joints,
        )
        for (const { gapMm, gapColdestMm, gapHottestMm } of joints) {
          expect(gapHottestMm!).toBeGreaterThanOrEqual(0)
          expect(gapColdestMm!).toBeGreaterThanOrEqual(gapHottestMm! - 1e-12)
          expect(gapMm!).toBeGreaterThanOrEqual(0)
        }
        expect(joints).toEqual(joints.toSorted((a, b) => a.stationMm - b.stationMm || a.rail.localeCompare(b.rail)))
      }),
      { numRuns: 150, examples: [[WITH_INSULATOR]] },
    )
  })
})

it('a joint stays half a joiner away from a stretch without joints', () => {
  // by hand: 3000 from sticks of 1524: a joint between 1476 and 1524, so before 1500 by half of the joiner
  const first = (length: number) => {
    const supplies = { sticks: [{ length: 1524 }], joiners: { length } }
    const { cutting } = estimateOf(planOf([straight(3000)], { keepOut: [{ from: 1500, to: 1600 }] }, { supplies }))
    const pieces = cutting.sticks.flatMap((stick) => stick.pieces)
    return pieces.filter(({ fromMm }) => fromMm === 0).map(({ lengthMm }) => lengthMm)
  }
  expect(first(0)).toEqual([expect.closeTo(1500, 6), expect.closeTo(1500, 6)])
  expect(first(30)).toEqual([expect.closeTo(1485, 6), expect.closeTo(1485, 6)])
})
