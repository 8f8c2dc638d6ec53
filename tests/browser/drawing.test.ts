import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { arriving, cell, DESKTOP, field, PHONE, scripted, typeTwoElements, violations } from './scripted.ts'

const { open } = scripted()

const svg = (page: Page) => page.locator('#drawing svg[data-sheet]')
const viewBox = async (page: Page) => (await svg(page).getAttribute('viewBox'))!.split(' ').map(Number)

/** Where a place on the sheet is on the screen, by the drawing's own scale and the box of the browser. */
async function onScreen(page: Page, xMm: number, yMm: number): Promise<{ x: number; y: number }> {
  const [scale, x0, y0] = (await svg(page).getAttribute('data-sheet'))!.split(' ').map(Number)
  const [left, top, width] = await viewBox(page)
  const box = (await svg(page).boundingBox())!
  const perUnit = box.width / width!
  return { x: box.x + (x0! + xMm * scale! - left!) * perUnit, y: box.y + (y0! - yMm * scale! - top!) * perUnit }
}

test('an element is shown in drawing, form and findings alike, whichever of them is touched', async () => {
  const { page } = await open('/new')
  await typeTwoElements(page)
  await page.locator('#live svg [data-at="0.1"]').first().waitFor()
  await cell(page, 0, 'length').focus()
  expect(await svg(page).locator('.tapped .chosen').getAttribute('data-at')).toBe('0.0')
  // By hand: the middle of the curve, 45 degrees round a circle of 1524 mm about (1828.8, 1524).
  const on = await onScreen(page, 1828.8 + 1524 * Math.SQRT1_2, 1524 - 1524 * Math.SQRT1_2)
  await page.mouse.click(on.x, on.y)
  expect(await page.locator('tr.chosen').getAttribute('id')).toBe('tracks.0.elements.1')
  expect(await page.evaluate('document.activeElement.name')).toBe('tracks.0.elements.1.kind')
  await cell(page, 0, 'length').focus()
  await page.locator('#findings li[data-at="0.1"] .where').first().click()
  expect(await svg(page).locator('.tapped .chosen').getAttribute('data-at')).toBe('0.1')
  expect(await page.locator('tr.chosen').getAttribute('id')).toBe('tracks.0.elements.1')
  await svg(page).locator('.sign[data-at]').first().click()
  expect(await page.locator('#findings li.chosen').count()).toBeGreaterThan(0)
  // What is chosen stays chosen when it is drawn anew.
  await cell(page, 1, 'angle').fill('80')
  await expect.poll(() => page.locator('#live .summary').textContent()).not.toContain('4.223 m')
  expect(await svg(page).locator('.tapped .chosen').getAttribute('data-at')).toBe('0.1')
  expect(await violations(page)).toEqual([])
})

test('the drawing is zoomed and moved by buttons, wheel, drag and keys, and stays so when it is drawn anew', async () => {
  const { page } = await open('/demo')
  const whole = await viewBox(page)
  await page.getByRole('button', { name: 'Zoom in', exact: true }).click()
  expect((await viewBox(page))[2]).toBeCloseTo(whole[2]! / 1.5, 1)
  const at = await onScreen(page, 6000, 1500)
  await page.mouse.move(at.x, at.y)
  await page.mouse.down()
  await page.mouse.move(at.x + 60, at.y + 30, { steps: 6 })
  await page.mouse.up()
  const dragged = await onScreen(page, 6000, 1500)
  expect(dragged.x - at.x).toBeGreaterThan(40)
  expect(dragged.y - at.y).toBeGreaterThan(15)
  await page.mouse.move(dragged.x, dragged.y)
  await page.keyboard.down('Control')
  await page.mouse.wheel(0, -100)
  await page.keyboard.up('Control')
  await expect.poll(async () => (await viewBox(page))[2]).toBeLessThan(whole[2]! / 1.7)
  // What is under the pointer stays there.
  const after = await onScreen(page, 6000, 1500)
  expect(Math.hypot(after.x - dragged.x, after.y - dragged.y)).toBeLessThan(2)
  await page.locator('.drawing').first().focus()
  const before = await viewBox(page)
  await page.keyboard.press('ArrowRight')
  expect((await viewBox(page))[0]).toBeGreaterThan(before[0]!)
  const [, , width] = await viewBox(page)
  await page.getByText('Edit plan').last().click()
  await field(page, 'tracks.1.elements.6.length').fill('6 ft')
  await page.locator('#live svg[data-moved]').waitFor()
  await expect.poll(async () => (await viewBox(page))[2]).toBeCloseTo(width!, 0)
  await page.getByRole('button', { name: 'Whole plan', exact: true }).click()
  expect((await viewBox(page))[0]).toBe(0)
  expect(await violations(page)).toEqual([])
})

test('places and distances are read under the pointer', async () => {
  const { page } = await open('/demo?show=metric')
  const out = page.locator('#drawing output')
  const [first, second] = [await onScreen(page, 0, 2500), await onScreen(page, 3000, 1500)]
  await page.mouse.click(first.x, first.y)
  await page.mouse.move(second.x, second.y)
  const [, x, y, away] = /x (-?[\d.]+) m, y (-?[\d.]+) m; ([\d.]+) m from the mark/.exec((await out.textContent())!)!
  // Within the millimetres of a pixel; the distance by Pythagoras: √(3² + 1²).
  expect(Math.abs(Number(x) - 3)).toBeLessThan(0.03)
  expect(Math.abs(Number(y) - 1.5)).toBeLessThan(0.03)
  expect(Math.abs(Number(away) - Math.sqrt(10))).toBeLessThan(0.03)
  await page.goto('/demo?show=feet')
  const there = await onScreen(page, 10 * 304.8, 5 * 304.8)
  await page.mouse.move(there.x, there.y)
  expect(await out.textContent()).toMatch(/x (9 ft 11|10 ft 0)[\d.]* in, y (4 ft 11|5 ft 0)[\d.]* in/)
})

test('two fingers zoom it', async () => {
  const { page } = await open('/demo', PHONE, { touch: true })
  const [, , whole] = await viewBox(page)
  await page.evaluate(`(() => {
    const svg = document.querySelector('#drawing svg[data-sheet]')
    const box = svg.getBoundingClientRect()
    const at = (kind, id, x) => svg.dispatchEvent(new PointerEvent(kind, { pointerId: id, pointerType: 'touch', clientX: box.left + x, clientY: box.top + 80, bubbles: true }))
    at('pointerdown', 1, 100)
    at('pointerdown', 2, 200)
    at('pointermove', 2, 300)
    at('pointerup', 1, 100)
    at('pointerup', 2, 300)
  })()`)
  expect((await viewBox(page))[2]).toBeCloseTo(whole! / 2, 0)
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(PHONE.width)
})

test('what was typed is kept until it is saved, and offered back', async () => {
  const { page } = await open('/new')
  await typeTwoElements(page)
  await field(page, 'title').fill('Round the shed')
  await page.locator('#live svg').first().waitFor()
  await page.goto('/new')
  const line = page.locator('.kept')
  expect(await line.textContent()).toMatch(/^Unsaved changes from \d\d:\d\d: Restore Discard$/)
  expect(await violations(page)).toEqual([])
  await arriving(page, () => page.getByRole('button', { name: 'Restore' }).click())
  expect(await cell(page, 1, 'across').inputValue()).toBe('10 ft')
  expect(await page.locator('.summary').textContent()).toContain('4.223 m')
  expect(await line.count()).toBe(0)
  await page.goto('/new')
  await page.getByRole('button', { name: 'Discard' }).click()
  await page.reload()
  expect(await line.count()).toBe(0)

  await typeTwoElements(page)
  await field(page, 'title').fill('Round the shed')
  await arriving(page, () => page.getByRole('button', { name: 'Save', exact: true }).click())
  expect(new URL(page.url()).pathname).toMatch(/^\/plans\//)
  await page.getByText('Edit plan').last().click()
  await cell(page, 1, 'angle').fill('60')
  await expect.poll(() => page.locator('#live .summary').textContent()).not.toContain('4.223 m')
  await page.reload()
  expect(await line.count()).toBe(1)
  await arriving(page, () => page.getByRole('button', { name: 'Restore' }).click())
  expect(await cell(page, 1, 'angle').inputValue()).toBe('60')
  await page.goto('/new')
  expect(await line.count()).toBe(0)
})

test('without script the drawing stands as it was drawn, and has no tools', async () => {
  const { page } = await open('/demo', DESKTOP, { script: false })
  expect(await page.locator('.row-tools').count()).toBe(0)
  expect(await svg(page).getAttribute('viewBox')).toMatch(/^0 0 880 /)
})
