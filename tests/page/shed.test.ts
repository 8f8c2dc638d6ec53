import type { Hono } from 'hono'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { createApp } from '../../src/app.ts'
import type { ProjectStore } from '../../src/projects/store.ts'
import { NOTHING } from '../../src/shed/stock.ts'
import { inThisThread } from '../../src/workers/in-this-thread.ts'
import { planWith } from '../api/asking.ts'
import { temporaryStore } from '../servers/databases.ts'
import { fieldsOf, textOf } from './markup.ts'
import { unsoundness } from './soundness.ts'

let store: ProjectStore
let app: Hono

beforeAll(async () => {
  store = await temporaryStore()
  app = createApp({ store, workers: inThisThread })
})
afterAll(() => store.close())

async function shown(response: Response) {
  const markup = await response.text()
  if (markup !== '') expect(unsoundness(markup)).toEqual([])
  return { status: response.status, headers: response.headers, markup, fields: fieldsOf(markup) }
}

const get = async (path = '/shed') => shown(await app.request(path))
async function send(fields: Map<string, string>, change: Record<string, string>) {
  const body = new URLSearchParams([...new Map([...fields, ...Object.entries(change)])]).toString()
  const headers = { 'Content-Type': 'application/x-www-form-urlencoded', 'Sec-Fetch-Site': 'same-origin' }
  return shown(await app.request('/shed', { method: 'POST', headers, body }))
}

const stick = (n: number, length: string, count: string) => ({
  [`sticks.${n}.section`]: '250',
  [`sticks.${n}.material`]: 'brass',
  [`sticks.${n}.length`]: length,
  [`sticks.${n}.count`]: count,
})

test('the shed is written down, and shown with who has what of it', async () => {
  await store.create({
    name: '<b>Pond line</b>',
    notes: '',
    plan: planWith({ supplies: { sticks: [{ length: '6 ft' }] } }),
  })
  const empty = await get()
  expect(empty.status).toBe(200)
  expect(textOf(empty.markup)).toContain('No saved plan has reserved stock.')

  const more = await send(empty.fields, { ...stick(0, '6 ft', '3'), do: 'add sticks' })
  expect(more.status).toBe(200)
  expect(more.fields.get('sticks.0.length')).toBe('6 ft')
  expect(more.fields.has('sticks.1.length')).toBe(true)
  const saved = await send(more.fields, { ...stick(1, '1 ft 6-1/2 in', '1'), ties: '30', do: 'save' })
  expect(saved.status).toBe(303)

  const { stock } = await store.shed()
  expect(stock).toEqual({
    ...NOTHING,
    sticks: [
      { section: '250', material: 'brass', lengthMm: 1828.8, count: 3 },
      // By hand: 18.5 in of 25.4 mm.
      { section: '250', material: 'brass', lengthMm: 469.9, count: 1 },
    ],
    ties: 30,
  })
  expect(saved.headers.get('location')).toBe('/shed?saved')
  const after = await get('/shed?saved')
  expect(textOf(after.markup)).toContain('Saved.')
  expect(after.markup).not.toContain('<b>Pond')
  expect(textOf(after.markup)).toContain('Pond line')
  expect(textOf(after.markup)).toContain('2 × 1828.8 mm (6 ft), code 250 brass; ties: 30')
  expect(after.fields.get('sticks.0.length')).toBe('6 ft')
  expect(after.fields.get('sticks.1.length')).toBe('1 ft 6-1/2 in')
  // Sent back as it is, it stays as it is.
  expect((await send(after.fields, { do: 'save' })).status).toBe(303)
  expect((await store.shed()).stock).toEqual(stock)
})

test('what cannot be read is marked where it stands, and nothing is saved', async () => {
  const before = await store.shed()
  const { fields } = await get()
  const answer = await send(fields, { ...stick(2, 'long', ''), ties: '-1', do: 'save' })
  expect(answer.status).toBe(422)
  expect(answer.fields.get('sticks.2.length')).toBe('long')
  for (const place of ['sticks.2.length', 'sticks.2.count', 'ties'])
    expect(answer.markup).toMatch(new RegExp(`<input[^>]*name="${place}"[^>]*aria-invalid="true"`))
  expect(await store.shed()).toEqual(before)
})

test('what somebody else put in is not overwritten unawares', async () => {
  const { fields } = await get()
  await store.restock({ ...NOTHING, ties: 5 }, 'any')
  const answer = await send(fields, { ties: '77', do: 'save' })
  expect(answer.status).toBe(409)
  expect(textOf(answer.markup)).toContain('Someone else changed the shed')
  expect((await store.shed()).stock.ties).toBe(5)
  expect((await send(answer.fields, { do: 'save' })).status).toBe(303)
  expect((await store.shed()).stock.ties).toBe(77)
})

test('a form that is none is refused', async () => {
  const headers = { 'Content-Type': 'application/json', 'Sec-Fetch-Site': 'same-origin' }
  const response = await app.request('/shed', { method: 'POST', headers, body: '{}' })
  expect(response.status).toBe(415)
})

test('ready-made pieces, joints and strips are written down, and come back as they were', async () => {
  await store.restock(NOTHING, 'any')
  const { fields, markup } = await get()
  expect(textOf(markup)).toContain('Ready-made track, including cut pieces')
  const brass = (row: string) => ({ [`${row}.section`]: '250', [`${row}.material`]: 'brass' })
  const piece = (n: number, cells: Record<string, string>) =>
    Object.fromEntries(Object.entries(cells).map(([key, text]) => [`panels.${n}.${key}`, text]))
  const saved = await send(fields, {
    ...{ ...brass('panels.0'), ...piece(0, { across: '20 ft', angle: '30°', ties: '24', count: '3' }) },
    ...{ ...brass('panels.1'), ...piece(1, { length: '600', count: '2' }) },
    ...{ ...brass('parts.0'), 'parts.0.part': 'expansionJoints', 'parts.0.count': '2' },
    ...{ ...brass('parts.1'), 'parts.1.part': 'joiners', 'parts.1.count': '7' },
    ...{ ...brass('parts.2'), 'parts.2.part': 'insulatedJoiners', 'parts.2.count': '4' },
    ...{ ...brass('parts.3'), 'parts.3.part': 'transitionJoiners', 'parts.3.count': '1' },
    ...{ 'tieStrips.0.ties': '12', 'tieStrips.0.count': '5', do: 'save' },
  })
  expect(saved.status).toBe(303)
  const { stock } = await store.shed()
  const brassRow = { section: '250', material: 'brass' }
  expect(stock).toEqual({
    ...NOTHING,
    panels: [
      { ...brassRow, lengthMm: 600, radiusMm: null, angleDeg: null, ties: 0, count: 2 },
      // By hand: 10 ft are 3048 mm, π/6 of it 1595.93 mm.
      { ...brassRow, lengthMm: expect.closeTo(1595.93, 2), radiusMm: 3048, angleDeg: 30, ties: 24, count: 3 },
    ],
    joiners: [{ ...brassRow, count: 7 }],
    insulatedJoiners: [{ ...brassRow, count: 4 }],
    transitionJoiners: [{ ...brassRow, count: 1 }],
    expansionJoints: [{ ...brassRow, count: 2 }],
    tieStrips: [{ ties: 12, count: 5 }],
  })
  const after = await get()
  expect(after.fields.get('panels.1.across')).toBe('20 ft')
  expect(after.fields.get('panels.1.angle')).toBe('30')
  expect((await send(after.fields, { do: 'save' })).status).toBe(303)
  expect((await store.shed()).stock).toEqual(stock)

  // One of two kinds of parts is wrong: it is marked in the table of both.
  const wrong = await send(after.fields, {
    'parts.0.count': 'x',
    'parts.3.count': '-1',
    'panels.0.across': '20 ft',
    'panels.1.angle': '',
    do: 'save',
  })
  expect(wrong.status).toBe(422)
  for (const place of ['parts.0.count', 'parts.3.count', 'panels.0.length', 'panels.1.angle'])
    expect(wrong.markup).toMatch(
      new RegExp(`<input[^>]*name="${place.replaceAll('.', '[.]')}"[^>]*aria-invalid="true"`),
    )
  expect((await store.shed()).stock).toEqual(stock)
})

test('lengths are shown as they were typed, also through the interface, and offcuts in millimetres', async () => {
  const brass = { section: '250', material: 'brass', count: 1 }
  const body = JSON.stringify({
    sticks: [
      { ...brass, length: '2 m' },
      { ...brass, length: 1524 },
    ],
    panels: [{ ...brass, radius: '10 ft', angle: 30 }],
  })
  const headers = { 'Content-Type': 'application/json', 'If-Match': '*' }
  expect((await app.request('/v1/shed', { method: 'PUT', headers, body })).status).toBe(200)
  const { fields } = await get()
  expect([0, 1].map((n) => fields.get(`sticks.${n}.length`))).toEqual(['2 m', '1524'])
  expect([fields.get('panels.0.acrossIs'), fields.get('panels.0.across')]).toEqual(['radius', '10 ft'])
  expect((await send(fields, { 'sticks.1.length': '60 in', do: 'save' })).status).toBe(303)
  const { stock, lengthTexts } = await store.shed()
  expect(lengthTexts).toEqual({ '2000': '2 m', '1524': '60 in', '3048': '10 ft' })
  // Sent back as the interface answers it, in numbers, the texts stay; those of what is gone do not.
  await store.restock({ ...stock, panels: [] }, 'any')
  expect((await store.shed()).lengthTexts).toEqual({ '2000': '2 m', '1524': '60 in' })
})

test('a plan that is not saved yet counts on what is free in the shed, and says so', async () => {
  for (const { id } of (await store.list({ limit: 100, after: null })).items) await store.remove(id, 'any')
  await store.restock({ ...NOTHING, fasteners: 40 }, 'any')
  const page = async () => {
    const response = await app.request('/demo')
    return textOf(await response.text()).includes('What is free in the shed counts as on hand here')
  }
  expect(await page()).toBe(true)
  expect(await store.freeStock()).toEqual({ ...NOTHING, fasteners: 40 })
  const headers = { 'Content-Type': 'application/json' }
  const saved = { name: 'All of it', plan: planWith({ supplies: { sticks: [{ length: '2 ft' }] } }) }
  expect((await app.request('/v1/projects', { method: 'POST', headers, body: JSON.stringify(saved) })).status).toBe(201)
  expect(await store.freeStock()).toEqual(NOTHING)
  expect(await page()).toBe(false)
})
