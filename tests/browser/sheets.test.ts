import { inflateSync } from 'node:zlib'
import type { BrowserContext, Page } from 'playwright-core'
import { afterEach, describe, expect, test } from 'vitest'
import { SHEETS } from '../../src/page/sheets/sheet-names.ts'
import { turnTo } from './extension.ts'
import { served } from './served.ts'

const here = served()
let context: BrowserContext
let page: Page

afterEach(() => context.close())

const DESKTOP = { width: 1280, height: 900 }
const PHONE = { width: 390, height: 844 }
const MOST_SCREENS = 5

async function open(viewport: { width: number; height: number }, path: string): Promise<void> {
  context = await here.browser.newContext({ viewport, javaScriptEnabled: false, baseURL: here.serving.url })
  page = await context.newPage()
  await page.goto(path)
}

const heightOf = (): Promise<number> => page.evaluate('document.documentElement.scrollHeight')
const field = (name: string) => page.locator(`[name="${name}"]`)

describe('the sheets of the demo plan', () => {
  test.each(SHEETS)('%s takes at most five screens of a desktop', async (sheet) => {
    for (const units of ['both', 'feet', 'metric']) {
      await open(DESKTOP, `/demo/${sheet}?show=${units}`)
      expect((await heightOf()) / DESKTOP.height).toBeLessThanOrEqual(MOST_SCREENS)
      if (units !== 'metric') await context.close()
    }
  })

  test.each(['saw', 'bench'] as const)('each card of %s fits on the screen of a phone', async (sheet) => {
    await open(PHONE, `/demo/${sheet}`)
    const cards = await page.locator('.job').all()
    expect(cards.length).toBeGreaterThan(3)
    for (const card of cards) {
      const box = (await card.boundingBox())!
      expect(box.height).toBeLessThanOrEqual(PHONE.height)
      expect(box.x + box.width).toBeLessThanOrEqual(PHONE.width)
    }
  })

  test.each(SHEETS)('%s prints by itself, on pages none of which is empty or nearly so', async (sheet) => {
    await open(DESKTOP, `/demo/${sheet}`)
    for (const format of ['A4', 'Letter']) {
      const lines = linesOnPages(await page.pdf({ format }))
      expect(lines.length).toBeGreaterThan(0)
      expect(lines.length).toBeLessThanOrEqual(5)
      for (const count of lines) expect(count).toBeGreaterThan(FEWEST_TEXTS)
    }
  })

  test('a sheet on paper has neither links to the others nor the form', async () => {
    await open(DESKTOP, '/demo/line')
    await page.emulateMedia({ media: 'print' })
    for (const hidden of ['.top', '.tabs', '#edit', 'footer'])
      expect(await page.locator(hidden).isVisible()).toBe(false)
    await page.goto('/demo/bench')
    expect(await page.locator('#curves').isVisible()).toBe(false)
    expect(await page.locator('.job').first().isVisible()).toBe(true)
  })
})

/** A page with fewer texts than this is a heading or a line that found no room before it. */
const FEWEST_TEXTS = 8

/** How many pieces of text are drawn on each page of a PDF, by its own list of pages and their unpacked contents. */
function linesOnPages(pdf: Buffer): number[] {
  const source = pdf.toString('latin1')
  const bodies = new Map(
    [...source.matchAll(/(\d+) 0 obj\b([\s\S]*?)endobj/g)].map(([, id, body]) => [Number(id), body!] as const),
  )
  const contents = (id: number): string => {
    const body = bodies.get(id) ?? ''
    const packed = /stream\r?\n([\s\S]*?)\r?\nendstream/.exec(body)?.[1] ?? ''
    return body.includes('/FlateDecode') ? inflateSync(Buffer.from(packed, 'latin1')).toString('latin1') : packed
  }
  const pages = [...bodies.values()].filter((body) => /\/Type\s*\/Page\b/.test(body))
  return pages.map((body) => {
    const drawn = contents(Number(/\/Contents (\d+) 0 R/.exec(body)![1]))
    return drawn.match(/\bTJ\b|\bTj\b/g)?.length ?? 0
  })
}

describe('the form', () => {
  test('opens with fewer than 25 fields, and a row asks for more once its kind is chosen', async () => {
    await open(DESKTOP, '/new')
    const shown = () => page.locator('input:visible, select:visible, textarea:visible').count()
    expect(await shown()).toBeLessThan(25)
    const before = await shown()
    expect(await field('tracks.0.elements.0.angle').isVisible()).toBe(false)
    await field('tracks.0.elements.0.kind').selectOption('Curve')
    for (const cell of ['across', 'acrossIs', 'angle', 'turn', 'label'])
      expect(await field(`tracks.0.elements.0.${cell}`).isVisible()).toBe(true)
    expect(await field('tracks.0.elements.1.angle').isVisible()).toBe(false)
    expect(await shown()).toBe(before + 5)
  })

  test('a row shows what its kind has no use for as long as it is filled in', async () => {
    await open(DESKTOP, '/new')
    await field('tracks.0.elements.0.kind').selectOption('Curve')
    await field('tracks.0.elements.0.angle').fill('30')
    await field('tracks.0.elements.0.kind').selectOption('Straight')
    await field('tracks.0.elements.0.length').fill('3 ft')
    const arrived = page.waitForEvent('load')
    await page.getByRole('button', { name: 'Calculate', exact: true }).click()
    await arrived
    expect(await field('tracks.0.elements.0.angle').isVisible()).toBe(true)
    expect(await field('tracks.0.elements.0.angle').inputValue()).toBe('30')
  })

  test('what is filled in, and the table whose button was pressed, stay open', async () => {
    await open(DESKTOP, '/new')
    await field('tracks.0.elements.0.kind').selectOption('Straight')
    await field('tracks.0.elements.0.length').fill('10 ft')
    await page.locator('#supplies > summary').click()
    await field('supplies.sticks.0.price').fill('12.00')
    await field('supplies.sticks.0.length').fill('6 ft')
    await page.locator('#bender > summary').click()
    const arrived = page.waitForEvent('load')
    await page.getByRole('button', { name: 'Add a test bend' }).click()
    await arrived
    expect(await field('rail.calibration.1.formedRadius').isVisible()).toBe(true)
    expect(await field('supplies.sticks.0.price').isVisible()).toBe(true)
    expect(await field('standards.longestCar').isVisible()).toBe(false)

    const calculated = page.waitForEvent('load')
    await page.getByRole('button', { name: 'Calculate', exact: true }).click()
    await calculated
    expect(await page.locator('#drawing').isVisible()).toBe(true)
    expect(await field('supplies.sticks.0.price').isVisible()).toBe(true)
    await turnTo(page, 'Shop')
    await turnTo(page, 'Line')
    await page.getByText('Edit plan').last().click()
    expect(await field('supplies.sticks.0.price').inputValue()).toBe('12.00')
  })
})

test('the gaps are shown for the temperature that is typed, of a saved plan and of one in the form', async () => {
  const plan = {
    rail: { section: '250', material: 'brass', temper: 'half-hard' },
    tracks: [{ name: 'a', elements: [{ kind: 'tangent', length: 6000 }] }],
    climate: { laying: '18 C', coldest: '-10 C', hottest: '30 C' },
  }
  const { id } = await here.store.create({ name: 'In the sun', notes: '', plan })
  await open(DESKTOP, `/plans/${id}/garden`)
  const ask = async () => {
    await field('railAt').fill('77 F')
    const arrived = page.waitForEvent('load')
    await page.getByRole('button', { name: 'Show the gaps' }).click()
    await arrived
    expect(await page.locator('#gaps').textContent()).toContain('Gap at 25 °C')
    expect(await field('railAt').inputValue()).toBe('77 F')
  }
  await ask()
  expect(new URL(page.url()).search).toContain('railAt=77')
  await turnTo(page, 'Line')
  await page.getByText('Edit plan').last().click()
  const arrived = page.waitForEvent('load')
  await page.getByRole('button', { name: 'Calculate', exact: true }).click()
  await arrived
  await turnTo(page, 'Garden')
  await ask()
  expect(new URL(page.url()).pathname).toBe(`/plans/${id}/garden`)
})
