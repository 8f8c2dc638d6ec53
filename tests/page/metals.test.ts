import { expect, test } from 'vitest'
import { changed, visiting } from './visiting.ts'

const { store, get, post } = visiting()

/** The page of a saved plan, and what comes of sending its form with some fields changed. */
async function pageOf(material: string) {
  const { id } = await store().create({
    name: 'Spur',
    notes: '',
    plan: { ...PLAN, rail: { section: '250', material } },
  })
  const path = `/plans/${id}`
  return {
    opened: await get(`${path}/record`),
    send: (fields: Map<string, string>, change: Record<string, string>) => post(path, changed(fields, change)),
  }
}

/** Three metres of straight track: four sticks of 1500 at 10.00 in its own metal. */
const PLAN = {
  tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: 3000 }] }],
  supplies: {
    sticks: [{ length: 1500, price: '10.00' }],
    joiners: { pricePerPack: '0' },
    ties: { pricePerPack: '0' },
    fasteners: { pricePerPack: '0' },
  },
}

test('a plan is worked out in other metals at the prices typed for them, and the prices stay in their fields', async () => {
  const { opened, send } = await pageOf('brass')
  expect(opened.fields.get('metal.stainless.0')).toBe('')
  expect(opened.fields.has('metal.brass.0')).toBe(false)

  const { status, text, fields } = await send(opened.fields, { 'metal.aluminium.0': '7.50', do: 'compare' })
  expect(status).toBe(200)
  // By hand: 4 × 10.00 and 4 × 7.50; of stainless only the rail has no price.
  expect(text).toMatch(/Brass as in the plan 40\.00 USD/)
  expect(text).toContain('30.00 USD')
  expect(text).toMatch(/0\.00 USD excluding: Rail, code 250 stainless steel/)
  expect(text).toContain('Aluminium costs least and weighs least.')
  expect(fields.get('metal.aluminium.0')).toBe('7.50')
  expect(fields.get('metal.stainless.0')).toBe('')
  // Working it out again keeps what was typed.
  expect((await send(fields, { do: 'work' })).fields.get('metal.aluminium.0')).toBe('7.50')
})

test('what is no price is marked at its metal, and the plan is shown all the same', async () => {
  const { opened, send } = await pageOf('brass')
  const { status, text, markup, fields } = await send(opened.fields, {
    'metal.stainless.0': 'dear',
    'metal.aluminium.0': '-1',
    do: 'compare',
  })
  expect(status).toBe(422)
  expect(markup.match(/aria-invalid="true"/g)).toHaveLength(2)
  expect(text).toMatch(/Stainless[^:]*: .*Aluminium: /)
  expect(fields.get('metal.stainless.0')).toBe('dear')
  expect(text).toContain('Assumptions')
})

test('the plan’s own metal is not asked for twice, however it is spelt', async () => {
  const { opened } = await pageOf('aluminum')
  expect([...opened.fields.keys()].filter((name) => name.startsWith('metal.'))).toEqual([
    'metal.brass.0',
    'metal.stainless.0',
  ])
  const steel = await pageOf('steel')
  const { status, text } = await steel.send(steel.opened.fields, { do: 'compare' })
  expect(status).toBe(200)
  expect(text).toMatch(/Steel .*as in the plan 40\.00 USD/)
})
