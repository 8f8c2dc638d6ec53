import { expect, test } from 'vitest'
import { NOTHING } from '../../src/shed/stock.ts'
import { planWith } from '../api/asking.ts'
import { visiting } from './visiting.ts'

const { store, get, post, postJson, ask } = visiting()

/** Straight track, both rails of sticks of 1500 mm, joiners by tens. */
const planOf = (lengthMm: number) =>
  planWith({
    tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: lengthMm }] }],
    supplies: { sticks: [{ length: 1500, price: '10.00' }], ties: { spacing: 50 } },
  })
const content = (name: string, lengthMm: number) => ({ name, notes: '', plan: planOf(lengthMm) })
const STICKS = 'rail-stick: Rail, code 250 brass, 1500 mm (4 ft 11-1/16 in)'
const tick = (id: string, ...items: string[]) =>
  ask(`/plans/${id}/shopping`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/x-www-form-urlencoded', 'Sec-Fetch-Site': 'same-origin' },
    body: new URLSearchParams(items.map((item): [string, string] => ['item', item])).toString(),
  })
const isTicked = (markup: string, item: string) =>
  markup
    .split('<input')
    .filter((tag) => tag.includes('type="checkbox"') && tag.includes(`value="${item}"`))
    .map((tag) => /^[^>]* checked/.test(tag))

test('what was bought is ticked, stays ticked, and is open again when the plan needs more of it', async () => {
  const { id } = await store().create(content('Quarry <spur>', 3000))
  expect((await get(`/plans/${id}`)).markup).toContain(`href="/plans/${id}/shopping"`)
  const page = await get(`/plans/${id}/shopping`)
  expect(page.status).toBe(200)
  expect(page.markup).toContain('Quarry &lt;spur&gt;')
  expect(isTicked(page.markup, STICKS)).toEqual([false])

  const done = await tick(id, STICKS)
  expect([done.status, done.headers.get('location')]).toEqual([303, `/plans/${id}/shopping?saved`])
  const after = await get(`/plans/${id}/shopping?saved`)
  expect(isTicked(after.markup, STICKS)).toEqual([true])
  // by hand: two rails of 3000 mm in sticks of 1500
  expect(after.text).toContain('bought 4 of 4')
  expect(after.text).toContain('Saved.')

  await store().replace(id, content('Quarry spur', 4500), 'any')
  const longer = await get(`/plans/${id}/shopping`)
  expect(isTicked(longer.markup, STICKS)).toEqual([false])
  expect(longer.text).toContain('bought 4 of 6')
  // A box that is left as it is changes nothing.
  await tick(id)
  expect(await store().purchases(id)).toEqual([{ item: STICKS, quantity: 4 }])
  await tick(id, STICKS)
  expect(await store().purchases(id)).toEqual([{ item: STICKS, quantity: 6 }])
  await tick(id)
  expect(await store().purchases(id)).toEqual([])
})

test('what is no longer on the list is still named; what is unknown is not noted', async () => {
  const { id } = await store().create(content('Spur', 3000))
  await tick(id, STICKS, 'rail-stick: gold')
  await store().replace(id, { ...content('Spur', 3000), plan: { ...planOf(3000), supplies: {} } }, 'any')
  const { text } = await get(`/plans/${id}/shopping`)
  expect(text).toContain('Bought, but no longer on the list')
  expect(text).toContain('4 × Rail, code 250 brass, 1500 mm')
  expect(await store().purchases(id)).toHaveLength(1)
})

test('what more to buy since a revision, and what has changed, as a page and as a table', async () => {
  const { id } = await store().create(content('Pond', 3000))
  expect((await get(`/plans/${id}/since`)).status).toBe(404)
  await store().replace(id, content('Pond', 4500), 'any')
  expect((await get(`/plans/${id}`)).markup).toContain(`href="/plans/${id}/since"`)
  const { status, text, markup } = await get(`/plans/${id}/since`)
  expect(status).toBe(200)
  expect(text).toContain('To buy for revision 2 since revision 1')
  expect(text).toContain('track 1, element 1, length: “3000” in revision 1, now “4500”')
  // by hand: 6 sticks needed, 4 bought, 2 to buy
  expect(text).toMatch(/Rail, code 250 brass, 1500 mm \(4 ft 11-1\/16 in\) 6 4 4 2 2 20\.00/)
  expect(markup).toContain(`href="/v1/projects/${id}/tables/bill.csv?since=1"`)

  const csv = await (await ask(`/v1/projects/${id}/tables/bill.csv?since=1`)).text()
  const [header, sticks] = csv.split('\r\n')
  expect(header!.split(',massKg,')[1]).toBe('billTotal,taxRatePct,billTax,billGross,boughtBefore,plan,revision,date')
  expect(sticks).toMatch(/,1500,each,6,4,2,1,2,10\.00,20\.00,USD,0,[\d.]+,[\d.]+,,,,4,.+,2,\d{4}-\d\d-\d\d$/)
  for (const [path, code] of [
    ['bill.csv?since=3', 404],
    ['bill.csv?since=0', 400],
    ['elements.csv?since=1', 400],
    ['bill.json?since=1&since=2', 200],
  ] as const)
    expect([path, (await ask(`/v1/projects/${id}/tables/${path}`)).status]).toEqual([path, code])
  for (const since of ['2', '9', 'x', '0']) expect((await get(`/plans/${id}/since?since=${since}`)).status).toBe(404)
})

test('a built plan says so wherever it is shown, and its extension buys only what is new', async () => {
  await store().restock(NOTHING, 'any')
  const { id } = await store().create(content('Loop', 3000))
  await tick(id, STICKS)
  expect((await get(`/plans/${id}/extend`)).status).toBe(404)
  expect((await get(`/plans/${id}`)).text).not.toContain('Built :')
  await post(`/plans/${id}/built`, [['revision', '1']])

  // What was bought for it is used up.
  expect(await store().purchases(id)).toEqual([])
  expect((await get('/')).text).toMatch(/Loop saved .{5,40}UTC ?, built/)
  expect(await (await ask('/v1/projects?limit=1')).json()).toMatchObject({ items: [{ id, builtRevision: 1 }] })
  const built = await get(`/plans/${id}`)
  expect(built.text).toMatch(/Built : revision 1 was built on .* as it was built/)
  expect(built.markup).toContain(`href="/plans/${id}/extend"`)

  expect((await get(`/plans/${id}/shopping`)).text).toContain('Revision 1 is built, so there is nothing left to buy')
  expect((await tick(id, STICKS)).status).toBe(200)
  expect(await store().purchases(id)).toEqual([])

  const extended = await get(`/plans/${id}/extend`)
  expect(extended.status).toBe(200)
  expect(extended.text).toContain('This extends revision 1, which is built')
  expect(extended.fields.get('tracks.0.state')).toBe('existing')
  expect(extended.fields.get('tracks.1.start.after')).toBe('main')
  const drawn = new Map([
    ...extended.fields,
    ['tracks.1.elements.0.kind', 'tangent'],
    ['tracks.1.elements.0.length', '1500'],
    ['do', 'save'],
  ])
  const saved = await post(`/plans/${id}`, drawn)
  expect([saved.status, saved.headers.get('location')]).toEqual([303, `/plans/${id}`])
  const project = (await store().get(id))!
  expect(project).toMatchObject({ revision: 2, name: 'Loop' })
  expect((await get('/')).text).toContain('2 revisions, revision 1 built')
  expect((await get(`/plans/${id}`)).text).toContain('Revision 2 is not built.')
  // by hand: two rails of one stick each
  expect((await get(`/plans/${id}/shopping`)).text).toMatch(/Rail, code 250 brass, 1500 mm \([^)]*\) 2 2 20\.00/)
})

test('plans that are not there or cannot be worked out, and forms that are none', async () => {
  const { id } = await store().create({ name: 'Broken', notes: '', plan: { rail: {} } })
  expect((await get(`/plans/${id}/shopping`)).headers.get('location')).toBe(`/plans/${id}`)
  expect((await tick(id, 'x')).headers.get('location')).toBe(`/plans/${id}`)
  for (const path of ['shopping', 'since', 'extend']) expect((await get(`/plans/none/${path}`)).status).toBe(404)
  expect((await tick('none', 'x')).status).toBe(404)
  expect((await postJson(`/plans/${id}/shopping`)).status).toBe(415)
  await store().replace(id, { name: 'Broken', notes: '', plan: { rail: {} } }, 'any')
  expect((await get(`/plans/${id}/since`)).text).toContain('This plan cannot be calculated')
})
