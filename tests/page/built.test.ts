import { expect, test } from 'vitest'
import { NOTHING } from '../../src/shed/stock.ts'
import { planWith } from '../api/asking.ts'
import { visiting } from './visiting.ts'

const { store, get, post, postJson, ask } = visiting()

/** Saved through the service, so that the shed is dealt out. */
async function saved(name: string, plan: unknown): Promise<string> {
  const headers = { 'Content-Type': 'application/json' }
  const response = await ask('/v1/projects', { method: 'POST', headers, body: JSON.stringify({ name, plan }) })
  return ((await response.json()) as { id: string }).id
}

/** Two metres of straight track: 4 m of rail out of sticks of 1500. */
const SUPPLIES = { sticks: [{ length: 1500 }], ties: { spacing: 50 } }
const PLAN = planWith({
  tracks: [{ name: 'main', elements: [{ kind: 'tangent', length: 2000 }] }],
  supplies: SUPPLIES,
})

test('a plan is taken as built after being asked once more; the shed loses and gains what was told before', async () => {
  await store().restock(
    { ...NOTHING, sticks: [{ section: '250', material: 'brass', lengthMm: 1500, count: 2 }], ties: 10 },
    'any',
  )
  const id = await saved('Quarry <spur>', PLAN)
  const plan = await get(`/plans/${id}`)
  expect(plan.markup).toContain(`href="/plans/${id}/built"`)

  const asked = await get(`/plans/${id}/built`)
  expect(asked.status).toBe(200)
  expect(asked.markup).toContain('Quarry &lt;spur&gt;')
  expect(asked.text).toContain('2 × 1500 mm')
  expect(asked.text).toContain('ties: 10')
  expect((await store().shed()).stock.ties).toBe(10)

  const done = await post(`/plans/${id}/built`, asked.fields)
  expect([done.status, done.headers.get('location')]).toEqual([303, '/shed'])
  const { stock } = await store().shed()
  expect(stock.ties).toBe(0)
  // By hand: 3 × 1500 − 2 × 2000 = 500 mm are left over, less a kerf of 1 mm for each of up to three cuts.
  const leftMm = stock.sticks.reduce((sum, { lengthMm, count }) => sum + lengthMm * count, 0)
  expect(leftMm).toBeGreaterThanOrEqual(497)
  expect(leftMm).toBeLessThanOrEqual(499)

  const again = await get(`/plans/${id}/built`)
  expect(again.text).toContain('Revision 1 was built on')
  expect(again.markup).not.toContain('<form')
  const twice = await post(`/plans/${id}/built`, [['revision', '1']])
  expect(twice.status).toBe(409)
  expect(twice.text).toContain('Revision 1 was built on')
  expect((await store().shed()).stock).toEqual(stock)
})

test('what was saved in the meantime is not taken as built unawares', async () => {
  const { id } = await store().create({ name: 'Spur', notes: '', plan: PLAN })
  await store().replace(id, { name: 'Spur', notes: 'longer', plan: PLAN }, 'any')
  const stale = await post(`/plans/${id}/built`, [['revision', '1']])
  expect(stale.status).toBe(409)
  expect(stale.text).toContain('someone else saved revision 2 of this plan')
  expect(await store().builds(id)).toEqual([])
})

test('a plan that cannot be worked out, one that is not there, a form that is none', async () => {
  const { id } = await store().create({ name: 'Broken', notes: '', plan: { rail: {} } })
  const asked = await get(`/plans/${id}/built`)
  expect(asked.status).toBe(200)
  expect(asked.text).toContain('This plan cannot be calculated')
  expect(asked.markup).not.toContain('<form')
  expect((await post(`/plans/${id}/built`, [['revision', '1']])).status).toBe(409)
  expect((await get('/plans/none/built')).status).toBe(404)
  expect((await post('/plans/none/built', [['revision', '1']])).status).toBe(404)
  expect((await postJson(`/plans/${id}/built`)).status).toBe(415)
})
