import { describe, expect, test } from 'vitest'
import { toPointer } from '../../src/api/problem.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import type { PlanInput } from '../../src/plan/rows/plan.ts'
import { ARC, planWith, TANGENT, trackOf } from '../api/asking.ts'

function planOf(raw: unknown): PlanInput {
  const read = readPlan(raw)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.plan
}

function faultsOf(raw: unknown): string[] {
  const read = readPlan(raw)
  return read.ok ? [] : read.faults.map(({ path, code }) => `${toPointer(path)} ${code}`)
}

const elementsOf = (...elements: unknown[]) => planOf(planWith({ tracks: [trackOf(...elements)] })).tracks[0]!.elements
const faultsOfElements = (...elements: unknown[]) => faultsOf(planWith({ tracks: [trackOf(...elements)] }))

describe('a plan is translated into the units of the program', () => {
  test('with every field it may have', () => {
    const plan = planOf({
      title: 'All of it',
      gauge: '45mm',
      rail: {
        section: {
          height: 6.4,
          headWidth: '2.9 mm',
          footWidth: 5.7,
          webThickness: 0.8,
          headDepth: 1.9,
          footDepth: 1.1,
        },
        material: 'aluminum',
        temper: '6063-t6',
      },
      tracks: [
        {
          name: 'main',
          label: 'the long one',
          start: { x: '1 ft', y: -100, heading: 450, elevation: '2 in' },
          closed: false,
          joinsExisting: { start: true, end: false },
          gradeLine: [{ at: '1 m', elevation: '-1 in' }],
          elements: [TANGENT, { kind: 'easement', length: 600, label: 'in' }, ARC],
        },
      ],
      supplies: {
        currency: 'EUR',
        sticks: [{ length: '5 ft', price: 14.5, packSize: 2, onHand: 3, buyable: false }],
        joiners: { packSize: 10, pricePerPack: '9', onHand: 6 },
        ties: { spacing: '1-3/4 in', packSize: 100, pricePerPack: '21.00', onHand: 1, fastenersPerTie: 2 },
        fasteners: { packSize: 500, pricePerPack: '12.5', onHand: 7 },
        kerf: 0.8,
        minimumPiece: '6 in',
      },
      standards: {
        minimumRadius: '7 ft 6 in',
        maximumGradePct: 1.5,
        longestCar: '28 in',
        minimumTangentBetweenReverseCurves: 0,
        closureGap: 3,
        closureHeading: 0.25,
      },
      chords: ['30 cm', 500],
    })
    // By hand: 1 in = 25.4 mm.
    expect(plan).toEqual({
      title: 'All of it',
      gauge: 45,
      rail: {
        section: {
          height: 6.4,
          headWidth: 2.9,
          footWidth: 5.7,
          webThickness: 0.8,
          headDepth: 1.9,
          footDepth: 1.1,
        },
        material: 'aluminium',
        temper: '6063-t6',
      },
      tracks: [
        {
          name: 'main',
          label: 'the long one',
          start: { x: 304.8, y: -100, heading: 450, elevation: 50.8 },
          closed: false,
          joinsExisting: { start: true, end: false },
          gradeLine: [{ at: 1000, elevation: -25.4 }],
          elements: [
            { kind: 'tangent', length: expect.closeTo(1828.8, 9) },
            { kind: 'easement', length: 600, label: 'in' },
            {
              kind: 'arc',
              radius: expect.closeTo(2743.2, 9),
              angle: 45,
              turn: 'left',
            },
          ],
        },
      ],
      supplies: {
        currency: 'EUR',
        sticks: [{ length: 1524, price: '14.50', packSize: 2, onHand: 3, buyable: false }],
        joiners: { packSize: 10, pricePerPack: '9.00', onHand: 6 },
        ties: {
          spacing: expect.closeTo(44.45, 9),
          packSize: 100,
          pricePerPack: '21.00',
          onHand: 1,
          fastenersPerTie: 2,
        },
        fasteners: { packSize: 500, pricePerPack: '12.50', onHand: 7 },
        kerf: 0.8,
        minimumPiece: expect.closeTo(152.4, 9),
      },
      standards: {
        minimumRadius: 2286,
        maximumGradePct: 1.5,
        longestCar: expect.closeTo(711.2, 9),
        minimumTangentBetweenReverseCurves: 0,
        closureGap: 3,
        closureHeading: 0.25,
      },
      chords: [300, 500],
    })
  })

  test('with nothing filled in', () => {
    const plan = planOf(planWith())
    expect(plan.gauge).toBeUndefined()
    expect(plan.supplies).toBeUndefined()
    expect(plan.standards).toBeUndefined()
    expect(plan.chords).toBeUndefined()
    expect(plan.tracks[0]!.start).toBeUndefined()
  })

  test('a curve by its radius or its diameter, an arc by its angle or its length', () => {
    expect(elementsOf({ kind: 'arc', radius: '2 m', length: '50 cm', turn: 'right' })).toEqual([
      { kind: 'arc', radius: 2000, length: 500, turn: 'right' },
    ])
    expect(elementsOf({ kind: 'arc', diameter: '4 m', angle: 405, turn: 'left' })).toEqual([
      { kind: 'arc', radius: 2000, angle: 405, turn: 'left' },
    ])
  })

  test('a curve by its degree over a chord: 60° over 2 m is a radius of 2 m, whatever the unit of the chord', () => {
    const byDegree = (degree: unknown, chord: unknown) => ({ kind: 'arc', degree, chord, angle: 30, turn: 'left' })
    expect(elementsOf(byDegree(60, '2 m'))).toEqual([
      { kind: 'arc', radius: expect.closeTo(2000, 9), angle: 30, turn: 'left' },
    ])
    expect(elementsOf(byDegree(180, '10 ft'))[0]).toMatchObject({ radius: expect.closeTo(1524, 9) })
    const faults = (element: object) => faultsOfElements({ kind: 'arc', angle: 30, turn: 'left', ...element })
    const at = '/tracks/0/elements/0'
    expect(faults({ degree: 20 })).toEqual([`${at}/chord missing`])
    expect(faults({ chord: '1 m' })).toEqual([`${at}/radius missing`, `${at}/degree missing`])
    expect(faults({ degree: 20, chord: '1 m', diameter: '3 m' })).toEqual([`${at}/diameter contradictory`])
    expect(faults({ degree: 200, chord: 'x' })).toEqual([`${at}/degree out-of-range`, `${at}/chord bad-length`])
    expect(faults({ degree: 0, chord: '1 m' })).toEqual([`${at}/degree out-of-range`])
    expect(faults({ degree: '20', chord: '1 m' })).toEqual([`${at}/degree wrong-type`])
    // A radius of 573 km, and one of 20 mm, inside which the rails do not fit.
    expect(faults({ degree: 0.01, chord: '100 m' })).toEqual([`${at}/degree out-of-range`])
    expect(faults({ degree: 180, chord: 40 })).toEqual([`${at}/degree out-of-range`])
    expect(faultsOfElements({ kind: 'tangent', length: '1 m', degree: 3, chord: '1 m' })).toEqual([
      `${at}/degree unknown-field`,
      `${at}/chord unknown-field`,
    ])
  })

  test.each([
    ['7’ 6-1/2”', 7 * 304.8 + 6.5 * 25.4],
    ['7′ 6 1/2″', 7 * 304.8 + 6.5 * 25.4],
    ['6½ in', 6.5 * 25.4],
    ["8'", 8 * 304.8],
    ['2.4 m', 2400],
    [0.001, 0.001],
  ])('a length %s', (length, mm) => {
    expect(elementsOf({ kind: 'tangent', length })[0]).toMatchObject({ length: expect.closeTo(mm, 9) })
  })

  test.each(['Дальняя линия', '庭の本線', 'مسار', '👩🏽‍🔧 loop', ' e\u0301 ', 'a/b~c'])('a track called %s', (name) => {
    expect(planOf(planWith({ tracks: [{ name, elements: [TANGENT] }] })).tracks[0]!.name).toBe(name)
  })
})

describe('every fault is reported at once', () => {
  test('three elements with a fault each: three places, no more', () => {
    expect(
      faultsOfElements({ kind: 'tangent', length: '6' }, { ...ARC, angle: -30 }, { kind: 'tangent', lenght: '4 ft' }),
    ).toEqual([
      '/tracks/0/elements/0/length bad-length',
      '/tracks/0/elements/1/angle out-of-range',
      '/tracks/0/elements/2/lenght unknown-field',
    ])
  })

  test('those of an element together', () => {
    expect(
      faultsOfElements({ kind: 'arc', radius: '3 yd', diameter: 3000, angel: 30, turn: 'lfet', color: 1 }),
    ).toEqual([
      '/tracks/0/elements/0/radius bad-length',
      '/tracks/0/elements/0/turn unknown-value',
      '/tracks/0/elements/0/angel unknown-field',
      '/tracks/0/elements/0/color unknown-field',
      '/tracks/0/elements/0/radius contradictory',
    ])
  })

  test('those between the parts of a plan beside those of its fields', () => {
    const easement = { kind: 'easement', length: 500 }
    expect(
      faultsOf({
        rail: { section: '250', material: 'brass', temper: 'annealled' },
        tracks: [
          { name: 'a', closed: true, joinsExisting: { start: true }, elements: [TANGENT, easement, easement, ARC, 7] },
          { name: 'a', elements: [{ kind: 'arc', diameter: 40, angle: 10, turn: 'left' }], colour: 'red' },
          null,
        ],
        supplies: { sticks: [{ length: '5 ft' }, { length: '60 in' }], kerf: 'thin' },
      }).toSorted(),
    ).toEqual([
      '/rail/temper unknown-temper',
      '/supplies/kerf bad-length',
      '/supplies/sticks/1/length duplicate-length',
      '/tracks/0/elements/1 adjacent-easements',
      '/tracks/0/elements/4 wrong-type',
      '/tracks/0/joinsExisting contradictory',
      '/tracks/1/colour unknown-field',
      '/tracks/1/elements/0/diameter out-of-range',
      '/tracks/1/name duplicate-name',
      '/tracks/2 wrong-type',
    ])
  })

  test('a part of the rail or the bender that cannot be read does not hide the others', () => {
    const tight = trackOf({ ...ARC, diameter: 40 })
    const rail = {
      section: '250',
      material: 'brass',
      temper: 'T6',
      calibration: [{ formedRadius: 'x', depth: 3 }, null],
    }
    const bender = { span: 0, mode: 'roled', bearsOn: 'foot', maxPerPass: -1 }
    expect(faultsOf({ rail, bender, tracks: [tight] }).toSorted()).toEqual([
      '/bender/maxPerPass out-of-range',
      '/bender/mode unknown-value',
      '/bender/outerRollerRadius missing',
      '/bender/span out-of-range',
      '/rail/calibration/0/chord missing',
      '/rail/calibration/0/formedRadius unknown-field',
      '/rail/calibration/0/ordinate missing',
      '/rail/calibration/1 wrong-type',
      '/rail/temper unknown-temper',
      '/tracks/0/elements/0/diameter out-of-range',
    ])
  })

  test('test bends are judged by what of the rail and the bender can be read', () => {
    const calibration = [
      { formedRadius: 900, restingRadius: 800 },
      { turns: 2, chord: 500, ordinate: 9 },
    ]
    const rail = { section: '250', material: 'brass', calibration }
    const plan = planWith({ rail, title: 7 })
    expect(faultsOf(plan)).toContain('/rail/calibration/0/restingRadius impossible-test-bend')
    const bends = ['/rail/calibration/0/restingRadius impossible-test-bend', '/rail/calibration/1/turns contradictory']
    expect(faultsOf({ ...plan, rail: { ...rail, temper: 7 } }).toSorted()).toEqual([
      ...bends,
      '/rail/temper wrong-type',
      '/title wrong-type',
    ])
    expect(faultsOf({ ...plan, bender: { screwPich: 1 } }).toSorted()).toEqual([
      '/bender/screwPich unknown-field',
      bends[0],
      '/title wrong-type',
    ])
  })

  test('a curve is not judged by a gauge that cannot be read, though 45 mm would not go round it', () => {
    const arc = { kind: 'arc', radius: 20, angle: 10, turn: 'left' }
    const plan = planWith({ tracks: [{ name: 'main', elements: [arc] }] })
    expect(faultsOf(plan)).toEqual(['/tracks/0/elements/0/radius out-of-range'])
    expect(faultsOf({ ...plan, gauge: 'wide' })).toEqual(['/gauge bad-length'])
    expect(faultsOf({ ...plan, gauge: '16.5' })).toEqual(['/gauge bad-length'])
  })

  test('a curve is blamed where its size was written', () => {
    // 45 mm gauge, code 250 head 2.8448 mm: (45 + 2 · 2.8448)/2 = 25.3448 mm is the limit.
    expect(faultsOfElements({ kind: 'arc', radius: 25.3448, angle: 10, turn: 'left' })).toEqual([
      '/tracks/0/elements/0/radius out-of-range',
    ])
    expect(faultsOfElements({ kind: 'arc', diameter: 50.6896, angle: 10, turn: 'left' })).toEqual([
      '/tracks/0/elements/0/diameter out-of-range',
    ])
    expect(faultsOfElements({ kind: 'arc', radius: 25.3449, angle: 10, turn: 'left' })).toEqual([])
  })

  test.each([
    [null, ' wrong-type'],
    [[], ' wrong-type'],
    ['plan', ' wrong-type'],
    [3, ' wrong-type'],
    [undefined, ' missing'],
  ])('%j is no plan', (raw, fault) => {
    expect(faultsOf(raw)).toEqual([fault])
  })

  test('what is required', () => {
    expect(faultsOf({})).toEqual(['/rail missing', '/tracks missing'])
    expect(faultsOf({ rail: {}, tracks: [{}] })).toEqual([
      '/rail/section missing',
      '/rail/material missing',
      '/tracks/0/name missing',
      '/tracks/0/elements missing',
    ])
    expect(faultsOfElements({}, { kind: 'arc' }, { kind: 'curve' })).toEqual([
      '/tracks/0/elements/0/kind missing',
      '/tracks/0/elements/1/turn missing',
      '/tracks/0/elements/1/radius missing',
      '/tracks/0/elements/1/angle missing',
      '/tracks/0/elements/2/kind unknown-value',
    ])
  })

  test.each([
    ['diamter', 'radius'],
    ['Diameter', 'radius'],
    ['radius_', 'radius'],
    ['anlge', 'angle'],
  ])('a misspelt %s is not reported as missing besides', (misspelt, pair) => {
    const right = { radius: 2000, angle: 30 }
    const { [pair as 'radius']: value, ...others } = right
    expect(faultsOfElements({ kind: 'arc', turn: 'left', ...others, [misspelt]: value })).toEqual([
      `/tracks/0/elements/0/${misspelt} unknown-field`,
    ])
  })
})

describe('hints', () => {
  const hintsOf = (raw: unknown) => {
    const read = readPlan(raw)
    return read.ok ? [] : read.faults.map(({ hint }) => hint)
  }

  test.each([
    [planWith({ titel: 'x' }), 'did you mean "title"?'],
    [planWith({ rail: { section: 250, material: 'brass' } }), 'write "250", in quotes'],
    [planWith({ rail: { section: '25O', material: 'brass' } }), 'did you mean "250"?'],
    [planWith({ rail: { section: '250', material: 'Brass' } }), 'did you mean "brass"?'],
    [planWith({ rail: { section: '250', material: 'nickel silver' } }), 'did you mean "nickel-silver"?'],
    [
      planWith({ rail: { section: '250', material: 'brass', weightPerYard: {} } }),
      'known fields: section, material, temper, calibration',
    ],
    [planWith({ tracks: [trackOf({ ...ARC, angle: '45' })] }), 'write the number alone, in degrees, without quotes'],
  ])('%#', (raw, hint) => {
    expect(hintsOf(raw)).toEqual([expect.stringContaining(hint)])
  })
})

describe('values out of bounds', () => {
  test.each([
    [{ gauge: 0 }, '/gauge out-of-range'],
    [{ gauge: 5e-324 }, '/gauge out-of-range'],
    [{ gauge: -45 }, '/gauge out-of-range'],
    [{ gauge: '-45 mm' }, '/gauge out-of-range'],
    [{ gauge: 1e8 }, '/gauge out-of-range'],
    [{ gauge: Number.POSITIVE_INFINITY }, '/gauge out-of-range'],
    [{ gauge: Number.NaN }, '/gauge out-of-range'],
    [{ gauge: { toString: {} } }, '/gauge wrong-type'],
    [{ rail: { section: '250', material: [] } }, '/rail/material wrong-type'],
    [{ gauge: true }, '/gauge wrong-type'],
    [{ gauge: null }, '/gauge wrong-type'],
    [{ gauge: `${'9'.repeat(70)} mm` }, '/gauge too-long'],
    [{ supplies: { ties: { packSize: 2.5 } } }, '/supplies/ties/packSize wrong-type'],
    [{ supplies: { ties: { packSize: 0 } } }, '/supplies/ties/packSize out-of-range'],
    [{ supplies: { ties: { packSize: '100' } } }, '/supplies/ties/packSize wrong-type'],
    [{ supplies: { joiners: { pricePerPack: '-1' } } }, '/supplies/joiners/pricePerPack bad-price'],
    [{ supplies: { joiners: { pricePerPack: '1e3' } } }, '/supplies/joiners/pricePerPack bad-price'],
    [{ supplies: { currency: 'usd' } }, '/supplies/currency unknown-value'],
    [{ supplies: { sticks: [] } }, '/supplies/sticks too-few'],
    [{ standards: { maximumGradePct: -1 } }, '/standards/maximumGradePct out-of-range'],
    [{ title: '\ud800' }, '/title bad-text'],
    [{ tracks: [{ name: '  ', elements: [TANGENT] }] }, '/tracks/0/name missing'],
    [JSON.parse('{"__proto__":1}') as object, '/__proto__ unknown-field'],
  ])('%j', (change, fault) => {
    expect(faultsOf({ ...planWith(), ...change })).toEqual([fault])
  })
})

describe('sizes', () => {
  test('a plan of the greatest size is read', () => {
    const elements = Array.from({ length: 5_000 }, () => TANGENT)
    expect(elementsOf(...elements)).toHaveLength(5_000)
  })

  test('an oversized plan is refused for its size alone', () => {
    const tracks = Array.from({ length: 3 }, (_, n) => ({ name: `t${n}`, elements: Array(2_000).fill(0) }))
    expect(faultsOf(planWith({ tracks, nonsense: 1 }))).toEqual(['/tracks too-many'])
    expect(faultsOf(planWith({ tracks: Array(201).fill(0) }))).toEqual(['/tracks too-many'])
    expect(faultsOf(planWith({ supplies: { sticks: Array(21).fill(0) } }))).toEqual(['/supplies/sticks too-many'])
    const gradeLine = Array.from({ length: 2_001 }, (_, at) => ({ at, elevation: 0 }))
    expect(faultsOf(planWith({ tracks: [{ ...trackOf(TANGENT), gradeLine }] }))).toEqual([
      '/tracks/0/gradeLine too-many',
    ])
  })

  test('rails of more sticks than an answer can hold are refused', () => {
    const tracks = [trackOf({ kind: 'tangent', length: 1e7 }, { kind: 'arc', radius: 9e6, angle: 90, turn: 'left' })]
    // By hand: 10 km + 14.137 km of track are 48.27 km of rail: 24,137 sticks of 2 m, 48,274 of 1 m, 31,675 of 5 ft.
    expect(faultsOf(planWith({ tracks, supplies: { sticks: [{ length: '2 m' }] } }))).toEqual([])
    expect(faultsOf(planWith({ tracks, supplies: { sticks: [{ length: '2 m' }, { length: '1 m' }] } }))).toEqual([
      '/supplies/sticks too-many',
    ])
    expect(faultsOf(planWith({ tracks }))).toEqual(['/tracks too-many'])
  })
})
