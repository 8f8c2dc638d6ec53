import { expect, test } from 'vitest'
import { POND_PLAN } from '../page/pond-plan.ts'
import { arriving, cell, DESKTOP, field, PHONE, scripted, typeTwoElements, violations } from './scripted.ts'

const { open, store } = scripted()

test('long work says that it goes on, and is stopped with everything typed still there', async () => {
  const { page } = await open('/new')
  await typeTwoElements(page)
  // Nothing can be asked of a page while another is on its way: it looks at itself, and presses the button.
  expect(await violations(page)).toEqual([])
  await page.evaluate(`new MutationObserver((_, watching) => {
    const line = document.querySelector('.working')
    if (!line) return
    watching.disconnect()
    setTimeout(async () => {
      const { violations } = await axe.run()
      window.seen = { text: line.textContent, violations: violations.map(({ id }) => id), bars: line.querySelectorAll('progress').length }
      line.querySelector('button').click()
    }, 1_500)
  }).observe(document.body, { childList: true, subtree: true })`)
  let release = () => {}
  const released = new Promise<void>((resolve) => {
    release = resolve
  })
  await page.route('**/', async (route) => {
    await released
    await route.continue().catch(() => {})
  })
  const calculate = page.getByRole('button', { name: 'Calculate', exact: true })
  await calculate.click({ noWaitAfter: true })
  const seen = await page.waitForFunction('window.seen', null, { timeout: 20_000 })
  expect(await seen.jsonValue()).toMatchObject({
    text: expect.stringMatching(/^Working it out …[1-9]\d* sStop$/),
    violations: [],
    bars: 1,
  })
  release()
  expect(await page.locator('.working').count()).toBe(0)
  expect(new URL(page.url()).pathname).toBe('/new')
  expect(await cell(page, 1, 'across').inputValue()).toBe('10 ft')
  await arriving(page, () => calculate.click())
  expect(await page.locator('.summary').textContent()).toContain('4.223 m')
})

test('a joint that is tapped is shown in its strip and in its table, whichever was tapped', async () => {
  const { id } = await store().create({ name: 'Pond', notes: '', plan: POND_PLAN })
  const { page } = await open(`/plans/${id}/garden`)
  const chosen = () => page.locator('.chosen').evaluateAll((all) => all.map((each) => each.getAttribute('data-at')))
  const row = page.locator('.joints-table tbody tr').nth(2)
  const place = await row.getAttribute('data-at')
  await row.locator('td').first().click()
  expect(new Set(await chosen())).toEqual(new Set([place]))
  expect(await page.locator('.strip .chosen').count()).toBeGreaterThan(0)
  const other = page.locator('.strip [data-at]').nth(1)
  const otherPlace = await other.getAttribute('data-at')
  await other.dispatchEvent('click', { bubbles: true })
  expect(await page.locator(`.joints-table tr.chosen`).getAttribute('data-at')).toBe(otherPlace)
})

test('one switch shows every sheet in other units', async () => {
  const { page } = await open('/demo/saw', DESKTOP)
  const units = page.getByRole('navigation', { name: 'Units' })
  expect(await units.locator('[aria-current]').textContent()).toBe('mm and feet')
  await arriving(page, () => units.getByRole('link', { name: 'feet, °F' }).click())
  expect(new URL(page.url()).search).toBe('?show=feet')
  expect(await page.locator('main').textContent()).not.toMatch(/\d mm/)
  await arriving(page, () => page.locator('.tab').filter({ hasText: 'Line' }).click())
  expect(await units.locator('[aria-current]').textContent()).toBe('feet, °F')
  await arriving(page, () => units.getByRole('link', { name: 'mm, °C' }).click())
  expect(await page.locator('.summary').textContent()).not.toContain(' ft')
})

test('a plan that is not saved is printed from the page', async () => {
  const { page } = await open('/new', PHONE)
  await typeTwoElements(page)
  await field(page, 'title').fill('Round the shed')
  await arriving(page, () => page.getByRole('button', { name: 'Calculate', exact: true }).click())
  const printed = page.waitForEvent('download')
  await page.getByRole('button', { name: 'All sheets as PDF' }).click()
  expect((await printed).suggestedFilename()).toBe('sheets.pdf')
  // The page is still there, and what was typed is not taken for what the next page has.
  expect(await page.locator('.summary').textContent()).toContain('4.223 m')
  await page.goto('/')
  expect(await page.locator('.kept').textContent()).toContain('Continue')
  await arriving(page, () => page.getByRole('link', { name: 'Continue' }).click())
  await arriving(page, () => page.getByRole('button', { name: 'Restore' }).click())
  expect(await field(page, 'title').inputValue()).toBe('Round the shed')
})
