import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { DEMO_PLAN } from '../../src/page/pages/demo-plan.ts'
import { arriving, DESKTOP, PHONE, scripted, violations } from './scripted.ts'

const { open, newPage, store, url } = scripted()

const done = (page: Page, card: number) => page.locator(`#card-${card} .finish button`)
const isDone = async (page: Page, card: number) => (await done(page, card).getAttribute('aria-pressed')) === 'true'
const made = async () => (await store().create({ name: 'At the bench', notes: '', plan: DEMO_PLAN })).id

test('a card is ticked off, the next one comes into view, and the ticks belong to the revision', async () => {
  const id = await made()
  const { page } = await open(`/plans/${id}/bench`, PHONE)
  const cards = await page.locator('.finish').count()
  expect(cards).toBeGreaterThan(3)
  await done(page, 0).click()
  expect(await isDone(page, 0)).toBe(true)
  await expect.poll(() => store().finishedCards(id, 1)).toHaveLength(1)
  const next = (await page.locator('#card-1').boundingBox())!
  expect(next.y).toBeGreaterThanOrEqual(-1)
  expect(next.y).toBeLessThan(PHONE.height / 2)
  expect(await page.locator('.finished-count').textContent()).toBe(`1 of ${cards} cards done.`)
  expect(await violations(page)).toEqual([])
  for (const card of await page.locator('.job').all())
    expect((await card.boundingBox())!.height).toBeLessThanOrEqual(PHONE.height)
  await page.reload()
  expect([await isDone(page, 0), await isDone(page, 1)]).toEqual([true, false])
  await done(page, 0).click()
  await expect.poll(() => store().finishedCards(id, 1)).toHaveLength(0)
  await done(page, 1).click()
  await expect.poll(() => store().finishedCards(id, 1)).toHaveLength(1)
  await store().replace(id, { name: 'At the bench', notes: '', plan: DEMO_PLAN }, 'any')
  await page.goto(`/plans/${id}/bench`)
  expect(await page.locator('.job.finished').count()).toBe(0)
  await page.goto(`/plans/${id}/revisions/1/bench`)
  expect(await isDone(page, 1)).toBe(true)
})

test('ticks made while the network is away are kept and sent when it is back, after a reload as well', async () => {
  const id = await made()
  const { page, context } = await open(`/plans/${id}/bench`)
  await context.setOffline(true)
  await done(page, 0).click()
  await done(page, 2).click()
  expect([await isDone(page, 0), await isDone(page, 2)]).toEqual([true, true])
  await expect.poll(() => page.locator('.finished-count').textContent()).toContain('2 ticks are kept here')
  expect(await store().finishedCards(id, 1)).toEqual([])
  await context.setOffline(false)
  await expect.poll(() => store().finishedCards(id, 1), { timeout: 9_000 }).toHaveLength(2)
  await expect.poll(() => page.locator('.finished-count').textContent()).not.toContain('kept here')

  await page.route('**/cards', (route) => route.abort())
  await done(page, 1).click()
  await expect.poll(() => page.locator('.finished-count').textContent()).toContain('1 tick is kept here')
  await page.close()
  const again = await newPage(context, `${url()}/plans/${id}/bench`)
  expect(await isDone(again, 1)).toBe(true)
  await expect.poll(() => store().finishedCards(id, 1)).toHaveLength(3)
})

test('without script each tick is a form, and the answer stands at the next card', async () => {
  const id = await made()
  const { page } = await open(`/plans/${id}/bench?show=feet`, DESKTOP, { script: false })
  await arriving(page, () => done(page, 0).click())
  expect(page.url()).toBe(`${url()}/plans/${id}/bench?show=feet#card-1`)
  expect(await isDone(page, 0)).toBe(true)
  expect(await page.locator('.finished-count').textContent()).toMatch(/^1 of \d+ cards done\.$/)
  await arriving(page, () => done(page, 0).click())
  expect(await store().finishedCards(id, 1)).toEqual([])
  await page.goto('/demo/bench')
  expect(await page.locator('.finish').count()).toBe(0)
})

test('ticks of what is not there are refused', async () => {
  const id = await made()
  const { page } = await open(`/plans/${id}/bench`)
  const send = async (path: string, form: Record<string, string>) =>
    (await page.request.post(path, { form, headers: { Origin: url() } })).status()
  expect(await send(`/plans/${id}/revisions/2/cards`, { card: 'L1', done: 'yes' })).toBe(404)
  expect(await send(`/plans/${id}/revisions/1/cards`, { card: '', done: 'yes' })).toBe(404)
  expect(await send(`/plans/${id}/revisions/1/cards`, { card: 'x'.repeat(1_001), done: 'yes' })).toBe(404)
  expect(await send(`/plans/${id}/revisions/x/cards`, { card: 'L1', done: 'yes' })).toBe(404)
  expect(await store().finishedCards(id, 1)).toEqual([])
})
