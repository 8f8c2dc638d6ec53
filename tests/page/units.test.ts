import { describe, expect, test } from 'vitest'
import { asMeant, shownIn } from '../../src/page/form/bare-numbers.ts'
import { length, number, temperature } from '../../src/page/form/cells.ts'
import { formOfPlan, planOfForm } from '../../src/page/form/plan-form.ts'
import { planShape } from '../../src/page/form/plan-shape.ts'
import { inUnits } from '../../src/page/in-units.ts'
import { DEMO_PLAN } from '../../src/page/pages/demo-plan.ts'
import { SHEETS } from '../../src/page/sheets/sheet-names.ts'
import { sheetOf } from './all-sheets.ts'
import { tagsOf, textOf } from './markup.ts'
import { changed, visiting } from './visiting.ts'
import { worked } from './worked.ts'

const { store, get, post } = visiting()

/** Breaks most rules that have figures in their sentences, and leaves much to be assumed. */
const FAULTY = {
  rail: { section: '250', material: 'brass' },
  tracks: [
    {
      name: 'a',
      closed: true,
      elements: [
        { kind: 'tangent', length: 2000 },
        { kind: 'arc', radius: 500, angle: 180, turn: 'left' },
        { kind: 'tangent', length: 100 },
        { kind: 'arc', radius: 900, angle: 30, turn: 'right' },
        { kind: 'tangent', length: 1900 },
        { kind: 'arc', radius: 500, angle: 200, turn: 'left' },
      ],
      keepOut: [{ from: 0, to: 1800, reason: 'bridge' }],
      breaks: [{ at: 1000, kind: 'expansion-joint' }],
    },
    {
      name: 'b',
      start: { x: 0, y: 200, heading: 0, elevation: 0 },
      gradeLine: [
        { at: 0, elevation: 0 },
        { at: 1000, elevation: 60 },
      ],
      elements: [
        { kind: 'tangent', length: 3000 },
        { kind: 'easement', length: 400 },
        { kind: 'arc', radius: 1500, angle: 60, turn: 'left' },
      ],
    },
  ],
  standards: { minimumRadius: 600, longestCar: 400 },
  joints: { stagger: 200, betweenTies: true },
  climate: { coldest: -10, hottest: 35, laying: 60 },
  supplies: { sticks: [{ length: 1000 }], minimumPiece: 300 },
  power: { currentA: 5, supplyVoltageV: 18 },
} as const

/** Where both units are wanted, or the unit belongs to the name of a thing: chords, wires, examples of what to type. */
const WANTED_ANYWAY = [
  /Check on \d+ (?:mm|in)/g,
  /such as [^;.]*/g,
  /AWG \d+/g,
  /for example [^.]*/g,
  /per foot/g,
  // Sold by the metre.
  /Feeder wire, copper, .*? \d+ 0\.90 \d+\.\d\d/gs,
  /You can write lengths as .*?45 mm/g,
  /Units mm with .*?°F/g,
  /for 45 mm garden railways/g,
]

function leftOver(markup: string, unit: RegExp): string[] {
  const text = WANTED_ANYWAY.reduce((all, wanted) => all.replace(wanted, ''), textOf(markup))
  return [...text.matchAll(unit)].map(({ index }) => text.slice(Math.max(0, index - 60), index + 20))
}

describe('one switch of units holds in every sentence, table and drawing', () => {
  for (const [name, plan] of [
    ['faulty', FAULTY],
    ['demo', DEMO_PLAN],
  ] as const)
    test.each(SHEETS)(`of the ${name} plan, on the sheet %s`, (sheet) => {
      const done = worked({ ...plan, units: 'imperial', chords: ['12 in', '24 in'] })
      expect(leftOver(sheetOf(done, sheet, 'feet'), /\d (?:mm|m|cm|K)(?![\w²Ω])|°C/g)).toEqual([])
      const metric = worked({ ...plan, units: 'metric', chords: [300, 500] })
      expect(leftOver(sheetOf(metric, sheet, 'metric'), /\d (?:in|ft)\b(?! (?:a|each)\b)|°F/g)).toEqual([])
    })

  test('is wanted by plans that have such sentences', () => {
    const rules = new Set(worked(FAULTY).estimate.findings.map(({ rule }) => rule))
    for (const rule of ['minimum-radius', 'maximum-grade', 'reverse-curve', 'joint', 'laid-too-hot'])
      expect([rule, [...rules].some((each) => each.startsWith(rule))]).toEqual([rule, true])
  })

  test('also in what is wrong with a plan', async () => {
    const { markup } = await post(
      '/',
      changed((await get('/?show=feet')).fields, {
        'tracks.0.name': 'a',
        'tracks.0.elements.0.kind': 'tangent',
        'tracks.0.elements.0.length': '-3',
        'supplies.minimumPiece': '100 in',
        'climate.coldest': '200',
        do: 'work',
      }),
    )
    const errors = tagsOf(markup).filter(({ attributes }) => attributes.get('class') === 'fault')
    expect(errors.length).toBeGreaterThan(1)
    expect(leftOver(markup.replace(/value="[^"]*"/g, ''), /\d mm(?![\w²])|°C/g)).toEqual([])
  })
})

test('a sentence keeps one of two units, and has its figures in those of the page', () => {
  const text = 'The rail of 1524 mm (5 ft) is laid at 30 °C, 20 K below; 0.4 mm are left, of 2286 mm.'
  expect(inUnits(text, 'both')).toBe(text)
  expect(inUnits(text, 'metric')).toBe('The rail of 1524 mm is laid at 30 °C, 20 K below; 0.4 mm are left, of 2286 mm.')
  // by hand: 30·1.8 + 32, 20·1.8, 0.4/25.4, 2286/304.8
  expect(inUnits(text, 'feet')).toBe(
    'The rail of 5 ft is laid at 86 °F, 36 °F below; 0.0157 in are left, of 7 ft 6 in.',
  )
})

describe('a bare number in the form', () => {
  test('is shown with its unit and read as inches or °F on a page in feet', () => {
    expect([shownIn('45', length, 'feet'), shownIn('45', length, 'both'), shownIn('20', temperature, 'feet')]).toEqual([
      '45 mm',
      '45',
      '20 C',
    ])
    expect([shownIn('45', number, 'feet'), shownIn('6 ft', length, 'feet'), shownIn('', length, 'feet')]).toEqual([
      '45',
      '6 ft',
      '',
    ])
    const form = formOfPlan({
      gauge: 1.75,
      tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 30 }] }],
      climate: { coldest: 20 },
      chords: [12, 24],
    })
    expect(planOfForm(asMeant(form, planShape, 'feet'))).toMatchObject({
      gauge: '1.75 in',
      tracks: [{ elements: [{ length: '30 in' }] }],
      climate: { coldest: '20 F' },
      chords: ['12 in', '24 in'],
    })
    expect(planOfForm(asMeant(form, planShape, 'both'))).toMatchObject({ gauge: 1.75, climate: { coldest: 20 } })
  })

  test('keeps its size when the switch is turned, and a saved plan keeps the switch', async () => {
    const filled = changed((await get('/?show=metric')).fields, {
      name: 'Kept',
      gauge: '45',
      'rail.section': '250',
      'rail.material': 'brass',
      'tracks.0.name': 'a',
      'tracks.0.elements.0.kind': 'tangent',
      'tracks.0.elements.0.length': '3000',
    })
    const inFeet = await post('/', changed(filled, { show: 'feet', do: 'work' }))
    expect(inFeet.status).toBe(200)
    const second = inFeet.fields
    expect([second.get('gauge'), second.get('tracks.0.elements.0.length')]).toEqual(['45 mm', '3000 mm'])
    expect(inFeet.text).toContain('A number without a unit is inches or °F.')
    await post('/', changed(second, { 'tracks.0.elements.0.length': '30', do: 'save' }))
    const [saved] = await store()
      .list({ limit: 1, after: null })
      .then(({ items }) => items)
    const { plan } = (await store().get(saved!.id))!
    expect(plan).toMatchObject({ units: 'imperial', gauge: '45 mm', tracks: [{ elements: [{ length: '30 in' }] }] })
    expect(leftOver((await get(`/plans/${saved!.id}/garden`)).markup, /\d mm(?!\w)/g)).toEqual([])
  })
})

describe('a saved plan in feet', () => {
  const save = async () =>
    (await store().create({ name: 'In feet', notes: '', plan: { ...FAULTY, units: 'imperial' } })).id
  const METRIC_LEFT = /\d (?:mm|m|cm|K)(?![\w²Ω])|°C/g

  test('keeps the units asked for on the way between its sheets, both of them too', async () => {
    const id = await save()
    for (const [asked, kept] of [
      ['', ''],
      ['?show=feet', ''],
      ['?show=both', '?show=both'],
      ['?show=metric', '?show=metric'],
    ]) {
      const { markup } = await get(`/plans/${id}/saw${asked}`)
      const tabs = [...markup.matchAll(/href="(\/plans\/[^"]*\/line[^"#]*)"/g)].map(([, address]) => address)
      expect(tabs.length).toBeGreaterThan(0)
      expect(new Set(tabs)).toEqual(new Set([`/plans/${id}/line${kept}`]))
    }
    expect((await get(`/plans/${id}/record?show=both`)).text).toContain('45 mm')
  })

  test('is in feet on its pages for buying and building', async () => {
    const id = await save()
    const first = (await store().get(id))!
    await store().replace(id, { ...first, plan: { ...first.plan, gauge: 45 } }, [1])
    for (const page of ['shopping', 'since', 'built']) {
      const { status, markup } = await get(`/plans/${id}/${page}`)
      expect([page, status, leftOver(markup, METRIC_LEFT)]).toEqual([page, 200, []])
    }
  })
})

test('the shed is shown and read in the units chosen there', async () => {
  const first = (await get('/shed?show=feet')).fields
  const rail = { 'sticks.0.section': '250', 'sticks.0.material': 'brass', 'sticks.0.count': '3' }
  const saved = await post('/shed', changed(first, { ...rail, 'sticks.0.length': '72', do: 'save' }))
  expect([saved.status, saved.headers.get('location')]).toEqual([303, '/shed?saved&show=feet'])
  // closed form: 72 in = 1828.8 mm
  expect((await store().shed()).stock.sticks).toEqual([
    { section: '250', material: 'brass', lengthMm: 1828.8, count: 3 },
  ])
  await store().create({ name: 'Takes some', notes: '', plan: { rail: FAULTY.rail, tracks: [FAULTY.tracks[0]] } })
  const again = await get('/shed?show=feet')
  expect(leftOver(again.markup, /\d (?:mm|m|cm)(?![\w²])/g)).toEqual([])
  expect(leftOver((await get('/shed?show=metric')).markup.replace(/value="[^"]*"/g, ''), /\d (?:in|ft)\b/g)).toEqual([])
  const turned = await post('/shed', changed(again.fields, { show: 'metric', do: 'show' }))
  expect([turned.status, turned.fields.get('shownIn'), turned.fields.get('sticks.0.length')]).toEqual([
    200,
    'metric',
    '72 in',
  ])
})

describe('the check of a bend', () => {
  test('is in the units chosen there, with its defaults and faults', async () => {
    const laid = 'chord=500&readings=0+1.5+5+9.5+13+11+14.5+10+13+12.5+8+6+1+0&fixed=7'
    for (const query of [
      laid,
      'chord=500&readings=12.8+13.4+14.5+13.1+11.6&across=2400&acrossIs=radius',
      'chord=5000&across=800&acrossAt=face',
      'chord=500&across=20&acrossAt=centre',
    ])
      expect([
        query,
        leftOver((await get(`/check?${query}&show=feet`)).markup, /\d (?:mm|m|cm)(?![\w²])/g).filter(
          (text) => !text.includes('300 mm'),
        ),
      ]).toEqual([query, []])
  })

  test('reads a bare length in inches on a page in feet', async () => {
    const { fields, text } = await get('/check?chord=12&across=96&acrossAt=face&show=feet&shownIn=feet')
    expect([fields.get('chord'), fields.get('across'), fields.get('readingsIn')]).toEqual(['12 in', '96 in', 'in'])
    // closed form: r - sqrt(r² - c²/4) with r = 96 in, c = 12 in is 0.1877 in, to 1/64 in 3/16 in
    expect(text).toContain('3/16 in')
    expect((await get('/check?chord=300&across=2400&acrossAt=face&show=feet')).fields.get('chord')).toBe('300 mm')
  })
})
