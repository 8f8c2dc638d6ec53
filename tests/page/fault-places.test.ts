import { describe, expect, test } from 'vitest'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { faultsByPlace, placeInForm } from '../../src/page/form/fault-places.ts'
import { inFormWords } from '../../src/page/form/fault-words.ts'
import { placeName } from '../../src/page/form/place-names.ts'
import { planEditor } from '../../src/page/form/plan-editor.ts'
import { formOfPlan } from '../../src/page/form/plan-form.ts'
import { planShape } from '../../src/page/form/plan-shape.ts'
import { tagsOf } from './markup.ts'

describe('where a fault of a plan stands in the form', () => {
  test.each<[(string | number)[], string]>([
    [['gauge'], 'gauge'],
    [['tracks', 2, 'elements', 11, 'length'], 'tracks.2.elements.11.length'],
    [['tracks', 0, 'elements', 1, 'radius'], 'tracks.0.elements.1.across'],
    [['tracks', 0, 'elements', 1, 'diameter'], 'tracks.0.elements.1.across'],
    [['tracks', 0, 'elements', 1, 'nonsense'], 'tracks.0.elements.1'],
    [['tracks', 0, 'elements'], 'tracks.0.elements'],
    [['tracks', 0, 'joinsExisting'], 'tracks.0.joinsExisting'],
    [['tracks', 0, 'start', 'x'], 'tracks.0.start.x'],
    [['rail', 'section'], 'rail.section'],
    [['rail', 'section', 'headWidth'], 'rail.measured.headWidth'],
    [['chords', 1], 'chords'],
    [['supplies', 'ties', 'spacing'], 'supplies.ties.spacing'],
    [['supplies', 'sticks', 0, 'price'], 'supplies.sticks.0.price'],
    [['supplies', 'panels', 2, 'radius'], 'supplies.panels.2.across'],
    [['supplies', 'panels', 0, 'massEachG'], 'supplies.panels.0'],
    [['supplies', 'readyMade'], 'supplies.readyMade'],
    [['bender'], 'bender'],
    [['bender', 'span'], 'bender.span'],
    [['bender', 'limits', 'grip'], 'bender.limits.grip'],
    [['resolution'], 'resolution'],
    [['rail', 'calibration'], 'rail.calibration'],
    [['rail', 'calibration', 1, 'restingRadius'], 'rail.calibration.1.restingRadius'],
    [['rail', 'section', 'rectangles'], 'rail.rectangles'],
    [['rail', 'section', 'rectangles', 2, 'width'], 'rail.rectangles.2.width'],
    [['rail', 'material'], 'rail.material'],
    [['rail', 'material', 'yieldMpa'], 'rail.metal.yieldMpa'],
    [['rail', 'material', 'hardening', 'n'], 'rail.metal.hardening.n'],
    [['turnoutTypes'], 'turnoutTypes'],
    [['turnoutTypes', 1, 'id'], 'turnoutTypes.1.id'],
    [['turnoutTypes', 0, 'diameter'], 'turnoutTypes.0.across'],
    [['turnoutTypes', 0, 'outerRadius'], 'turnoutTypes.0.outerRadius'],
    [['turnoutTypes', 0, 'measured', 'radius'], 'turnoutTypes.0.measured.across'],
    [['tracks', 0, 'start', 'from', 'leg'], 'tracks.0.start.from.leg'],
    [['cars', 1, 'truckCentres'], 'cars.1.truckCentres'],
    [['trains', 0, 'cars', 2], 'trains.0.cars.2'],
    [['trains', 0, 'cars', 2, 'car'], 'trains.0.cars.2.car'],
    [['obstacles', 0, 'circle', 'radius'], 'obstacles.0.circle.radius'],
    [['obstacles', 0, 'polygon', 2, 'x'], 'obstacles.0.polygon.2.x'],
    [['wagons'], ''],
    [[], ''],
    [['name'], 'name'],
  ])('%j', (path, place) => expect(placeInForm(path)).toBe(place))
})

describe('a plan full of faults', () => {
  const faulty = {
    title: 5,
    gauge: '45 parsec',
    rail: { section: { height: 'x', headWidth: 1, footWidth: 1, webThickness: 9 }, material: 'gold', temper: 'soft' },
    bender: 1,
    tracks: [
      {
        name: 'a',
        closed: true,
        joinsExisting: { end: true },
        start: { x: 'far' },
        elements: [
          { kind: 'arc', diameter: '3 f', angle: -4, turn: 'up' },
          { kind: 'tangent', turn: 'left' },
          { kind: 'spiral' },
          { kind: 'arc', turn: 'left' },
        ],
        gradeLine: [{ at: 5, elevation: 1 }, { at: 4 }],
      },
      { name: 'a', elements: [] },
    ],
    supplies: {
      currency: 'dollars',
      sticks: [{ length: 'x', price: '1,5' }],
      joiners: { onHand: -1 },
      ties: { fastenersPerTie: 1.5 },
      kerf: -1,
    },
    standards: { longestCar: 'long', closureHeading: 'x' },
    chords: ['x'],
  }
  const read = readPlan(faulty)
  const faults = read.ok ? [] : read.faults.map(inFormWords)
  const places = faultsByPlace(faults)
  const tags = tagsOf(
    planEditor(
      { part: formOfPlan(faulty), path: '', faults: places, shape: planShape, lengthsIn: 'both' },
      '/',
    ).toString(),
  )
  const ids = tags.flatMap(({ attributes }) => attributes.get('id') ?? [])

  test('is told all at once', () => expect(faults.length).toBeGreaterThan(20))

  test('has, for every fault, a place in the form that a link can jump to', () => {
    for (const fault of faults) {
      const place = placeInForm(fault.path)
      if (place !== '') expect(ids, JSON.stringify(fault)).toContain(place)
    }
  })

  test('says what is wrong beside the field, and the field points at it', () => {
    const described = tags.filter(({ attributes }) => attributes.has('aria-invalid'))
    expect(described.length).toBeGreaterThan(15)
    for (const { attributes } of described)
      for (const id of attributes.get('aria-describedby')!.split(' ')) expect(ids).toContain(id)
  })

  test('has no id twice', () => expect(ids.toSorted()).toEqual([...new Set(ids)].toSorted()))

  test('folds nothing away that has a fault', () => {
    let depthFolded = 0
    let folded = 0
    for (const { name, kind, attributes } of tags) {
      if (name === 'details' && kind === 'open' && (depthFolded > 0 || !attributes.has('open'))) {
        depthFolded++
        folded++
      } else if (name === 'details' && kind === 'close' && depthFolded > 0) depthFolded--
      if (depthFolded > 0) expect(attributes.get('aria-invalid')).toBeUndefined()
    }
    // Turnouts, cars and trains, obstacles and garden, elements from a spreadsheet, ready-made track, more tie options, long ties, where the end must be, the ground, breaks, stretches without joints and more about either track, the card of joints, ballast and power, the second
    // track's own two, the rectangles, the numbers of a metal and the limits of hands, where nothing is wrong.
    expect(folded).toBe(25)
  })

  test('speaks of rows and boxes, not of JSON', () => {
    const said = (path: (string | number)[]) => places.get(placeInForm(path))?.map(({ detail }) => detail)
    expect(said(['tracks', 0, 'elements', 1, 'turn'])).toEqual([
      'leave this blank: it does not apply to this kind of element',
    ])
    expect(said(['tracks', 0, 'elements', 3, 'radius'])).toEqual(['a curve needs its diameter or its radius'])
    expect(said(['tracks', 1, 'elements'])).toEqual(['there are no elements yet'])
  })
})

describe('a bender and test bends that are half told', () => {
  const read = readPlan({
    rail: {
      section: '250',
      material: 'brass',
      calibration: [{ formedRadius: 900 }, { depth: 3, chord: 300, ordinate: 5, formedRadius: 900 }],
    },
    bender: { span: 120 },
    tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 900 }] }],
  })
  const faults = read.ok ? [] : read.faults.map(inFormWords)
  const places = faultsByPlace(faults)

  test('are told in the words of the form, in a group that stands open', () => {
    const said = (place: string) => places.get(place)?.map(({ detail }) => detail)
    expect(said('rail.calibration.0.restingRadius')).toEqual(['a test bend needs this too'])
    expect(said('rail.calibration.1.formedRadius')).toEqual(['leave this blank in this row'])
    for (const field of ['outerRollerRadius', 'bearsOn', 'mode'])
      expect(said(`bender.${field}`)).toEqual(['a roller bender needs this too'])
    const tags = tagsOf(
      planEditor(
        { part: formOfPlan({}), path: '', faults: places, shape: planShape, lengthsIn: 'both' },
        '/',
      ).toString(),
    )
    expect(tags.find(({ attributes }) => attributes.get('id') === 'bender')!.attributes.has('open')).toBe(true)
  })
})

describe('a rail of figures of one’s own that are half told', () => {
  const read = readPlan({
    rail: {
      section: { rectangles: [] },
      material: { youngsModulusGpa: 110, yieldMpa: 'hard' },
    },
    bender: { limits: { grip: -1 } },
    tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 900 }] }],
  })
  const places = faultsByPlace(read.ok ? [] : read.faults.map(inFormWords))
  const tags = tagsOf(
    planEditor({ part: formOfPlan({}), path: '', faults: places, shape: planShape, lengthsIn: 'both' }, '/').toString(),
  )

  test('is told at its own fields, none of them folded away', () => {
    expect([...places.keys()].toSorted()).toEqual([
      'bender.limits.grip',
      'rail.metal.hardening',
      'rail.metal.yieldMpa',
      'rail.rectangles',
    ])
    const said = (place: string) => places.get(place)?.map(({ detail }) => detail)
    expect(said('rail.rectangles')).toEqual(['there are no rectangles yet'])
    expect(said('rail.metal.hardening')).toEqual(['choose a hardening model'])
    for (const id of ['bender', 'bender.limits', 'rail.metal'])
      expect(tags.find(({ attributes }) => attributes.get('id') === id)!.attributes.has('open'), id).toBe(true)
  })

  test('a fault between test bends names the boxes, not the fields of a plan', () => {
    const impossible = readPlan({
      rail: { section: '250', material: 'brass', calibration: [{ formedRadius: 900, restingRadius: 600 }] },
      tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 900 }] }],
    })
    const [fault] = impossible.ok ? [] : impossible.faults.map(inFormWords)
    expect(placeInForm(fault!.path)).toBe('rail.calibration.0.restingRadius')
    expect(fault!.hint).toContain('“Radius under load” is the smaller one')
  })
})

describe('ready-made pieces that are half told', () => {
  const read = readPlan({
    rail: { section: '250', material: 'brass' },
    tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 900 }] }],
    supplies: {
      readyMade: 'sometimes',
      panels: [
        { price: '9.00' },
        { diameter: '12 ft' },
        { angle: 30 },
        { length: '5 ft', diameter: '12 ft', angle: 30 },
        { length: '2 ft' },
        { length: '24 in', onHand: -1 },
      ],
    },
  })
  const places = faultsByPlace(read.ok ? [] : read.faults.map(inFormWords))
  const said = (place: string) => places.get(place)?.map(({ detail }) => detail)

  test('are told at their own cells, in the words of the form', () => {
    expect(said('supplies.panels.0.length')).toEqual(['a piece needs a length, or a curve size and an angle'])
    expect(said('supplies.panels.1.angle')).toEqual(['a curved piece needs its angle'])
    expect(said('supplies.panels.2.across')).toEqual(['a curved piece needs its diameter or its radius'])
    expect(said('supplies.panels.3.length')).toEqual([
      'leave this blank: a curved piece is given by its curve size and angle',
    ])
    expect(said('supplies.panels.5.onHand')).toHaveLength(1)
    expect(said('supplies.readyMade')).toHaveLength(1)
    expect(placeName(['supplies', 'panels', 2, 'radius'])).toBe('stock and supplies, ready-made piece 3, curve size')
  })

  test('two of one size are told at the second', () => {
    const twins = readPlan({
      rail: { section: '250', material: 'brass' },
      tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 900 }] }],
      supplies: { panels: [{ length: '2 ft' }, { length: '24 in' }, { length: '2 ft', ties: 13 }] },
    })
    expect([...faultsByPlace(twins.ok ? [] : twins.faults).keys()]).toEqual(['supplies.panels.1.length'])
  })

  test('stand open', () => {
    const tags = tagsOf(
      planEditor(
        { part: formOfPlan({}), path: '', faults: places, shape: planShape, lengthsIn: 'both' },
        '/',
      ).toString(),
    )
    const at = tags.findIndex(({ attributes }) => attributes.get('id') === 'supplies.panels')
    const around = tags.slice(0, at).findLast(({ name, kind }) => name === 'details' && kind === 'open')
    expect(around!.attributes.has('open')).toBe(true)
  })
})

describe('turnouts that are half told', () => {
  const kinds = [
    {},
    { id: 'a', hand: 'left', number: 6, angle: 9 },
    { id: 'b', hand: 'left', number: 6, outerRadius: '10 ft' },
    { id: 'c', hand: 'left', number: 6, heelSpread: 5 },
    { id: 'd', hand: 'left', measured: { length: 400, divergingAngle: 9 } },
  ]
  const elements = [
    { kind: 'turnout' },
    { kind: 'crossing', name: 'X' },
    { kind: 'turnout', name: 'W', type: 'six', enters: 'through', leaves: 'through' },
  ]
  const tracks = [{ name: 'm', elements, start: { from: { turnout: 'W' } } }]
  const rail = { section: '250', material: 'brass' }
  const faultsOf = (plan: object) => {
    const read = readPlan({ rail, ...plan })
    return faultsByPlace(read.ok ? [] : read.faults.map(inFormWords))
  }
  const inKinds = faultsOf({ turnoutTypes: kinds, tracks })
  const said = (place: string, faults = inKinds) => faults.get(place)?.map(({ detail }) => detail)

  test('are told at their own fields, in the words of the form', () => {
    expect(said('turnoutTypes.0.id')).toEqual(['give this kind of turnout a name'])
    expect(said('turnoutTypes.0.hand')).toEqual(['choose left, right or wye'])
    expect(said('turnoutTypes.0.number')).toEqual(['its size is not given yet'])
    expect(said('turnoutTypes.1.number')).toEqual(['its size is given twice'])
    expect(said('turnoutTypes.4.measured.divergingOffset')).toEqual(['a length is needed here'])
    expect(said('tracks.0.elements.0.name')).toEqual(['give this turnout or crossing a name'])
    expect(said('tracks.0.elements.0.type')).toEqual(['enter one of the kinds of turnout'])
    expect(said('tracks.0.elements.0.enters')).toEqual(['choose where the track comes to the turnout'])
    expect(said('tracks.0.elements.1.angle')).toEqual(['an angle is needed here'])
    expect(said('tracks.0.start.from.leg')).toEqual(['choose an end of the turnout'])
    expect(placeName(['turnoutTypes', 1, 'heelSpread'])).toBe('kind of turnout 2, heel spread')
  })

  test('name the fields and forms as the form does', () => {
    const form = 'it has no effect with form “Straight through the frog”'
    const whole = [{ name: 'm', elements: [{ kind: 'tangent', length: 500 }] }]
    const sizes = faultsOf({ turnoutTypes: [kinds[2], kinds[3]], tracks: whole })
    expect(said('turnoutTypes.0.outerRadius', sizes)).toEqual([form])
    expect(said('turnoutTypes.1.heelSpread', sizes)).toEqual([
      '“Heel spread” alone does not say how the switch rails lie',
    ])
    const none = faultsOf({ tracks: [{ name: 'm', elements: elements.slice(2) }] })
    expect(none.get('tracks.0.elements.0.type')![0]!.hint).toBe('describe it under “Turnouts”')
  })

  test('stand open, and the fields of a turnout are there', () => {
    const placed = {
      part: formOfPlan({ tracks }),
      path: '',
      faults: inKinds,
      shape: planShape,
      lengthsIn: 'both',
    } as const
    const tags = tagsOf(planEditor(placed, '/').toString())
    const card = tags.find(({ attributes }) => attributes.get('id') === 'turnoutTypes')
    expect(card!.attributes.has('open')).toBe(true)
    expect(tags.some(({ attributes }) => attributes.get('name') === 'tracks.0.elements.0.type')).toBe(true)
  })
})
