import { describe, expect, test } from 'vitest'
import { cautionsFor } from '../../src/estimate/cautions.ts'
import { preparePlan } from '../../src/estimate/plan.ts'
import { readPlan } from '../../src/estimate/read-plan.ts'
import { DEMO_PLAN } from '../../src/page/pages/demo-plan.ts'
import { cautionsOn } from '../../src/page/sheets/care.ts'
import { SHEETS } from '../../src/page/sheets/sheet-names.ts'
import { example } from '../api/asking.ts'
import { everySheet } from './all-sheets.ts'
import { tagsOf, textOf } from './markup.ts'
import { changed, visiting } from './visiting.ts'
import { worked } from './worked.ts'

const { store, get, post, ask } = visiting()

/** What each sheet has that no other has. */
const HEADINGS = {
  line: ['Plan to scale', 'Findings', 'Track dimensions'],
  shop: ['Shopping list'],
  saw: ['Cut list'],
  bench: ['Bending'],
  garden: ['Joints and gaps'],
  record: ['Assumptions', 'Other metals'],
} as const

const headingsOf = (markup: string) =>
  tagsOf(markup).flatMap(({ name, kind, text }) => (name === 'h2' && kind === 'open' ? [text.trim()] : []))

/** Addresses of the tabs, of links or of buttons. */
function tabsOf(markup: string) {
  return tagsOf(markup)
    .filter(({ attributes }) => attributes.get('class')?.split(' ').includes('tab'))
    .map(({ attributes }) => ({
      leadsTo: attributes.get('href') ?? attributes.get('formaction')!,
      isPresent: attributes.get('aria-current') === 'page',
    }))
}

async function savedPlan() {
  const { id } = await store().create({ name: 'Kept', notes: 'Ask the neighbour.', plan: DEMO_PLAN })
  return `/plans/${id}`
}

describe('each sheet has an address', () => {
  test('of the demo plan and of a saved one, which leads to the others', async () => {
    for (const base of ['/demo', await savedPlan()])
      for (const sheet of SHEETS) {
        const { status, markup } = await get(`${base}/${sheet}`)
        expect(status).toBe(200)
        for (const [other, headings] of Object.entries(HEADINGS))
          for (const heading of headings) expect(headingsOf(markup).includes(heading)).toBe(other === sheet)
        expect(tabsOf(markup)).toEqual(
          SHEETS.map((each) => ({ leadsTo: `${base}/${each}`, isPresent: each === sheet })),
        )
      }
  })

  test('of an older revision too; without a sheet it is the line', async () => {
    const base = await savedPlan()
    await store().replace(base.split('/')[2]!, { name: 'Kept', notes: '', plan: { ...DEMO_PLAN, title: 'Newer' } }, [1])
    const shop = await get(`${base}/revisions/1/shop`)
    expect(headingsOf(shop.markup)).toContain('Shopping list')
    expect(tabsOf(shop.markup)[2]!.leadsTo).toBe(`${base}/revisions/1/saw`)
    for (const path of ['/demo', base, `${base}/revisions/1`])
      expect(headingsOf((await get(path)).markup)).toContain('Plan to scale')
    expect((await ask(`${base}/cellar`)).status).toBe(404)
  })

  test('in the units that were chosen', async () => {
    const { markup, text } = await get('/demo/bench?show=feet')
    expect(tabsOf(markup)[0]!.leadsTo).toBe('/demo/line?show=feet')
    expect(text).toContain('Radius 9 ft, diameter 18 ft')
  })
})

describe('how much a page has', () => {
  /** Bytes of a page before it is compressed: own choice, for phones in a garden. */
  const MOST_BYTES = 150_000

  test.each(['/', '/new', '/demo', ...SHEETS.map((sheet) => `/demo/${sheet}`), '/shed', '/check', '/survey?example'])(
    '%s is under 150 kB, before it is compressed',
    async (path) => {
      const { status, markup } = await get(path)
      expect(status).toBe(200)
      expect(Buffer.byteLength(markup)).toBeLessThan(MOST_BYTES)
    },
  )

  test('so is each sheet of a plan that is only in its form, but for the form itself', async () => {
    const { fields } = await get('/demo')
    for (const sheet of SHEETS.filter((each) => each !== 'line')) {
      const { markup } = await post(`/sheets/${sheet}`, changed(fields, { do: 'work' }))
      expect([sheet, Buffer.byteLength(markup) < MOST_BYTES]).toEqual([sheet, true])
    }
  })
})

describe('a plan that is not saved', () => {
  test('goes from sheet to sheet, and nothing typed is lost', async () => {
    const { fields: blank } = await get('/demo?edit')
    let fields = changed(blank, {
      title: 'Mine <b>',
      notes: 'two\nlines',
      name: 'N',
      'tracks.2.elements.2.length': '3 ft 1 in',
      'figure.passing-loop.across': '12 ft',
      'figure.where': 'end',
    })
    fields.delete('do')
    const typed = new Map(fields)
    for (const sheet of [...SHEETS].reverse()) {
      const { status, markup, fields: kept } = await post(`/sheets/${sheet}`, changed(fields, { do: 'work' }))
      expect(status).toBe(200)
      expect(headingsOf(markup)).toContain(HEADINGS[sheet][0])
      expect(tabsOf(markup).map(({ leadsTo }) => leadsTo)).toEqual(SHEETS.map((each) => `/sheets/${each}`))
      fields = new Map(kept)
    }
    // The line comes last and has the form again, after five sheets without it.
    for (const [name, value] of typed) expect([name, fields.get(name)]).toEqual([name, value])
  })

  test('in feet, bare millimetres are not taken for inches on the way', async () => {
    const { fields } = await get('/demo?edit&show=feet')
    const saw = await post('/sheets/saw', changed(fields, { gauge: '45 mm', do: 'work' }))
    expect(JSON.parse(saw.fields.get('whole')!)).toMatchObject({ gauge: '45 mm' })
    const again = await post('/sheets/bench', changed(saw.fields, { do: 'work' }))
    expect(again.fields.get('whole')).toBe(saw.fields.get('whole'))
    const { fields: form } = await post('/sheets/line', changed(again.fields, { do: 'edit' }))
    expect([form.get('gauge'), form.get('show'), form.get('shownIn')]).toEqual(['45 mm', 'feet', 'feet'])
  })

  test('what a page takes along may be altered, and is then refused or left out', async () => {
    for (const whole of ['', '{', '[]', 'null', '7', '{"tracks":7}', '{"rail":{"section":[[]]}}'])
      expect(
        (
          await post(
            '/sheets/saw',
            new Map([
              ['whole', whole],
              ['do', 'work'],
            ]),
          )
        ).status,
      ).toBe(422)
  })

  test('keeps prices of other metals and the temperature while other sheets are looked at', async () => {
    const { fields } = await get('/demo')
    const typed = { 'metal.stainless.0': '19.50', railAt: '77 F', do: 'work' }
    for (const sheet of SHEETS) {
      const { fields: kept } = await post(`/sheets/${sheet}`, changed(fields, typed))
      expect([kept.get('metal.stainless.0'), kept.get('railAt') ?? '77 F']).toEqual(['19.50', '77 F'])
    }
  })

  test('that is a change of a saved one is posted to the sheets of that one', async () => {
    const base = await savedPlan()
    const { fields } = await get(base)
    const { markup, text } = await post(`${base}/saw`, changed(fields, { title: 'Changed', do: 'work' }))
    expect(text).toContain('changes not saved')
    expect(tabsOf(markup)[3]!.leadsTo).toBe(`${base}/bench`)
    expect(markup).toContain(`formaction="${base}/bench"`)
  })

  test('with a fault shows the form, whichever sheet was asked for', async () => {
    const { fields } = await get('/demo?edit')
    const { status, markup } = await post('/sheets/saw', changed(fields, { gauge: 'wide', do: 'work' }))
    expect(status).toBe(422)
    expect(tabsOf(markup)).toEqual([])
    expect(markup).toContain('id="gauge"')
  })

  test('has no address to open by itself', async () => {
    const { status, headers } = await ask('/sheets/saw')
    expect([status, headers.get('location')]).toEqual([303, '/#plan'])
  })
})

describe('nothing is lost by the division', () => {
  test('notes and what was assumed are on the record', async () => {
    const { text } = await get(`${await savedPlan()}/record`)
    expect(text).toContain('Ask the neighbour.')
  })

  test('every sheet is sound for plans of every kind', () => {
    for (const name of ['oval-of-ready-made-track', 'line-with-bed-and-feeders', 'loop-in-the-sun', 'quarter-loop'])
      for (const lengthsIn of ['both', 'feet', 'metric'] as const) {
        const text = textOf(everySheet(worked(example(name)), lengthsIn))
        for (const word of ['NaN', 'undefined', 'null', 'Infinity', '[object']) expect(text).not.toContain(word)
      }
  })

  test('each caution also stands on the sheet of its job', () => {
    const read = readPlan({
      ...DEMO_PLAN,
      rail: { section: '250', material: 'stainless' },
      power: { currentA: 4 },
    })
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    const cautions = cautionsFor(preparePlan(read.plan).plan, 40, true)
    expect(cautions.length).toBeGreaterThan(7)
    const found = (['shop', 'saw', 'bench', 'garden'] as const).flatMap((sheet) => cautionsOn(sheet, cautions))
    expect(cautions.filter((caution) => !found.includes(caution))).toEqual([])
    expect(cautionsOn('saw', cautions)[0]).toContain('deburr')
    expect(cautionsOn('bench', cautions)[0]).toContain('stainless and hard steel rail is springy')
    expect(cautionsOn('garden', cautions).join()).toContain('drill')
  })
})
