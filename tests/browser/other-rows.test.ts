import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { arriving, DESKTOP, field, scripted, typeTwoElements } from './scripted.ts'

const { open } = scripted()

const tool = (page: Page, table: string, name: string) =>
  page.getByRole('toolbar', { name: table }).getByRole('button', { name, exact: true })
const focused = (page: Page) => page.evaluate('document.activeElement.name')
const lengths = (page: Page) =>
  page
    .locator('[id="supplies.sticks"] [name$=".length"]')
    .evaluateAll((cells) => cells.map((cell) => (cell as unknown as { value: string }).value))

test('the rows of sticks have the tools of elements, once they have the focus', async () => {
  const { page } = await open('/new')
  await page.locator('#supplies > summary').click()
  const sticks = 'Rows of Rail sticks (blank: 5 ft sticks without a price)'
  expect(await tool(page, sticks, 'Duplicate').isVisible()).toBe(false)
  await field(page, 'supplies.sticks.0.length').fill('6 ft')
  await field(page, 'supplies.sticks.0.price').fill('14.50')
  await field(page, 'supplies.sticks.0.price').blur()
  await tool(page, sticks, 'Duplicate').click()
  await field(page, 'supplies.sticks.1.length').fill('5 ft')
  await field(page, 'supplies.sticks.1.length').blur()
  expect(await lengths(page)).toEqual(['6 ft', '5 ft'])
  await tool(page, sticks, 'Move up').click()
  expect(await lengths(page)).toEqual(['5 ft', '6 ft'])
  expect(await page.locator('#said').textContent()).toBe('Stick 2 is now stick 1.')
  await tool(page, sticks, 'Delete').click()
  expect(await lengths(page)).toEqual(['6 ft'])
  await tool(page, sticks, 'Undo').click()
  expect(await lengths(page)).toEqual(['5 ft', '6 ft'])
  expect(await field(page, 'supplies.sticks.1.price').inputValue()).toBe('14.50')
})

test('points of a grade line are pasted under the headings of their own table', async () => {
  const { page } = await open('/new')
  await page.getByText('Grade line', { exact: true }).click()
  await field(page, 'tracks.0.gradeLine.0.at').focus()
  const headings = await page.locator('[id="tracks.0.gradeLine"] thead th').allTextContents()
  const [at, elevation] = headings.slice(1, 3)
  await page.evaluate(`(() => {
    const data = new DataTransfer()
    data.setData('text/plain', ${JSON.stringify(`${elevation}\t${at}\n0\t1 m\n20 mm\t3 m\n`)})
    document.activeElement.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))
  })()`)
  expect(await field(page, 'tracks.0.gradeLine.1.at').inputValue()).toBe('3 m')
  expect(await field(page, 'tracks.0.gradeLine.1.elevation').inputValue()).toBe('20 mm')
})

test('the tab key stops once at a cell, and once at the tools', async () => {
  const { page } = await open('/new')
  await typeTwoElements(page)
  await field(page, 'tracks.0.elements.1.kind').focus()
  const stops: unknown[] = []
  for (let n = 0; n < 6; n++) {
    await page.keyboard.press('Tab')
    stops.push(await focused(page))
  }
  expect(stops).toEqual(
    ['1.length', '1.across', '1.angle', '1.turn', '1.label', '2.kind'].map((cell) => `tracks.0.elements.${cell}`),
  )
  await field(page, 'tracks.0.elements.1.across').focus()
  await page.keyboard.press('Home')
  await page.keyboard.press('ArrowLeft')
  expect(await focused(page)).toBe('tracks.0.elements.1.acrossIs')

  await field(page, 'tracks.0.elements.0.kind').focus()
  await page.keyboard.press('Shift+Tab')
  const pressed = () => page.evaluate('document.activeElement.textContent')
  expect(await pressed()).toBe('Insert above')
  await page.keyboard.press('ArrowRight')
  expect(await pressed()).toBe('Duplicate')
  await page.keyboard.press('Shift+Tab')
  expect(await page.evaluate("document.activeElement.closest('.row-tools')")).toBeNull()
  await page.keyboard.press('Tab')
  expect(await pressed()).toBe('Duplicate')
})

test.each([true, false])(
  'tracks, turnouts, obstacles and trains are duplicated, moved and removed as pages, script: %s',
  async (script) => {
    const { page } = await open('/new', DESKTOP, { script })
    const press = (name: string) => arriving(page, () => page.getByRole('button', { name, exact: true }).click())
    await field(page, 'tracks.0.name').fill('first')
    await press('Duplicate track 1')
    await field(page, 'tracks.1.name').fill('second')
    await press('Move track 2 up')
    expect(await field(page, 'tracks.0.name').inputValue()).toBe('second')
    expect(await field(page, 'tracks.1.name').inputValue()).toBe('first')
    await press('Remove track 1')
    expect(await field(page, 'tracks.0.name').inputValue()).toBe('first')
    expect(await page.getByRole('button', { name: 'Remove track 1' }).count()).toBe(0)

    await page.locator('#turnoutTypes > summary').click()
    await field(page, 'turnoutTypes.0.id').fill('six-left')
    await press('Duplicate kind 1')
    await field(page, 'turnoutTypes.1.id').fill('six-right')
    await press('Move kind 1 down')
    expect(await field(page, 'turnoutTypes.0.id').inputValue()).toBe('six-right')
  },
)
