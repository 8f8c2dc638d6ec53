import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { arriving, cell, DESKTOP, field, PHONE, scripted, typeTwoElements, violations } from './scripted.ts'

const { open } = scripted()

const tool = (page: Page, name: string) => page.locator('.row-tools').getByRole('button', { name, exact: true })
const focused = (page: Page) => page.evaluate('document.activeElement.name')

/** Kind and length or curve size of each row that is filled in. */
const rows = (page: Page): Promise<string[]> =>
  page.evaluate(`[...document.querySelectorAll('table.elements tbody tr')].map((row) => {
    const of = (key) => row.querySelector('[name="' + row.id + '.' + key + '"]').value
    return [row.cells[0].textContent.trim(), of('kind'), of('length'), of('across'), of('angle'), of('turn')].join(' ').trim()
  }).filter((text) => /[a-z]/.test(text))`)

const STRAIGHT = 'tangent 6 ft'
const CURVE = 'arc  10 ft 90 left'

test('rows are inserted, duplicated, moved and deleted, and each step is undone and done again', async () => {
  const { page } = await open('/new')
  await typeTwoElements(page)
  const expected = [[`1 ${STRAIGHT}`, `2 ${CURVE}`]]
  const step = async (name: string, ...now: string[]) => {
    await tool(page, name).click()
    expect(await rows(page)).toEqual(now)
    expected.push(now)
  }
  await cell(page, 1, 'angle').focus()
  await step('Duplicate', `1 ${STRAIGHT}`, `2 ${CURVE}`, `3 ${CURVE}`)
  await step('Move up', `1 ${STRAIGHT}`, `2 ${CURVE}`, `3 ${CURVE}`)
  await step('Move up', `1 ${CURVE}`, `2 ${STRAIGHT}`, `3 ${CURVE}`)
  await step('Insert above', `2 ${CURVE}`, `3 ${STRAIGHT}`, `4 ${CURVE}`)
  await cell(page, 3, 'across').focus()
  await step('Delete', `2 ${CURVE}`, `3 ${STRAIGHT}`)
  await cell(page, 1, 'across').focus()
  await step('Move down', `2 ${STRAIGHT}`, `3 ${CURVE}`)
  // Exchanging two alike rows changed nothing, so there is nothing of it to undo.
  const steps = expected.filter((each, n) => n === 0 || each.join() !== expected[n - 1]!.join())
  for (const before of steps.slice(0, -1).reverse()) {
    await tool(page, 'Undo').click()
    expect(await rows(page)).toEqual(before)
  }
  for (const after of steps.slice(1)) {
    await tool(page, 'Redo').click()
    expect(await rows(page)).toEqual(after)
  }
  expect(await tool(page, 'Redo').isDisabled()).toBe(true)
  expect(await violations(page)).toEqual([])
})

test('what the rows became is what is sent and drawn', async () => {
  const { page } = await open('/new')
  await typeTwoElements(page)
  await page.getByRole('button', { name: 'Insert a row above element 1', exact: true }).click()
  await cell(page, 2, 'angle').focus()
  await tool(page, 'Duplicate').click()
  // By hand: 1828.8 mm and two quarters of a circle of 1524 mm radius, 4787.8 mm.
  await expect.poll(() => page.locator('#live .summary').textContent()).toContain('6.617 m')
  expect(await field(page, 'tracks.0.elements.3.turn').getAttribute('aria-label')).toBe('Turn, element 4')
  await page.getByRole('button', { name: 'Remove element 1', exact: true }).click()
  await arriving(page, () => page.getByRole('button', { name: 'Calculate', exact: true }).click())
  expect(await rows(page)).toEqual([`1 ${STRAIGHT}`, `2 ${CURVE}`, `3 ${CURVE}`])
  expect(await page.locator('.summary').textContent()).toContain('6.617 m')
})

test('rows are pasted from a spreadsheet, in the order of the table or under names of their own', async () => {
  const { page } = await open('/new')
  const paste = (text: string) =>
    page.evaluate(
      `(() => {
        const data = new DataTransfer()
        data.setData('text/plain', ${JSON.stringify(text)})
        document.activeElement.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))
      })()`,
    )
  await cell(page, 0, 'kind').focus()
  await paste('Straight\t2 m\r\nCurve\t\t3 m\t45\tRight\r\nMonorail\t1 m\r\n')
  expect(await rows(page)).toEqual(['1 tangent 2 m', '2 arc  3 m 45 right', '3  1 m'])
  expect(await page.locator('#said').textContent()).toContain('3 rows are pasted. 1 cell was not understood')
  await cell(page, 0, 'length').focus()
  await paste('turn\tradius (ft)\tkind\tangle\nleft\t6\tcurve\t30\n\t\tstraight\t\n')
  expect((await rows(page)).slice(0, 1)).toEqual(['1 arc 2 m 6 ft 30 left'])
  expect(await field(page, 'tracks.0.elements.0.acrossIs').inputValue()).toBe('radius')
  await tool(page, 'Undo').click()
  expect(await rows(page)).toEqual(['1 tangent 2 m', '2 arc  3 m 45 right', '3  1 m'])
  await cell(page, 0, 'kind').focus()
  await paste('kind\tdegree\tchord (ft)\nCurve\t20\t2\n')
  expect((await rows(page)).slice(0, 1)).toEqual(['1 arc 2 m 20'])
  expect(await field(page, 'tracks.0.elements.0.chord').inputValue()).toBe('2 ft')
})

test.each([true, false])('a degree asks for its chord, script: %s', async (script) => {
  const { page } = await open('/new', undefined, { script })
  const chord = field(page, 'tracks.0.elements.0.chord')
  await cell(page, 0, 'kind').selectOption('Curve')
  expect(await chord.isVisible()).toBe(false)
  await field(page, 'tracks.0.elements.0.acrossIs').selectOption('Degree')
  await cell(page, 0, 'across').focus()
  await page.keyboard.type('60')
  await page.keyboard.press('Tab')
  expect(await focused(page)).toBe('tracks.0.elements.0.chord')
  await page.keyboard.type('2 m')
  await cell(page, 0, 'angle').fill('90')
  await cell(page, 0, 'turn').selectOption('Left')
  await arriving(page, () => page.getByRole('button', { name: 'Calculate', exact: true }).click())
  // Closed form: 60° over a chord of 2 m is a radius of 2 m, and a quarter of it is π m long.
  expect(await page.locator('.summary').textContent()).toContain('3.142 m')
  expect(await page.locator('#track').textContent()).toContain('R 2000 mm')
  expect(await cell(page, 0, 'across').inputValue()).toBe('60')
  expect(await chord.isVisible()).toBe(true)
})

test('a whole plan is typed with the keys alone', async () => {
  const { page } = await open('/new')
  await cell(page, 0, 'kind').focus()
  await page.keyboard.type('Str')
  await page.keyboard.press('ArrowRight')
  expect(await focused(page)).toBe('tracks.0.elements.0.length')
  await page.keyboard.type('6 ft')
  await page.keyboard.press('Enter')
  expect(await focused(page)).toBe('tracks.0.elements.1.length')
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.type('Cur')
  for (const [key, value] of [
    ['across', '10 ft'],
    ['angle', '90'],
  ] as const) {
    while ((await focused(page)) !== `tracks.0.elements.1.${key}`) await page.keyboard.press('ArrowRight')
    await page.keyboard.type(value)
  }
  await page.keyboard.press('ArrowRight')
  await page.keyboard.type('Left')
  expect(await rows(page)).toEqual([`1 ${STRAIGHT}`, `2 ${CURVE}`])
  await page.keyboard.press('Alt+ArrowUp')
  expect(await rows(page)).toEqual([`1 ${CURVE}`, `2 ${STRAIGHT}`])
  expect(await focused(page)).toBe('tracks.0.elements.0.turn')
  await page.keyboard.press('Control+z')
  expect(await rows(page)).toEqual([`1 ${STRAIGHT}`, `2 ${CURVE}`])
  await page.keyboard.press('Control+Shift+z')
  expect(await rows(page)).toEqual([`1 ${CURVE}`, `2 ${STRAIGHT}`])
  await cell(page, 1, 'length').focus()
  await page.keyboard.press('ArrowUp')
  expect(await focused(page)).toBe('tracks.0.elements.0.length')
  // After the last row comes another one.
  const count = await page.locator('table.elements tbody tr').count()
  await cell(page, count - 1, 'kind').focus()
  await page.keyboard.press('Enter')
  expect(await focused(page)).toBe(`tracks.0.elements.${count}.kind`)
})

test('on a phone the buttons are large enough for a thumb and stay on the screen', async () => {
  const { page } = await open('/new', PHONE)
  for (const each of await page.locator('.row-tools:not([hidden]) button').all()) {
    const box = (await each.boundingBox())!
    expect(Math.min(box.height, box.width)).toBeGreaterThanOrEqual(36)
    expect(box.x + box.width).toBeLessThanOrEqual(PHONE.width)
  }
})

test('without script the buttons of a row insert and remove as pages do', async () => {
  const { page } = await open('/new', DESKTOP, { script: false })
  await typeTwoElements(page)
  expect(await page.locator('.row-tools').count()).toBe(0)
  await arriving(page, () => page.getByRole('button', { name: 'Insert a row above element 2', exact: true }).click())
  expect(await rows(page)).toEqual([`1 ${STRAIGHT}`, `3 ${CURVE}`])
  await arriving(page, () => page.getByRole('button', { name: 'Remove element 1', exact: true }).click())
  expect(await rows(page)).toEqual([`2 ${CURVE}`])
})
