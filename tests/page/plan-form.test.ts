import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { asMeant } from '../../src/page/form/bare-numbers.ts'
import type { Shape } from '../../src/page/form/form-shape.ts'
import { planEditor } from '../../src/page/form/plan-editor.ts'
import { type FormPart, formOfFields, formOfPlan, planOfForm } from '../../src/page/form/plan-form.ts'
import { planShape } from '../../src/page/form/plan-shape.ts'
import { withoutBlankRows, withRowsReady } from '../../src/page/form/rows.ts'
import { DEMO_PLAN } from '../../src/page/pages/demo-plan.ts'
import { windingPlan } from '../benchmarks/plans.ts'
import { fieldsOf } from './markup.ts'

type Wire = Record<string, unknown>

function editorOf(plan: Wire): string {
  const part = withRowsReady(formOfPlan(plan))
  return planEditor({ part, path: '', faults: new Map(), shape: planShape, lengthsIn: 'both' }, '/').toString()
}

/** A plan shown in the form, its HTML sent back as a browser would, and read again. */
function throughTheForm(plan: Wire): Wire {
  const markup = editorOf(plan)
  return planOfForm(withoutBlankRows(formOfFields(fieldsOf(markup))))
}

const rail = { section: '250', material: 'brass' }
const straight = { kind: 'tangent', length: '6 ft' }
const oneTrack = (track: Wire) => ({ rail, tracks: [{ name: 'main', elements: [straight], ...track }] })

describe('a plan that is opened in the form and sent back unchanged', () => {
  test.each<[string, Wire]>([
    ['the demo plan', DEMO_PLAN],
    ['two thousand elements', windingPlan(2000)],
    ['numbers and texts side by side', oneTrack({ elements: [straight, { kind: 'tangent', length: 1200.5 }] })],
    [
      'a section from the calipers',
      {
        ...oneTrack({}),
        rail: {
          section: { height: 6.35, headWidth: '2.8 mm', footWidth: 5.7, webThickness: 0.7 },
          material: 'aluminum',
          temper: '6063-t6',
        },
      },
    ],
    [
      'curves by radius and by diameter, by angle and by length',
      oneTrack({
        elements: [
          { kind: 'arc', radius: 1500, angle: 400, turn: 'right', label: 'helix' },
          { kind: 'arc', diameter: `18'`, length: '3 ft', turn: 'left' },
        ],
      }),
    ],
    [
      'everything said outright that would be so anyway',
      {
        ...oneTrack({
          closed: false,
          joinsExisting: { start: false, end: false },
          start: { x: 0, y: 0, heading: 0, elevation: 0 },
          gradeLine: [],
        }),
        supplies: { sticks: [{ length: '5 ft', buyable: true, onHand: 0, packSize: 1 }] },
        chords: [],
        standards: {},
      },
    ],
    [
      'track that is there, and what lies where it is joined',
      {
        rail,
        tracks: [
          {
            name: 'main',
            elements: [straight],
            joinsExisting: { start: { section: '332', material: 'brass', radius: '9 ft', turn: 'left' }, end: true },
          },
          { name: 'old', state: 'lifted', elements: [straight] },
          { name: 'older', state: 'new', elements: [straight] },
        ],
        supplies: { transitionJoiners: { packSize: 2 } },
      },
    ],
    [
      'empty objects',
      {
        ...oneTrack({ start: {}, joinsExisting: {} }),
        supplies: { joiners: {}, ties: {}, fasteners: {} },
        standards: {},
      },
    ],
    [
      'prices as numbers and as texts',
      {
        ...oneTrack({}),
        supplies: {
          sticks: [
            { length: 1500, price: 14.5 },
            { length: 1800, price: '14.50', buyable: false, onHand: 3 },
          ],
          joiners: { pricePerPack: 9 },
        },
      },
    ],
    [
      'spaces, line breaks and signs in names',
      {
        ...oneTrack({
          name: ' a  b ',
          label: 'one\ntwo',
          elements: [{ ...straight, label: '<script>alert("&amp;")</script>' }],
        }),
        title: '  “Ünïcode” \t🚂 ',
      },
    ],
    [
      'a metal and a section by their numbers, and limits of what hands can do',
      {
        ...oneTrack({}),
        rail: {
          section: {
            rectangles: [
              { width: 6, height: '1 mm' },
              { width: 2, height: 5 },
            ],
          },
          material: { youngsModulusGpa: 100, yieldMpa: 200, hardening: { model: 'ramberg-osgood', n: 12 } },
        },
        bender: { work: 'assembled', fixedEnd: 'end', limits: { grip: '1 ft', handForceN: 80 } },
      },
    ],
    [
      'metals of the other two laws, with everything that is known of them',
      {
        ...oneTrack({}),
        rail: {
          section: {
            rectangles: [
              { width: '1/4 in', height: 1.5 },
              { width: 0.8, height: 4 },
            ],
          },
          material: {
            youngsModulusGpa: 110,
            yieldMpa: 345.5,
            hardening: { model: 'linear', tangentModulusGpa: 0.5 },
            elongationPct: 23,
            densityKgM3: 8530,
            expansionPerK: 2e-5,
            resistivityOhmM: 6e-8,
          },
        },
      },
    ],
    [
      'a perfectly plastic one, and a section from the calipers',
      {
        ...oneTrack({}),
        rail: {
          section: { height: 8, headWidth: 3, footWidth: 7, webThickness: 1 },
          material: { youngsModulusGpa: 110, yieldMpa: 345, hardening: { model: 'perfectly-plastic' } },
        },
        bender: { limits: { overbendRatio: 1.5, grip: '1 ft', handForceN: 80, jointFlat: 1 } },
      },
    ],
    [
      'ready-made pieces, straight and curved, and where they are taken',
      {
        ...oneTrack({}),
        supplies: {
          readyMade: 'always',
          panels: [
            { name: 'from the old loop', length: '5 ft', ties: 34, joiners: 2, onHand: 3, buyable: false },
            { length: 610, price: 12.5, packSize: 4, massEachG: 480 },
            { diameter: '12 ft', angle: 22.5, ties: 0, price: '19.00', buyable: true },
            { radius: '1.5 m', angle: 30, joiners: 0, massEachG: 1050.5 },
          ],
        },
      },
    ],
    ['no ready-made pieces, said outright', { ...oneTrack({}), supplies: { panels: [], readyMade: 'cheapest' } }],
    [
      'cars, and trains made up of them by name and by number',
      {
        ...oneTrack({}),
        cars: [
          { name: 'coach', length: '28 in', truckCentres: 500, width: 150, height: '9 in', couplerLength: 20 },
          { name: 'tank engine', length: 400, truckCentres: 200, width: '6 in' },
        ],
        trains: [
          { name: 'local', engine: 'tank engine', cars: ['coach', { car: 'coach', count: 2 }] },
          { name: 'light engine', engine: 'tank engine' },
        ],
      },
    ],
    [
      'obstacles, round and with corners',
      {
        ...oneTrack({}),
        obstacles: [
          { name: 'post', height: '1 m', circle: { x: 1000, y: '-4 in', radius: 2.5 } },
          {
            name: 'rock',
            polygon: [
              { x: 0, y: 0 },
              { x: 100, y: 0 },
              { x: '4 ft', y: 90 },
            ],
          },
        ],
      },
    ],
    [
      'kinds of turnout of every form, turnouts, a crossing, and tracks from leg to leg',
      {
        rail,
        turnoutTypes: [
          {
            ...{ id: 'six-left', hand: 'left', number: 6, numbering: 'half-cot', form: 'straight-frog' },
            ...{ heelSpread: 6.5, heelAngle: 2.5, pointLength: 150, toeLength: 60 },
            ...{ length: 720, price: '62.00', onHand: 1, buyable: true },
          },
          { id: 'wide-right', hand: 'right', form: 'curved-frog', radius: '8 ft', angle: 22.5, buyable: false },
          { id: 'wye-4', hand: 'wye', number: 4, price: 55 },
          { id: 'curved', hand: 'left', form: 'both-curved', outerRadius: '10 ft', diameter: '16 ft', angle: 20 },
          {
            ...{ id: 'mine', hand: 'left' },
            measured: { length: 600, divergingAngle: 9.5, divergingOffset: 52, radius: '9 ft' },
          },
        ],
        tracks: [
          {
            name: 'main',
            elements: [
              straight,
              { kind: 'turnout', name: 'W1', type: 'six-left', enters: 'points', leaves: 'through', label: 'by hand' },
              { kind: 'crossing', name: 'X1', angle: 19 },
              { kind: 'turnout', name: 'W2', type: 'mine', enters: 'diverging' },
            ],
          },
          {
            name: 'siding',
            start: { from: { turnout: 'W1', leg: 'diverging' } },
            end: { to: { turnout: 'W2', leg: 'through' } },
            elements: [straight],
          },
        ],
      },
    ],
    ['a bender with nothing said of it', { ...oneTrack({}), bender: {} }],
    [
      'a roller bender and all kinds of test bends',
      {
        ...oneTrack({}),
        rail: {
          ...rail,
          temper: 'half-hard',
          calibration: [
            { formedRadius: '2 ft', restingRadius: 1524.5 },
            { depth: '3.2 mm', chord: '12 in', ordinate: 4.25 },
            { turns: 2.5, chord: 300, ordinate: '3/16 in' },
          ],
        },
        bender: {
          work: 'loose-rail',
          span: '5 in',
          outerRollerRadius: 0,
          bearsOn: 'web',
          mode: 'pressed',
          maxPerPass: 0.5,
          screwPitch: '1/16 in',
          ends: 'join-and-roll-through',
        },
        resolution: '1/64 in',
      },
    ],
    [
      'everything there is',
      {
        ...oneTrack({
          closed: false,
          joinsExisting: { end: true },
          start: { x: '1 m', y: '-2 ft', heading: 270, elevation: '3 in' },
          gradeLine: [
            { at: '1 ft', elevation: '3 in' },
            { at: 900, elevation: 12 },
          ],
          label: 'l',
        }),
        title: 't',
        gauge: '45 mm',
        chords: ['12 in', 300, '50 cm'],
        supplies: {
          currency: 'EUR',
          sticks: [{ length: '2 m', price: '9.99', packSize: 4, onHand: 2, buyable: true }],
          joiners: { packSize: 10, pricePerPack: '9.00', onHand: 6 },
          ties: { spacing: '1-3/4 in', packSize: 100, pricePerPack: '21.00', onHand: 1, fastenersPerTie: 2 },
          fasteners: { packSize: 500, pricePerPack: '12.00', onHand: 3 },
          kerf: '1/16 in',
          minimumPiece: '6 in',
        },
        standards: {
          minimumRadius: '5 ft',
          maximumGradePct: 2.5,
          longestCar: '20 in',
          minimumTangentBetweenReverseCurves: 0,
          closureGap: 3,
          closureHeading: 0.25,
        },
      },
    ],
  ])('%s', (_, plan) => {
    expect(readPlan(plan)).toMatchObject({ ok: true })
    expect(throughTheForm(plan)).toEqual(plan)
  })

  const length = fc.oneof(
    fc.double({ min: 200, max: 9000, noNaN: true }),
    fc.integer({ min: 1, max: 90 }).map((feet) => `${feet} ft`),
    fc.integer({ min: 9, max: 90 }).map((inches) => `${inches} 3/16"`),
  )
  const label = fc.option(
    fc.string({ unit: 'binary', maxLength: 12 }).filter((text) => !/[\0\p{Surrogate}]/u.test(text)),
    { nil: undefined },
  )
  const optional = <T>(value: fc.Arbitrary<T>) => fc.option(value, { nil: undefined })
  const element = fc.oneof(
    fc.record({ kind: fc.constant('tangent'), length, label }),
    fc
      .record({
        kind: fc.constant('arc'),
        across: fc.tuple(fc.constantFrom('radius', 'diameter'), length),
        size: fc.oneof(fc.record({ angle: fc.double({ min: 1, max: 700, noNaN: true }) }), fc.record({ length })),
        turn: fc.constantFrom('left', 'right'),
        label,
      })
      .map(({ across: [name, value], size, ...rest }) => ({ ...rest, ...size, [name]: value })),
  )
  const price = fc.oneof(fc.constant('12.50'), fc.constant(12.5), fc.constant('7'))
  const pack = fc.record(
    { packSize: fc.integer({ min: 1, max: 500 }), pricePerPack: price, onHand: fc.nat(9) },
    { requiredKeys: [] },
  )
  const testBend = fc.oneof(
    fc.record({
      formedRadius: fc.integer({ min: 300, max: 500 }),
      restingRadius: fc.constantFrom(900, '4 ft', '1.25 m'),
    }),
    fc.record({
      chord: fc.constantFrom(300, '1 ft'),
      ordinate: fc.double({ min: 5, max: 9, noNaN: true }),
      depth: fc.double({ min: 2, max: 5, noNaN: true }),
    }),
  )
  const bender = fc.oneof(
    fc.record(
      { work: fc.constantFrom('loose-rail', 'assembled'), fixedEnd: fc.constantFrom('start', 'end') },
      { requiredKeys: [] },
    ),
    fc.record(
      {
        span: fc.constantFrom(120, '5 in'),
        outerRollerRadius: fc.double({ min: 0, max: 20, noNaN: true }),
        bearsOn: fc.constantFrom('head', 'web', 'foot'),
        mode: fc.constantFrom('rolled', 'pressed'),
        work: fc.constantFrom('loose-rail', 'assembled'),
        maxPerPass: fc.constantFrom(0.5, '1/32 in'),
        screwPitch: fc.double({ min: 0.5, max: 3, noNaN: true }),
        ends: fc.constantFrom('trim', 'finish-by-hand', 'join-and-roll-through'),
        limits: fc.record(
          { handForceN: fc.integer({ min: 20, max: 90 }), grip: fc.constantFrom(250, '1 ft') },
          { requiredKeys: [] },
        ),
      },
      { requiredKeys: ['span', 'outerRollerRadius', 'bearsOn', 'mode'] },
    ),
  )
  const size = fc.oneof(
    fc.double({ min: 0.2, max: 9, noNaN: true }),
    fc.integer({ min: 1, max: 15 }).map((n) => `${n}/64 in`),
  )
  const section = fc.oneof(
    fc.constantFrom('250', '332'),
    fc.record({ rectangles: fc.array(fc.record({ width: size, height: size }), { minLength: 1, maxLength: 4 }) }),
    fc.record({ height: fc.constant(8), headWidth: size, footWidth: size, webThickness: fc.constant(0.2) }),
  )
  const hardening = fc.oneof(
    fc.record({ model: fc.constant('ramberg-osgood'), n: fc.integer({ min: 2, max: 40 }) }),
    fc.record({ model: fc.constant('linear'), tangentModulusGpa: fc.double({ min: 0, max: 9, noNaN: true }) }),
    fc.constant({ model: 'perfectly-plastic' }),
  )
  const ownMetal = fc.record(
    {
      youngsModulusGpa: fc.double({ min: 50, max: 210, noNaN: true }),
      yieldMpa: fc.integer({ min: 100, max: 900 }),
      hardening,
      elongationPct: fc.integer({ min: 1, max: 60 }),
      densityKgM3: fc.constantFrom(2700, 8530.5),
      expansionPerK: fc.constant(2e-5),
    },
    { requiredKeys: ['youngsModulusGpa', 'yieldMpa', 'hardening'] },
  )
  const ties = fc.constantFrom(
    { jointTies: true, spacing: 40 },
    { jointTies: false, perLength: { count: 24, length: '39 in' }, packSize: 100, sparePct: 5 },
    { strip: { ties: 12, price: '3.20', massEachG: 80 } },
  )
  const plan = fc.record(
    {
      title: fc.string({ maxLength: 9 }).filter((text) => !text.includes('\0')),
      rail: fc.oneof(
        fc.constant(rail),
        fc.array(testBend, { minLength: 1, maxLength: 3 }).map((calibration) => ({ ...rail, calibration })),
        fc.record({ section, material: fc.oneof(fc.constantFrom('brass', 'aluminum', 'steel'), ownMetal) }),
      ),
      bender,
      resolution: fc.constantFrom(0.25, '0.5 mm', '1/64 in'),
      chords: fc.array(length, { maxLength: 3 }),
      tracks: fc
        .array(
          fc.record({
            label,
            closed: fc.boolean(),
            start: optional(
              fc.record({ x: length, heading: fc.integer({ min: -90, max: 700 }) }, { requiredKeys: [] }),
            ),
            elements: fc.array(element, { minLength: 1, maxLength: 5 }),
          }),
          { minLength: 1, maxLength: 3 },
        )
        .map((tracks) => tracks.map((track, index) => ({ ...track, name: `track ${index}` }))),
      supplies: fc.record(
        { joiners: pack, fasteners: pack, ties, taxRatePct: fc.constant(19), currency: fc.constantFrom('USD', 'GBP') },
        { requiredKeys: [] },
      ),
      roadbed: optional(
        fc.record(
          {
            kind: fc.constant('trench'),
            crownWidth: fc.constantFrom(120, '5 in'),
            depthUnderTie: fc.constant('2 in'),
            tie: fc.constant({ length: 90, width: 20, height: 12 }),
            bag: fc.constantFrom({ volumeL: 20, price: 4.5 }, { massKg: 25, onHand: 3 }),
          },
          { requiredKeys: ['kind', 'crownWidth', 'depthUnderTie'] },
        ),
      ),
      power: optional(
        fc.constantFrom(
          'none',
          { currentA: 3 },
          { currentA: 2.5, maximumDropV: 1, feeder: { awg: 14, length: '3 m', pricePerM: '0.60' } },
        ),
      ),
      extras: fc.array(
        fc.record(
          {
            item: fc.constantFrom('Fabric', 'x'),
            per: fc.constantFrom('m', 'each'),
            quantity: fc.nat(9),
            massEachG: fc.constant(5),
          },
          { requiredKeys: ['item', 'per', 'quantity'] },
        ),
        { maxLength: 3 },
      ),
    },
    { requiredKeys: ['rail', 'tracks'] },
  )

  test('any plan that can be read', () => {
    const seen = new Set<string>()
    fc.assert(
      fc.property(plan, (drawn) => {
        const written: Wire = JSON.parse(JSON.stringify(drawn))
        fc.pre(readPlan(written).ok)
        expect(throughTheForm(written)).toEqual(written)
        const { bender: bent, rail: of } = written as { bender?: Wire; rail: Wire }
        for (const part of [bent, of, of.section, of.material])
          if (typeof part === 'object' && part !== null) for (const key of Object.keys(part)) seen.add(key)
      }),
      { numRuns: 300 },
    )
    // Plans that cannot be read are passed over; of every kind some must have been read.
    for (const key of ['span', 'limits', 'calibration', 'rectangles', 'headWidth', 'hardening'])
      expect(seen).toContain(key)
  })

  test('fields that this form has no box for travel along, with their own row', () => {
    const odd = {
      ...oneTrack({
        state: 'laid',
        elements: [{ ...straight, drawnBy: ['x', 1] }, straight],
        start: { x: 1, frame: null },
      }),
      cars: [{ length: 3, colour: 'red' }],
      rail: { ...rail, calibration: { a: 1 } },
      supplies: { sticks: [{ length: 5, shelf: 2 }], glue: {} },
    }
    expect(throughTheForm(odd)).toEqual(odd)
  })
})

describe('a curve by its degree', () => {
  const element = { kind: 'arc', degree: 20.5, chord: '2 ft', angle: 45, turn: 'left' }
  const plan = { rail: { section: '250', material: 'brass' }, tracks: [{ name: 'main', elements: [element] }] }

  test('goes through the form, shown with its sign', () => {
    const form = formOfPlan(plan)
    const { cells } = form.tables.tracks![0]!.tables.elements![0]!
    expect([cells.across, cells.acrossIs, cells.chord]).toEqual(['20.5°', 'degree', '2 ft'])
    expect(throughTheForm(plan)).toEqual(plan)
  })

  test('on a page in feet the degree stays a number, and a bare chord is in inches', () => {
    const typed = (acrossIs: string) => {
      const at = 'tracks.0.elements.0.'
      const fields = { [`${at}across`]: '20', [`${at}acrossIs`]: acrossIs, [`${at}chord`]: '24' }
      return planOfForm(asMeant(formOfFields(new Map(Object.entries(fields))), planShape, 'feet'))
    }
    expect(typed('degree')).toEqual({ tracks: [{ elements: [{ degree: 20, chord: '24 in' }] }] })
    expect(typed('radius')).toEqual({ tracks: [{ elements: [{ radius: '20 in' }] }] })
  })
})

describe('what is typed', () => {
  const typed = (fields: Record<string, string>) =>
    planOfForm(withoutBlankRows(formOfFields(new Map(Object.entries(fields)))))

  test('becomes a plan: bare numbers are millimetres, units stay as they are written', () => {
    expect(
      typed({
        title: ' Shed line ',
        gauge: '45',
        'rail.section': '250',
        'rail.material': 'brass',
        'tracks.0.name': 'main',
        'tracks.0.closed': 'on',
        'tracks.0.elements.0.kind': 'arc',
        'tracks.0.elements.0.across': '18 ft',
        'tracks.0.elements.0.acrossIs': 'radius',
        'tracks.0.elements.0.angle': '45°',
        'tracks.0.elements.0.turn': 'left',
        'tracks.0.elements.3.kind': 'tangent',
        'tracks.0.elements.3.acrossIs': 'diameter',
        'tracks.0.elements.3.length': ' 1.2 m ',
        'tracks.0.elements.5.acrossIs': 'diameter',
        'tracks.0.elements.5.kind': '',
        'standards.maximumGradePct': '2.5 %',
        chords: '300; 12 in,',
      }),
    ).toEqual({
      title: 'Shed line',
      gauge: 45,
      rail: { section: '250', material: 'brass' },
      tracks: [
        {
          name: 'main',
          closed: true,
          elements: [
            { kind: 'arc', radius: '18 ft', angle: 45, turn: 'left' },
            { kind: 'tangent', length: '1.2 m' },
          ],
        },
      ],
      standards: { maximumGradePct: 2.5 },
      chords: [300, '12 in'],
    })
  })

  test('goes on as typed when it cannot be read, to be complained of', () => {
    const plan = typed({ 'tracks.0.name': 'a', 'tracks.0.elements.0.kind': 'arc', 'tracks.0.elements.0.angle': 'wide' })
    expect(plan).toEqual({ tracks: [{ name: 'a', elements: [{ kind: 'arc', angle: 'wide' }] }] })
  })

  test('over an altered hidden field loses only what was hidden', () => {
    for (const preserved of ['{', '[]', 'null', '7', '"x"'])
      expect(typed({ title: 'a', preserved })).toEqual({ title: 'a' })
  })

  test('cannot reach beyond the form by clever names', () => {
    const form: FormPart = formOfFields(
      new Map([
        ['__proto__.polluted', 'x'],
        ['tracks.0.__proto__.x', 'y'],
        ['preserved', '{"__proto__":{"polluted":1}}'],
      ]),
    )
    planOfForm(form)
    expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false)
  })
})

test('every cell of the form is on the page, so that none is lost when it is sent', () => {
  // With a turnout and a connection, the table of elements has a column for everything.
  const [element, path, short] = [
    { kind: 'turnout', name: 'W1' },
    { kind: 'connect', minimumRadius: 900 },
    { at: 0, elevation: 0 },
  ]
  const track = {
    name: 'a',
    elements: [element, path],
    gradeLine: [short],
    breaks: [{ at: 1 }],
    keepOut: [{ from: 1 }],
  }
  const plan = {
    rail: { section: { rectangles: [{ width: 1 }] }, calibration: [{ depth: 1 }] },
    tracks: [track],
    supplies: { sticks: [{ length: 900 }], panels: [{ length: 900 }], longTies: [{ length: 120 }] },
    cars: [{ name: 'coach' }],
    trains: [{ name: 'mixed' }],
    obstacles: [{ name: 'rock' }],
    outline: [{ x: 0, y: 0 }],
    ground: [{ x: 0, y: 0, elevation: 0 }],
    extras: [{ item: 'lamp' }],
  }
  const shown = new Set(fieldsOf(allTicked(editorOf(plan))).keys())
  const cells = (shape: Shape, at: string): string[] => [
    ...Object.keys(shape.cells).map((key) => at + key),
    ...Object.entries(shape.groups ?? {}).flatMap(([key, group]) => cells(group, `${at}${key}.`)),
    ...Object.entries(shape.tables ?? {}).flatMap(([key, row]) => cells(row, `${at}${key}.0.`)),
  ]
  const all = cells(planShape, '')
  expect(all.length).toBeGreaterThan(150)
  expect(all.filter((name) => !shown.has(name))).toEqual([])
})

test('the table of parts has a heading over each of its cells', () => {
  const table = editorOf({ tracks: [] }).match(/<table class="edit packs">.*?<\/table>/s)![0]
  const cellsOf = (row: string) => row.match(/<t[hd][ >]/g)!.length
  const counts = table.match(/<tr.*?<\/tr>/gs)!.map(cellsOf)
  expect(counts).toEqual(Array(9).fill(5))
})

/** As if every box were ticked: a browser sends no box that is not. */
function allTicked(markup: string): string {
  return markup.replaceAll('type="checkbox"', 'type="checkbox" checked')
}
