import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { metalOfTemper } from '../../src/bending/metal.ts'
import { rectanglesOf, sectionProperties } from '../../src/bending/section-properties.ts'
import { forming, restingRadiusMm } from '../../src/bending/springback.ts'
import { MATERIALS } from '../../src/catalogue/materials.ts'
import { SECTIONS } from '../../src/catalogue/sections.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { planFaults } from '../../src/estimate/faults/faults.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import type { BenderInput } from '../../src/plan/rows/bender.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import type { RailInput } from '../../src/plan/rows/rail.ts'
import { arc, easement, estimateOf, planOf, straight } from './plans.ts'

const ROLLERS: BenderInput = { span: 100, outerRollerRadius: 12.7, bearsOn: 'foot', mode: 'rolled' }
const rail = (material: string, temper?: string): RailInput => ({ section: '250', material, temper })
const bendOf = (plan: Partial<PlanInput>, radiusMm = 2438.4) =>
  estimateOf(planOf([straight(500), arc(radiusMm, 60), straight(500)], {}, plan)).bends[0]!

const section250 = sectionProperties(rectanglesOf(SECTIONS.find(({ id }) => id === '250')!))
const temperOf = (material: string, id: string) =>
  metalOfTemper(MATERIALS.find((row) => row.id === material)!.tempers.find((row) => row.id === id)!)

describe('how far to bend', () => {
  it('round trip: bent to the answered radius and released, the rail has the wanted one', () => {
    const tempers = MATERIALS.flatMap(({ id, tempers }) => tempers.map((temper) => [id, temper.id] as const))
    fc.assert(
      fc.property(
        fc.constantFrom(...tempers),
        fc.double({ min: 300, max: 20_000, noNaN: true }),
        ([material, temper], radiusMm) => {
          const { forming: answer, radiusMm: wantedMm } = bendOf({ rail: rail(material, temper) }, radiusMm)
          const rested = restingRadiusMm(section250, temperOf(material, temper), answer.formingRadiusMm!)!
          expect(Math.abs(rested / wantedMm - 1)).toBeLessThan(1e-9)
          expect(answer.band.lowMm).toBeLessThan(answer.formingRadiusMm!)
          expect(answer.band.highMm).toBeGreaterThan(answer.formingRadiusMm!)
          expect(answer.overbendRatio).toBeCloseTo(wantedMm / answer.formingRadiusMm!, 9)
          expect(answer.basis).toBe(temper)
        },
      ),
      { numRuns: 60 },
    )
  })

  it('monotone: the tighter the curve, the tighter the forming radius', () => {
    const radii = [600, 900, 1500, 2500, 5000].map(
      (r) => bendOf({ rail: rail('brass', 'half-hard') }, r).forming.formingRadiusMm!,
    )
    expect(radii).toEqual([...radii].sort((a, b) => a - b))
  })

  it('the inner rail is formed tighter than the outer', () => {
    const [outer, inner] = estimateOf(planOf([arc(2000, 60)])).bends
    expect(inner!.forming.formingRadiusMm!).toBeLessThan(outer!.forming.formingRadiusMm!)
  })

  it('without a temper: the range over the tempers, no single figure, and a request for a test bend', () => {
    const plan = planOf([arc(2438.4, 60)], {}, { rail: rail('brass') })
    const { bends, findings } = estimateOf(plan)
    const { forming: answer } = bends[0]!
    expect(answer).toMatchObject({
      basis: null,
      formingRadiusMm: null,
      momentNm: null,
      machine: null,
      noMachine: 'no-rollers',
    })
    expect(answer.tempers.map(({ temper }) => temper)).toEqual(MATERIALS[0]!.tempers.map(({ id }) => id))
    const radii = answer.tempers.map(({ formingRadiusMm }) => formingRadiusMm)
    expect(answer.band).toEqual({ lowMm: Math.min(...radii), highMm: Math.max(...radii) })
    // Sprung in, the rail needs no test bend; bent, it does.
    expect(findings.map(({ rule }) => rule)).not.toContain('temper-unknown')
    const tight = estimateOf(planOf([arc(600, 60)], {}, { rail: rail('brass') }))
    expect(tight.bends.map(({ forming: { method } }) => method)).not.toContain('spring-in')
    expect(tight.findings).toContainEqual(
      expect.objectContaining({ rule: 'temper-unknown', severity: 'note', track: null }),
    )
    expect(estimateOf(planOf([straight(900)], {}, { rail: rail('brass') })).findings).toEqual([])
  })

  it('a metal by its numbers, with each law of hardening', () => {
    const laws = [
      { model: 'ramberg-osgood', n: 19 },
      { model: 'linear', tangentModulusGpa: 2.7 },
      { model: 'perfectly-plastic' },
    ] as const
    for (const hardening of laws) {
      const own = { youngsModulusGpa: 110.3, yieldMpa: 345, hardening }
      const {
        bends,
        rail: summary,
        assumptions,
      } = estimateOf(planOf([arc(2438.4, 60)], {}, { rail: { section: '250', material: own } }))
      expect(bends[0]!.forming).toMatchObject({ basis: 'own', elongationPct: null })
      expect(bends[0]!.forming.formingRadiusMm).toBeGreaterThan(0)
      expect(summary).toMatchObject({ material: 'own', massKg: null })
      expect(assumptions.map(({ field }) => field)).toContain('/rail/material/densityKgM3')
    }
  })

  it('a section by rectangles is the same as by its six numbers', () => {
    const six = { height: 8, headWidth: 4, footWidth: 8, webThickness: 1, headDepth: 2, footDepth: 1 }
    const stack = {
      rectangles: rectanglesOf({
        heightMm: six.height,
        headWidthMm: six.headWidth,
        footWidthMm: six.footWidth,
        webThicknessMm: six.webThickness,
        headDepthMm: six.headDepth,
        footDepthMm: six.footDepth,
      }).map(({ widthMm: width, heightMm: height }) => ({ width, height })),
    }
    const answer = (section: RailInput['section']) =>
      estimateOf(planOf([arc(2000, 60)], {}, { rail: { ...rail('brass', 'half-hard'), section } }))
    const [a, b] = [answer(six), answer(stack)]
    expect(b.bends).toEqual(a.bends)
    expect(b.rail.sectionProperties).toEqual(a.rail.sectionProperties)
    // by hand: 8 × 1 + 1 × 5 + 4 × 2; (1·8³ + 5·1³ + 2·4³)/12
    expect(a.rail.sectionProperties.areaMm2).toBeCloseTo(21, 12)
    expect(a.rail.sectionProperties.lateralSecondMomentMm4).toBeCloseTo((512 + 5 + 128) / 12, 12)
  })
})

describe('a test bend', () => {
  it('tells the yield, within its own band, and is used from then on', () => {
    const metal = { ...temperOf('brass', 'half-hard'), yieldMpa: 300 }
    const formedRadiusMm = 500
    const restingMm = Math.round(restingRadiusMm(section250, metal, formedRadiusMm)!)
    const calibration = [{ formedRadius: formedRadiusMm, restingRadius: restingMm }]
    const plan = planOf([arc(2438.4, 60)], {}, { rail: { ...rail('brass', 'half-hard'), calibration } })
    const { calibration: told, bends } = estimateOf(plan)
    expect(told).toMatchObject({ from: 'radii', consistent: true })
    expect(told!.lowMpa!).toBeLessThan(300)
    expect(told!.highMpa!).toBeGreaterThan(300)
    const expected = forming(section250, metal, bends[0]!.radiusMm).formingRadiusMm
    const { formingRadiusMm, band, basis } = bends[0]!.forming
    expect(basis).toBe('calibrated')
    expect(expected).toBeGreaterThan(band.lowMm)
    expect(expected).toBeLessThan(band.highMm)
    expect(formingRadiusMm! / expected).toBeCloseTo(1, 1)
  })

  it('that rests tighter than it was formed is refused with its place', () => {
    const calibration = [
      { formedRadius: 500, restingRadius: 1400 },
      { formedRadius: 900, restingRadius: 800 },
    ]
    const plan = planOf([arc(2438.4, 60)], {}, { rail: { ...rail('brass'), calibration } })
    expect(planFaults(plan)).toMatchObject([
      { path: ['rail', 'calibration', 1, 'restingRadius'], code: 'impossible-test-bend' },
    ])
  })

  it('by turns needs the pitch of the screw', () => {
    const calibration = [{ turns: 2, chord: 500, ordinate: 12 }]
    const plan = planOf([arc(2438.4, 60)], {}, { rail: { ...rail('brass'), calibration }, bender: ROLLERS })
    expect(planFaults(plan)[0]?.path.slice(0, 3)).toEqual(['rail', 'calibration', 0])
    expect(planFaults({ ...plan, bender: { ...ROLLERS, screwPitch: 1 } })).toEqual([])
  })
})

describe('by hand or by machine', () => {
  it('a tight curve of assembled track goes through the machine, with what one setting misses and what the inner rail creeps', () => {
    const { bends } = estimateOf(planOf([arc(700, 90)], {}, { bender: { work: 'assembled' } }))
    // by hand: b = 45 + 2.8448; miss −b/2 and +b/2, creep b·π/2
    const apartMm = 45 + 0.112 * 25.4
    expect(bends[0]!.forming).toMatchObject({ method: 'machine', reasonId: 'assembled' })
    expect(bends.map(({ forming: { assembled } }) => assembled!.missMm)).toEqual([
      expect.closeTo(-apartMm / 2, 9),
      expect.closeTo(apartMm / 2, 9),
    ])
    expect(bends[1]!.forming.assembled!.creepMm).toBeCloseTo((apartMm * Math.PI) / 2, 9)
  })

  it('a limit of the user’s own decides', () => {
    // At 8 ft nearly nothing of brass of code 250 sets: only a limit of 0 keeps it from being sprung in.
    const free = { overbendRatio: 1e6, jointFlat: 1e6, handForceN: 1e6, setShare: 0 }
    const method = (limits: BenderInput['limits']) => bendOf({ bender: { limits: { ...free, ...limits } } }).forming
    expect(method({ setShare: 0.1 })).toMatchObject({ method: 'spring-in', reasonId: 'springs-in' })
    expect(method({})).toMatchObject({ method: 'hand', reasonId: 'within-limits' })
    expect(method({ handForceN: 1 })).toMatchObject({ method: 'machine', reasonId: 'hand-force' })
    const overbent = method({ overbendRatio: 1.5, tieForceN: 15 })
    expect(overbent).toMatchObject({ method: 'machine', reasonId: 'overbend' })
    expect(overbent.reason).toContain(overbent.overbendRatio!.toFixed(2))
  })

  it('the roller bender’s setting: depth, turns and passes that end there', () => {
    const bender = { ...ROLLERS, maxPerPass: 0.5, screwPitch: 1.5 }
    const machine = bendOf({ bender }).forming.machine!
    expect(machine.depthFrom).toBe('starting-estimate')
    expect(machine.depthMm).toBeGreaterThan(machine.elasticDepthMm)
    expect(machine.arcDepthMm!).toBeGreaterThan(machine.depthMm)
    expect(machine.turns).toBeCloseTo(machine.depthMm / 1.5, 9)
    expect(machine.passes.at(-1)!.depthMm).toBeCloseTo(machine.depthMm, 9)
    expect(
      machine.passes.every(
        ({ depthMm }, index) => depthMm - (machine.passes[index - 1]?.depthMm ?? machine.elasticDepthMm) <= 0.5 + 2e-3,
      ),
    ).toBe(true)
    expect(machine).toMatchObject({ straightEndMm: 50, trimLengthMm: 100 })
  })

  it('a screw of 20 turns to the inch has a pitch of 1.27 mm (by hand), and one of the two is enough', () => {
    const byTurns = bendOf({ bender: { ...ROLLERS, turnsPerInch: 20 } }).forming.machine!
    expect(byTurns.turns).toBeCloseTo(byTurns.depthMm / 1.27, 12)
    expect(byTurns).toEqual(bendOf({ bender: { ...ROLLERS, screwPitch: 25.4 / 20 } }).forming.machine)
    const sent = planOf([arc(2000, 9)], {}, { bender: { ...ROLLERS, screwPitch: 1, turnsPerInch: 20 } })
    expect(readPlan(sent)).toMatchObject({ ok: false, faults: [{ path: ['bender', expect.anything()] }] })
    expect(readPlan(planOf([arc(2000, 9)], {}, { bender: { turnsPerInch: 20 } }))).toMatchObject({
      ok: false,
      faults: [{ path: ['bender', 'turnsPerInch'], code: 'contradictory' }],
    })
  })

  it('half a roller bender is no roller bender', () => {
    const faults = (bender: BenderInput) =>
      planFaults(planOf([arc(2000, 9)], {}, { bender })).map(({ path, code }) => `${path.join('/')} ${code}`)
    expect(faults({ span: 100, mode: 'rolled' })).toEqual([
      'bender/outerRollerRadius missing',
      'bender/bearsOn missing',
    ])
    expect(faults({ screwPitch: 1, ends: 'trim' })).toEqual([
      'bender/screwPitch contradictory',
      'bender/ends contradictory',
    ])
    expect(faults({ ...ROLLERS, span: 20 })).toEqual(['bender/span contradictory'])
    expect(faults({ ...ROLLERS, span: 1400, outerRollerRadius: 5, ends: 'trim' })).toEqual([
      'bender/ends contradictory',
    ])
    expect(faults({ work: 'assembled' })).toEqual([])
  })

  it('over-strained rail is named', () => {
    const brittle = {
      youngsModulusGpa: 200,
      yieldMpa: 400,
      elongationPct: 1,
      hardening: { model: 'perfectly-plastic' },
    } as const
    const { findings } = estimateOf(planOf([arc(400, 60)], {}, { rail: { section: '332', material: brittle } }))
    expect(findings.filter(({ rule }) => rule === 'over-strained')).toMatchObject([
      { severity: 'stop' },
      { severity: 'stop' },
    ])
  })
})

it('joints inside a curve are counted from the cut plan', () => {
  const { bends, cutting } = estimateOf(planOf([straight(1000), arc(2438.4, 120), straight(1000)]))
  for (const { rail, side, lengthMm, forming: answer } of bends) {
    const places = cutting.sticks.flatMap(({ pieces }) =>
      pieces.filter((piece) => piece.rail === side).map(({ fromMm }) => fromMm),
    )
    const inside = places.filter((place) => place > 1000 && place <= 1000 + lengthMm).length
    const flat = answer.checks.find(({ reason }) => reason === 'joints')!
    expect(rail && inside > 0).toBe(flat.value! > 0)
  }
})

describe('easements', () => {
  it('run from straight to the radius of the curve beside them, on each rail', () => {
    const { easements } = estimateOf(planOf([straight(500), easement(600), arc(2000, 40, 'right')]))
    expect(easements.map(({ element, side }) => [element, side])).toEqual([
      [1, 'left'],
      [1, 'right'],
    ])
    const apartMm = 45 + 0.112 * 25.4
    for (const { side, stations } of easements) {
      expect(stations).toHaveLength(9)
      expect(stations[0]).toEqual({ atMm: 0, wantedRadiusMm: null, formingRadiusMm: null, depthMm: null, turns: null })
      expect(stations.at(-1)!.wantedRadiusMm).toBeCloseTo(2000 + ((side === 'left' ? 1 : -1) * apartMm) / 2, 6)
      const formed = stations.slice(1).map(({ formingRadiusMm }) => formingRadiusMm!)
      expect(formed).toEqual([...formed].sort((a, b) => b - a))
    }
  })
})

describe('rail that trimming takes', () => {
  /** With these nothing is sprung in, so that all of it goes through the bender. */
  const limits = { setShare: 0, tieForceN: 1 }

  const plan = (more: BenderInput) =>
    planOf([straight(1000), arc(2438.4, 90), straight(1000)], {}, { bender: { ...ROLLERS, ...more } })

  it('an end that lies in a bend is sawn longer by half a span, and bends are marked from the sawn end', () => {
    const { cutting, tracks } = estimateOf(plan({ ends: 'trim', limits }))
    for (const { lengthMm, kerfMm, trimMm, offcutMm, pieces } of cutting.sticks) {
      const sum = pieces.reduce((total, piece) => total + piece.lengthMm, 0)
      expect(sum + kerfMm + trimMm + offcutMm).toBeCloseTo(lengthMm, 6)
      expect(trimMm).toBeCloseTo(
        pieces.reduce((total, piece) => total + piece.trimMm, 0),
        6,
      )
      for (const { bends, lengthMm: mm, sawLengthMm, trimStartMm, trimEndMm, trimMm } of pieces) {
        expect(trimStartMm).toBe(bends.some(({ fromMm }) => fromMm < 50) ? 50 : 0)
        expect(trimEndMm).toBe(bends.some(({ toMm }) => toMm > mm - 50) ? 50 : 0)
        expect(sawLengthMm).toBe(trimStartMm + mm + trimEndMm)
        expect(trimMm).toBe(trimStartMm + trimEndMm)
        for (const { fromMm, toMm, markFromMm, markToMm } of bends) {
          expect(markFromMm).toBe(fromMm + trimStartMm)
          expect(markToMm).toBe(toMm + trimStartMm)
        }
      }
    }
    const pieces = cutting.sticks.flatMap((stick) => stick.pieces)
    for (const side of ['left', 'right'] as const)
      expect(pieces.filter(({ rail: of }) => of === side).reduce((sum, { lengthMm }) => sum + lengthMm, 0)).toBeCloseTo(
        tracks[0]!.rails[side].lengthMm,
        5,
      )
  })

  it('a piece whose ends lie in straights is not trimmed', () => {
    // by hand: 700 + 10° at 2400 (418.9) + 700 = 1818.9 on the middle line, 4.2 more and less on the rails: a stick each
    const supplies = { sticks: [{ length: 1828.8, price: '30.00' }] }
    const bender = { ...ROLLERS, ends: 'trim' as const, limits }
    const { cutting } = estimateOf(planOf([straight(700), arc(2400, 10), straight(700)], {}, { supplies, bender }))
    expect([cutting.sticksUsed, cutting.cost, cutting.provenOptimal]).toEqual([2, '60.00', true])
    for (const { pieces } of cutting.sticks)
      for (const piece of pieces) {
        expect([piece.trimStartMm, piece.trimEndMm, piece.sawLengthMm]).toEqual([0, 0, piece.lengthMm])
        expect(piece.bends.map(({ markFromMm }) => markFromMm)).toEqual([expect.closeTo(700, 9)])
      }
  })

  it('is none where a curve and its easements are sprung in, whatever the plan says of the ends', () => {
    // Half-hard brass of code 250 springs in at this radius also with a joint in the curve; see common-practice.test.ts.
    const elements = [straight(1000), easement(500), arc(3000, 90), easement(500), straight(1000)]
    const bender = { ...ROLLERS, ends: 'trim' as const }
    const { bends, cutting } = estimateOf(planOf(elements, {}, { bender }))
    expect(bends.map(({ forming }) => forming.method)).toEqual(['spring-in', 'spring-in'])
    expect(cutting).toEqual(estimateOf(planOf(elements)).cutting)
    for (const { trimMm } of cutting.sticks) expect(trimMm).toBe(0)
  })

  it('is that of the bent curves alone where others are sprung in', () => {
    const tight = arc(450, 60, 'right')
    const elements = [straight(1500), arc(3000, 90), straight(1500), tight, straight(1500)]
    const { bends, cutting, tracks } = estimateOf(planOf(elements, {}, { bender: { ...ROLLERS, ends: 'trim' } }))
    const methods = new Map(bends.map(({ element, forming }) => [element, forming.method]))
    expect(methods.get(1)).toBe('spring-in')
    expect(methods.get(3)).not.toBe('spring-in')
    const { elements: placed } = tracks[0]!
    for (const piece of cutting.sticks.flatMap(({ pieces }) => pieces)) {
      const fromMm = placed.slice(0, 3).reduce((sum, { rails }) => sum + rails[piece.rail].lengthMm, 0)
      const toMm = fromMm + placed[3]!.rails[piece.rail].lengthMm
      const [startMm, endMm] = [piece.fromMm, piece.fromMm + piece.lengthMm]
      // Half the span is 50 mm.
      expect(piece.trimStartMm).toBe(startMm < toMm && startMm + 50 > fromMm ? 50 : 0)
      expect(piece.trimEndMm).toBe(endMm > fromMm && endMm - 50 < toMm ? 50 : 0)
    }
  })

  it('a plan whose ends are finished by hand is cut as one without a bender', () => {
    const without = estimateOf(planOf([straight(1000), arc(2438.4, 90), straight(1000)]))
    expect(estimateOf(plan({ ends: 'finish-by-hand' })).cutting).toEqual(without.cutting)
  })

  it('the creep of assembled track is cut off the inner rail', () => {
    const { cutting } = estimateOf(planOf([arc(700, 90)], {}, { bender: { work: 'assembled' } }))
    const trimmed = cutting.sticks.reduce((sum, { trimMm }) => sum + trimMm, 0)
    expect(trimmed).toBeCloseTo(((45 + 0.112 * 25.4) * Math.PI) / 2, 6)
  })

  it('random plans: sticks add up and no rail is short', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.double({ min: 200, max: 4000, noNaN: true }),
            fc.double({ min: 800, max: 5000, noNaN: true }),
            fc.double({ min: 5, max: 200, noNaN: true }),
            fc.boolean(),
          ),
          { minLength: 1, maxLength: 5 },
        ),
        fc.constantFrom('loose-rail' as const, 'assembled' as const),
        (parts, work) => {
          const elements = parts.flatMap(([long, radius, angle, left]) => [
            straight(long),
            arc(radius, angle, left ? 'left' : 'right'),
          ])
          const result = estimate(planOf(elements, {}, { bender: { ...ROLLERS, work, ends: 'trim' } }))
          if (!result.ok) throw new Error(JSON.stringify(result.faults))
          const { cutting, tracks } = result.estimate
          for (const { trimMm, pieces } of cutting.sticks)
            expect(pieces.reduce((total, piece) => total + piece.trimMm, 0)).toBeCloseTo(trimMm, 6)
          for (const { lengthMm, kerfMm, trimMm, offcutMm, pieces } of cutting.sticks)
            expect(pieces.reduce((total, piece) => total + piece.lengthMm, 0) + kerfMm + trimMm + offcutMm).toBeCloseTo(
              lengthMm,
              5,
            )
          const pieces = cutting.sticks.flatMap((stick) => stick.pieces)
          const total = pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
          expect(total).toBeCloseTo(tracks[0]!.rails.left.lengthMm + tracks[0]!.rails.right.lengthMm, 4)
        },
      ),
      { numRuns: 200 },
    )
  })
})
