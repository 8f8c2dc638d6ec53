import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BillLine } from '../../src/estimate/answer.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import { arc, estimateOf, planOf, straight } from './plans.ts'

const line = (plan: PlanInput, item: BillLine['item']) => estimateOf(plan).bill.lines.find((one) => one.item === item)

describe('ties', () => {
  it('by count for a length stand as by the spacing that makes', () => {
    const by = (ties: NonNullable<PlanInput['supplies']>['ties']) =>
      estimateOf(planOf([straight(8000), arc(2400, 90)], {}, { supplies: { ties } }))
    const counted = by({ perLength: { count: 24, length: 1050 } })
    expect(counted.tracks).toEqual(by({ spacing: 43.75 }).tracks)
    expect(counted.assumptions.map(({ field }) => field)).not.toContain('/supplies/ties/spacing')
  })

  it('in strips are bought by the strip, need no fasteners, and say so', () => {
    const plan = planOf([straight(8955)], {}, { supplies: { ties: { strip: { ties: 12, packSize: 5, onHand: 1 } } } })
    // by hand: 200 ties are 16⅔ strips, 17; one on hand leaves 16, four packs of 5
    expect(line(plan, 'tie-strip')).toMatchObject({ required: 17, onHand: 1, toBuy: 16, packs: 4 })
    expect(line(plan, 'tie')).toBeUndefined()
    expect(line(plan, 'fastener')).toMatchObject({ required: 0 })
    expect(estimateOf(plan).assumptions).toContainEqual(
      expect.objectContaining({ field: '/supplies/ties/fastenersPerTie', value: '0' }),
    )
  })

  it('beside joints are added only where that is asked for, and take fasteners', () => {
    const sticks = [{ length: 1000 }]
    const elements = [straight(2000)]
    const asked = (jointTies?: boolean) =>
      planOf(elements, {}, { supplies: { sticks, ties: { spacing: 48, jointTies } } })
    // by hand: the joints of both rails stand at 1000, 8 mm before the tie at 1008: one tie more, before them
    expect(estimateOf(asked()).tracks[0]).toMatchObject({ ties: 42, jointTies: 0, joints: 2 })
    expect(estimateOf(asked(false))).toEqual(estimateOf(asked()))
    expect(estimateOf(asked(true)).tracks[0]).toMatchObject({ ties: 42, jointTies: 1, joints: 2 })
    expect(line(asked(true), 'tie')).toMatchObject({
      required: 43,
      reasons: [
        { track: 'main', quantity: 42 },
        { track: 'main', quantity: 1, text: 'added at joints' },
      ],
    })
    expect(line(asked(true), 'fastener')).toMatchObject({ required: 172 })
    // by hand: at 80 mm the joints at 1000 fall midway between 960 and 1040
    const midway = planOf(elements, {}, { supplies: { sticks, ties: { spacing: 80, jointTies: true } } })
    expect(estimateOf(midway).tracks[0]).toMatchObject({ jointTies: 0 })
  })
})

describe('joiners', () => {
  it('sold in pairs are needed and held one by one, and bought by the pack of pairs', () => {
    const sticks = [{ length: 1000 }]
    const joiners = { packSize: 5, pieces: 2, pricePerPack: '6.50', onHand: 3 }
    const plan = planOf([straight(12000)], {}, { supplies: { sticks, joiners: { ...joiners, sparePct: 0 } } })
    // by hand: 11 joints in each rail are 22; 3 on hand leave 19, two packs of five pairs
    expect(line(plan, 'joiner')).toMatchObject({ required: 22, onHand: 3, toBuy: 19, packs: 2, amount: '13.00' })
    const single = { ...joiners, packSize: 10, pieces: 1, sparePct: 0 }
    expect(estimateOf(plan)).toEqual(estimateOf({ ...plan, supplies: { ...plan.supplies, joiners: single } }))
  })
})

describe('extras', () => {
  it('for each metre of track and in all', () => {
    const extras = [
      { item: 'Fabric', per: 'm' as const, quantity: 1.5, price: '2.00' },
      { item: 'Bumper', per: 'each' as const, quantity: 2 },
    ]
    const { bill } = estimateOf(planOf([straight(9000)], {}, { extras }))
    // by hand: 13.5, so 14
    expect(bill.lines.slice(-2)).toMatchObject([
      { item: 'extra', description: 'Fabric', required: 14, amount: '28.00' },
      { item: 'extra', description: 'Bumper', required: 2, amount: null },
    ])
  })
})

describe('power', () => {
  const power = { currentA: 3, feeder: { awg: 14, length: 2000 } }

  it('of battery or steam, or none spoken of, is none', () => {
    const none = estimateOf(planOf([straight(9000)], {}, { power: 'none' }))
    expect(none).toEqual(estimateOf(planOf([straight(9000)])))
    expect(none.power).toBeNull()
  })

  it('in a metal nobody knows the resistivity of is refused with a finding', () => {
    const material = { youngsModulusGpa: 110, yieldMpa: 345, hardening: { model: 'perfectly-plastic' as const } }
    const rail = { section: '250', material }
    const { power: answer, findings, bill } = estimateOf(planOf([straight(9000)], {}, { rail, power }))
    expect(answer).toBeNull()
    expect(findings.map(({ rule }) => rule)).toEqual(['resistivity-unknown'])
    expect(bill.lines.map(({ item }) => item)).not.toContain('feeder-wire')
    const known = { section: '250', material: { ...material, resistivityOhmM: 6.16e-8 } }
    expect(estimateOf(planOf([straight(9000)], {}, { rail: known, power })).power).not.toBeNull()
  })

  it('whose wire drops more than is allowed is fed twice; where no feeders do, none are put on the bill', () => {
    // by hand: AWG 14 has 2.525 Ω on 1000 ft, so 0.0331 Ω there and back over 2 m, and 0.0994 V at 3 A
    const allowing = (maximumDropV: number) =>
      estimateOf(planOf([straight(9000)], {}, { power: { ...power, maximumDropV } }))
    expect(allowing(0.099).power!.feeders).toBeGreaterThanOrEqual(2)
    expect(allowing(0.099).findings).toEqual([])
    const short = allowing(0.00005)
    expect(short.power).toMatchObject({ feeders: null, wireMm: null })
    expect(short.findings).toMatchObject([{ rule: 'drop-not-kept', measured: null, limit: 0.00005, unit: 'V' }])
    expect(short.bill.lines.map(({ item }) => item)).not.toContain('feeder-wire')
    const enough = allowing(0.1)
    expect(enough.findings).toEqual([])
    const wire = enough.bill.lines.find(({ item }) => item === 'feeder-wire')
    expect(wire).toMatchObject({
      unit: 'm',
      required: 4 * enough.power!.feeders!,
      description: 'Feeder wire, copper, AWG 14',
    })
  })

  it('takes two feeders on a loop where the wire of one alone drops too much', () => {
    const elements = [straight(3048), arc(1524, 180), straight(3048), arc(1524, 180)]
    const rail = { section: '332' as const, material: 'brass' as const, temper: 'half-hard' }
    const { power: answer } = estimateOf(
      planOf(
        elements,
        { closed: true },
        { rail, power: { currentA: 8, supplyVoltageV: 18, feeder: { awg: 16, length: 4572 } } },
      ),
    )
    // derived: AWG 16 has 1.309 mm², so 0.1204 Ω there and back; two drop 0.482 V side by side, and the rail with its
    // joints 0.083 V to half-way between
    expect(answer!.blocks).toMatchObject([{ feeders: 2, worstDropV: expect.closeTo(0.565, 2) }])
  })

  it('of an unknown temper tells whose resistivity it took; voltage and drop are assumed aloud', () => {
    const rail = { section: '250', material: 'stainless' }
    const { assumptions } = estimateOf(planOf([straight(9000)], {}, { rail, power: { currentA: 3 } }))
    expect(
      assumptions.filter(({ field }) => field.startsWith('/power')).map(({ field, value }) => [field, value]),
    ).toEqual([
      ['/power', 'rail of 0.72 Ω·mm²/m'],
      ['/power/supplyVoltageV', '18 V'],
      ['/power/feeder', 'no wire'],
      ['/power/maximumDropPct', '5 %'],
      ['/power/jointResistanceOhm', '0 Ω'],
    ])
  })
})

it('every line’s reasons and spares make up what it requires, and its tracks are those of the plan', () => {
  const plans = fc.record({
    lengths: fc.array(fc.integer({ min: 200, max: 9000 }), { minLength: 1, maxLength: 4 }),
    closed: fc.boolean(),
    sparePct: fc.integer({ min: 0, max: 30 }),
    perStrip: fc.option(fc.integer({ min: 1, max: 20 }), { nil: undefined }),
    jointTies: fc.boolean(),
    trench: fc.boolean(),
  })
  fc.assert(
    fc.property(plans, ({ lengths, closed, sparePct, perStrip, jointTies, trench }) => {
      const plan: PlanInput = {
        ...planOf([]),
        tracks: lengths.map((lengthMm, n) => ({
          name: `t${n}`,
          start: { y: n * 9999 },
          closed: closed && n === 0,
          elements: [straight(lengthMm), arc(1500, 20 + n * 7, n % 2 ? 'left' : 'right')],
        })),
        supplies: {
          taxRatePct: 19,
          joiners: { sparePct, pricePerPack: '0.35' },
          ties: { jointTies, ...(perStrip ? { strip: { ties: perStrip, sparePct } } : { sparePct }) },
        },
        roadbed: trench
          ? { kind: 'trench', crownWidth: 120, depthUnderTie: 60, bag: { volumeL: 20 } }
          : {
              kind: 'raised',
              crownWidth: 120,
              depthUnderTie: 60,
              tie: { length: 90, width: 20, height: 12 },
            },
        power: { currentA: 4, maximumDropV: 0.3, feeder: { areaMm2: 2.5, length: 1500, sparePct } },
        extras: [{ item: 'edging', per: 'm', quantity: 2 }],
      }
      const { bill, tracks, cutting, roadbed } = estimateOf(plan)
      const names = new Set(tracks.map(({ name }) => name))
      for (const { item, unit, reasons, required, spares } of bill.lines) {
        const sum = reasons.reduce((total, { quantity }) => total + quantity, 0)
        expect(sum + spares, item).toBeCloseTo(required, 6)
        if (unit === 'each') expect(Number.isInteger(required), item).toBe(true)
        for (const { track } of reasons) expect(track === null || names.has(track)).toBe(true)
      }
      const of = (item: BillLine['item']) => bill.lines.find((one) => one.item === item)!
      const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)
      expect(sum(bill.lines.filter(({ item }) => item === 'rail-stick').map(({ required }) => required))).toBe(
        cutting.sticksUsed,
      )
      const joints = sum(tracks.map((track) => track.joints))
      expect(of('joiner').required - of('joiner').spares).toBe(joints)
      const ties = sum(tracks.map((track) => track.ties + track.jointTies))
      expect(perStrip ? of('tie-strip').required - of('tie-strip').spares : of('tie').required - of('tie').spares).toBe(
        perStrip ? Math.ceil(ties / perStrip) : ties,
      )
      for (const track of tracks) expect(track.jointTies).toBeLessThanOrEqual(2 * track.joints)
      expect(sum(roadbed!.tracks.map(({ volumeL }) => volumeL))).toBeCloseTo(roadbed!.volumeL, 6)
    }),
    { numRuns: 60 },
  )
})
