import { describe, expect, it } from 'vitest'
import type { Estimate } from '../../src/estimate/answer.ts'
import { estimate } from '../../src/estimate/estimate.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { patched } from '../../src/fitting/json-patch.ts'
import { spurPlan } from './turnout-plans.ts'

const G = 9.80665
const ENGINE = {
  name: 'engine',
  length: 400,
  truckCentres: 250,
  width: 100,
  massKg: 6,
  rollingResistancePct: 2,
  engine: { drive: 'steam', massOnDriversKg: 4, adhesionPct: 25 },
}
const COACH = { name: 'coach', length: 600, truckCentres: 400, width: 100, massKg: 2.5, rollingResistancePct: 1 }
const LOCAL = { name: 'local', engine: 'engine', cars: [{ car: 'coach', count: 4 }] }
const HILL = {
  name: 'main',
  gradeLine: [{ at: 0, gradePct: 2 }],
  elements: [{ kind: 'tangent', length: 20_000 }],
}

function planOf({ cars = [ENGINE, COACH], trains = [LOCAL], tracks = [HILL], ...more }: Record<string, unknown> = {}) {
  return { rail: { section: '250', material: 'brass' }, cars, trains, tracks, ...more }
}

function estimated(plan: unknown): Estimate {
  const read = readPlan(plan)
  const result = read.ok ? estimate(read.plan, { sent: plan }) : read
  if (!result.ok) throw new Error(JSON.stringify(result.faults))
  return result.estimate
}

const faultsOf = (plan: unknown) => {
  const read = readPlan(plan)
  return read.ok ? [] : read.faults.map(({ path, code }) => [`/${path.join('/')}`, code])
}
const found = (plan: unknown, rule: string) => estimated(plan).findings.filter((finding) => finding.rule === rule)

describe('a train on an even grade', () => {
  const [train] = estimated(planOf()).trains!

  it('asks for what its weight, its bearings and the grade come to (by hand)', () => {
    expect(train!.massKg).toBeCloseTo(16, 12)
    expect(train!.lengthMm).toBe(400 + 4 * 600)
    expect(train!.ruling.pullN).toBeCloseTo(G * (6 * 0.02 + 10 * 0.01 + 16 * 0.02), 10)
    expect(train!.ruling.gradePct).toBeCloseTo(2, 12)
    expect(train!.ruling.curvePct).toBe(0)
    expect(train!.tractiveEffortN).toBeCloseTo(G * 4 * 0.25, 12)
    expect(train!.limitedBy).toBe('adhesion')
    expect(train!.ruling.spareN).toBeCloseTo(G * (1 - 0.54), 10)
  })

  it('is as long as its engine takes it (by hand)', () => {
    // 6·0.04 + 2.5n·0.03 ≤ 0.8, and ≤ 1.
    expect([train!.takes, train!.takesWhenDry]).toEqual([7, 10])
  })

  it('pushes downhill with what is more than its resistances', () => {
    // By hand: 16·0.02 − 6·0.02 − 10·0.01 = 0.1.
    expect(train!.holding).toEqual({
      track: 'main',
      direction: 'backward',
      atMm: expect.any(Number),
      pushN: expect.closeTo(0.1 * G, 10),
    })
    expect(train!.holdingLimitN).toBeCloseTo(G, 12)
  })

  it('has on each track its own hardest place', () => {
    const level = { ...HILL, name: 'yard', gradeLine: [], start: { x: 0, y: 900 } }
    const both = estimated(planOf({ tracks: [level, HILL] })).trains![0]!
    expect(both.onTracks.map(({ track, takes }) => [track, takes])).toEqual([
      ['yard', 27],
      ['main', 7],
    ])
    expect(both.ruling).toEqual(both.onTracks[1])
    expect(both.takes).toBe(7)
  })

  it('does not run on lifted track', () => {
    const lifted = {
      ...HILL,
      name: 'old',
      state: 'lifted',
      gradeLine: [{ at: 0, gradePct: 9 }],
      start: { x: 0, y: 900 },
    }
    expect(estimated(planOf({ tracks: [HILL, lifted] })).trains![0]!.onTracks).toHaveLength(1)
  })

  it('pulls no more than its motor gives', () => {
    const weak = { ...ENGINE, engine: { ...ENGINE.engine, tractiveEffortN: 3 } }
    const [only] = estimated(planOf({ cars: [weak, COACH] })).trains!
    expect([only!.tractiveEffortN, only!.limitedBy]).toEqual([3, 'engine'])
    expect(only!.holdingLimitN).toBeCloseTo(G, 12)
  })
})

describe('curves', () => {
  const track = { ...HILL, elements: [{ kind: 'arc', radius: 2000, angle: 300, turn: 'right' }] }

  it('ask for 0.35·(0.72·G + 0.47·a)/R of the weight, or what was measured (by hand)', () => {
    const cars = [
      { ...ENGINE, wheelbase: 80 },
      { ...COACH, wheelbase: 50 },
    ]
    const { ruling } = estimated(planOf({ cars, tracks: [track] })).trains![0]!
    const share = (a: number) => (0.35 * (0.72 * 45 + 0.47 * a)) / 2000
    expect(ruling.curvePct).toBeCloseTo((100 * (6 * share(80) + 10 * share(50))) / 16, 10)
    const measured = { curveResistancePct: 1.2, curveResistanceRadius: '1.5 m' }
    const own = estimated(planOf({ cars, tracks: [track], standards: measured }))
    expect(own.trains![0]!.ruling.curvePct).toBeCloseTo((1.2 * 1500) / 2000, 10)
    expect(own.tracks[0]!.effectiveGrade).toMatchObject({ rule: 'measured', curveResistanceMm: expect.closeTo(18, 10) })
  })

  it('are added to the grade, stretch by stretch and averaged over the longest train', () => {
    const mixed = {
      ...HILL,
      gradeLine: [
        { at: 0, gradePct: -1 },
        { at: 1400, gradePct: 2 },
      ],
      elements: [{ kind: 'tangent', length: 2800 }, track.elements[0]],
    }
    const standards = { curveResistancePct: 1, curveResistanceRadius: 2000 }
    const { effectiveGrade } = estimated(planOf({ tracks: [mixed], standards })).tracks[0]!
    const stretches = effectiveGrade!.stretches.map(({ fromMm, gradePct, curvePct, effectivePct }) =>
      [fromMm, gradePct, curvePct, effectivePct].map((each) => Number(each.toFixed(6))),
    )
    expect(stretches).toEqual([
      [0, -1, 0, 1],
      [1400, 2, 0, 2],
      [2800, 2, 1, 3],
    ])
    expect(effectiveGrade).toMatchObject({
      steepestPct: expect.closeTo(3, 10),
      averagedPct: expect.closeTo(2, 10),
      averagedEffectivePct: expect.closeTo(3, 10),
      averagedOverMm: 2800,
    })
  })

  it('on a hill shorter than the train, its mean grade is less than its steepest (by hand)', () => {
    const short = {
      ...HILL,
      gradeLine: [
        { at: 0, gradePct: 0 },
        { at: 9000, gradePct: 3 },
        { at: 9700, gradePct: 0 },
      ],
    }
    const { effectiveGrade } = estimated(planOf({ tracks: [short] })).tracks[0]!
    expect(effectiveGrade!.steepestPct).toBeCloseTo(3, 10)
    expect(effectiveGrade!.averagedPct).toBeCloseTo((3 * 700) / 2800, 10)
  })
})

describe('findings of trains', () => {
  const long = { ...LOCAL, cars: [{ car: 'coach', count: 8 }] }

  it('a steam engine is warned of stalling, another only of damp rail; both where it cannot start', () => {
    const diesel = { ...ENGINE, engine: { ...ENGINE.engine, drive: 'diesel' } }
    const severities = (engine: object, count: number) =>
      found(
        planOf({ cars: [engine, COACH], trains: [{ ...LOCAL, cars: [{ car: 'coach', count }] }] }),
        'train-stalls',
      ).map(({ severity }) => severity)
    expect(severities(ENGINE, 7)).toEqual([])
    expect(severities(ENGINE, 8)).toEqual(['warn'])
    expect(severities(diesel, 8)).toEqual(['note'])
    expect(severities(diesel, 11)).toEqual(['warn'])
  })

  it('its remedies leave cars behind or ease the grade, and clear it', () => {
    const plan = planOf({ trains: [long] })
    const [finding] = found(plan, 'train-stalls')
    expect(finding!.remedy).toEqual([{ op: 'replace', path: '/trains/0/cars/0/count', value: 7 }])
    expect(finding!.otherRemedies).toEqual([[{ op: 'replace', path: '/tracks/0/gradeLine/0/gradePct', value: 1.84 }]])
    for (const patch of [finding!.remedy!, ...finding!.otherRemedies])
      expect(found(patched(plan, patch), 'train-stalls')).toEqual([])
  })

  it('leaves cars that are listed one by one', () => {
    const plan = planOf({ trains: [{ ...long, cars: Array.from({ length: 8 }, () => 'coach') }] })
    expect(found(plan, 'train-stalls')[0]!.remedy).toEqual([{ op: 'remove', path: '/trains/0/cars/7' }])
  })

  it('a train that pushes harder than its engine holds runs away', () => {
    const steep = { ...HILL, gradeLine: [{ at: 0, gradePct: -5 }] }
    const [finding] = found(planOf({ tracks: [steep], trains: [long] }), 'train-runs-away')
    // By hand: 26·0.05 − 6·0.02 − 20·0.01 = 0.98 kg of push, 0.8 held.
    expect(finding).toMatchObject({ track: 'main', severity: 'warn', unit: 'N' })
    expect(finding!.measured).toBeCloseTo(0.98 * G, 10)
    expect(finding!.limit).toBeCloseTo(0.8 * G, 10)
    expect(found(planOf({ tracks: [steep], trains: [LOCAL] }), 'train-runs-away')).toEqual([])
  })

  it('a train of which too little is said is named in a note', () => {
    const { massKg: _, ...unweighed } = COACH
    const [finding] = found(
      planOf({ cars: [ENGINE, unweighed], standards: { minimumTangentBetweenReverseCurves: 0 } }),
      'not-checked',
    )
    expect(finding!.message).toContain('local')
    expect(finding!.message).toContain('the mass of coach')
    expect(estimated(planOf({ cars: [ENGINE, unweighed] })).trains).toBeUndefined()
  })

  it('a plan whose cars say nothing of weight has nothing about trains', () => {
    const { massKg: _, rollingResistancePct: __, engine: ___, ...engine } = ENGINE
    const { massKg: ____, rollingResistancePct: _____, ...coach } = COACH
    const answer = estimated(planOf({ cars: [engine, coach] }))
    expect(Object.keys(answer)).not.toContain('trains')
    expect(answer.findings.filter(({ rule }) => rule.startsWith('train') || rule === 'not-checked')).toEqual([])
    expect(answer.tracks[0]).not.toHaveProperty('effectiveGrade')
    expect(answer.cautions.some((caution) => /^(Hills|Live steam)/.test(caution))).toBe(false)
  })
})

describe('a train that stands on several tracks', () => {
  // Up to the points 3 %, then level; a train of even weight, 1.6 m long, that rolls by itself.
  const even = (name: string, length: number, massKg: number) => {
    return { name, length, truckCentres: 100, width: 90, massKg, rollingResistancePct: 0.01, wheelbase: 60 }
  }
  const cars = [{ ...even('engine', 400, 4), engine: { drive: 'diesel' } }, even('coach', 600, 6)]
  const uphill = (plan: { readonly tracks: readonly object[] }, gradePct = 3) => {
    const gradeLine = [
      { at: 0, gradePct },
      { at: 1000, gradePct: 0 },
    ]
    const [main, ...others] = plan.tracks
    const trains = [{ name: 'local', engine: 'engine', cars: [{ car: 'coach', count: 2 }] }]
    const standards = { curveResistancePct: 0, curveResistanceRadius: 1000 }
    return { ...plan, cars, trains, standards, tracks: [{ ...main, gradeLine }, ...others] }
  }

  it('has its rear still on the grade of the other (by hand)', () => {
    const { trains, tracks } = estimated(uphill(spurPlan()))
    const [main, spur] = trains![0]!.onTracks
    // On the main line all of it is on the grade. Its front just on the spur, which begins behind the leg of the turnout,
    // the leg is level and the rest of it on 3 %.
    expect(main!.gradePct).toBeCloseTo(3, 10)
    expect(main).not.toHaveProperty('standsOn')
    const start = tracks[1]!.start
    const legMm = Math.hypot(start.xMm - 1000, start.yMm)
    expect(spur).toMatchObject({ track: 'spur', direction: 'forward', atMm: 0, standsOn: ['main'] })
    expect(spur!.gradePct).toBeGreaterThan((3 * (1600 - legMm - 10)) / 1600)
    expect(spur!.gradePct).toBeLessThan((3 * (1600 - legMm)) / 1600)
    expect(tracks[1]!.effectiveGrade!.averagedPct).toBeCloseTo(spur!.gradePct, 10)
  })

  it('is named with both, and a remedy clears it', () => {
    const gradeLine = [
      { at: 0, gradePct: 14 },
      { at: 600, gradePct: 0 },
    ]
    const spurs = spurPlan()
    const plan = uphill({ ...spurs, tracks: [spurs.tracks[0]!, { ...spurs.tracks[1], gradeLine }] }, 4)
    const [finding] = found(plan, 'train-stalls')
    // 600 mm on 14 % and, behind the turnout, some on 4 % are more than 1600 mm on 4 %.
    expect(finding).toMatchObject({ track: 'spur', severity: 'note' })
    expect(finding!.message).toContain('with its front at 600 mm and its rear on main')
    expect(finding!.remedy).not.toBeNull()
    for (const patch of [finding!.remedy!, ...finding!.otherRemedies])
      expect(found(patched(plan, patch), 'train-stalls')).toEqual([])
  })
})

describe('what is assumed of trains', () => {
  it('is listed once for each car, and cautions follow the drive', () => {
    const engine = { ...ENGINE, engine: { drive: 'track-electric' }, rollingResistancePct: undefined }
    const plan = JSON.parse(
      JSON.stringify(
        planOf({
          cars: [engine, COACH],
          trains: [
            { ...LOCAL, speedMPerS: 0.5 },
            { ...LOCAL, name: 'other' },
          ],
        }),
      ),
    )
    const { assumptions, cautions } = estimated(plan)
    expect(
      assumptions.filter(({ field }) => field.startsWith('/cars')).map(({ field, value }) => [field, value]),
    ).toEqual([
      ['/cars/1/wheelbase', '60 mm'],
      ['/cars/0/engine/massOnDriversKg', '6 kg'],
      ['/cars/0/engine/adhesionPct', '25 %'],
      ['/cars/0/engine/efficiencyPct', '40 %'],
      ['/cars/0/rollingResistancePct', '2 %'],
      ['/cars/0/wheelbase', '60 mm'],
    ])
    expect(cautions.filter((caution) => caution.startsWith('Hills'))).toHaveLength(1)
    expect(cautions.some((caution) => caution.startsWith('Live steam'))).toBe(false)
    expect(estimated(planOf()).cautions.some((caution) => caution.startsWith('Live steam'))).toBe(true)
  })
})

describe('the power a train draws', () => {
  const engine = { ...ENGINE, engine: { drive: 'track-electric', adhesionPct: 25, efficiencyPct: 50 } }
  const trains = [{ ...LOCAL, speedMPerS: 0.4 }]
  const plan = planOf({ cars: [engine, COACH], trains, power: { train: 'local', supplyVoltageV: 18 } })

  it('is pull times speed over efficiency, and feeds the power of the plan (by hand)', () => {
    const { trains: answered, power } = estimated(plan)
    const pullN = G * (6 * 0.02 + 10 * 0.01 + 16 * 0.02)
    expect(answered![0]!.power!.atWheelsW).toBeCloseTo(pullN * 0.4, 10)
    expect(answered![0]!.power!.drawnW).toBeCloseTo((pullN * 0.4) / 0.5, 10)
    expect(power!.currentA).toBeCloseTo((pullN * 0.4) / 0.5 / 18, 10)
  })

  it('is unknown without a speed, and not drawn by steam', () => {
    expect(estimated(planOf()).trains![0]!.power).toBeNull()
    expect(estimated(planOf({ trains })).trains![0]!.power).toMatchObject({ drawnW: null })
  })

  it('is refused where it cannot be worked out, each with its place', () => {
    const power = { train: 'local' }
    expect(faultsOf(planOf({ power }))).toEqual([['/power/train', 'contradictory']])
    expect(faultsOf(planOf({ power: { train: 'express' } }))).toEqual([['/power/train', 'unknown-value']])
    expect(faultsOf(planOf({ power: {} }))).toEqual([['/power/currentA', 'missing']])
    expect(faultsOf({ ...plan, power: { train: 'local', currentA: 2 } })).toHaveLength(1)
    const heavy = { ...ENGINE, engine: { ...ENGINE.engine, massOnDriversKg: 7 } }
    expect(faultsOf(planOf({ cars: [heavy, COACH] }))).toEqual([['/cars/0/engine/massOnDriversKg', 'contradictory']])
  })

  it('is none where every track is to be lifted', () => {
    const tracks = [
      { ...HILL, state: 'lifted' },
      { ...HILL, name: 'level', gradeLine: [], start: { x: 0, y: 500 } },
    ]
    expect(estimated({ ...plan, tracks }).trains![0]!.onTracks).toHaveLength(1)
    expect(estimated({ ...plan, tracks: [tracks[0]] }).power).toMatchObject({ currentA: 0 })
  })
})
