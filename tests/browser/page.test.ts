import { readFile } from 'node:fs/promises'
import type { BrowserContext, Locator, Page } from 'playwright-core'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { GUIDES } from '../../src/docs/guides.ts'
import { SHEETS } from '../../src/page/sheets/sheet-names.ts'
import { POND_PLAN } from '../page/pond-plan.ts'
import { checkBend, turnTo as turnPageTo, workOut, writePlan } from './extension.ts'
import { served } from './served.ts'

const here = served()

const DESKTOP = { width: 1280, height: 900 }
const PHONE = { width: 390, height: 844 }
/** A4 less its margins of 12 mm, at 96 dots an inch. */
const PAPER = { width: 703, height: 1031 }

let context: BrowserContext
let page: Page
/** Requests that left this service, and whatever the browser complained of: violations of the policy, missing files. */
let complaints: string[]

async function open(viewport: { width: number; height: number }): Promise<void> {
  context = await here.browser.newContext({ viewport, javaScriptEnabled: false, baseURL: here.serving.url })
  page = await context.newPage()
  page.on('request', (request) => {
    if (!request.url().startsWith(here.serving.url) && !request.url().startsWith('data:'))
      complaints.push(request.url())
  })
  page.on('response', (response) => {
    const isPage = response.request().resourceType() === 'document'
    if (response.status() >= 400 && !isPage) complaints.push(`${response.status()} ${response.url()}`)
  })
  page.on('console', (message) => {
    if (!message.text().startsWith('Failed to load resource')) complaints.push(message.text())
  })
  page.on('pageerror', (error) => complaints.push(error.message))
}

beforeEach(() => {
  complaints = []
})

afterEach(async () => {
  await context.close()
  expect(complaints).toEqual([])
})

const field = (name: string) => page.locator(`[name="${name}"]`)
const press = (name: string) => arriving(() => page.getByRole('button', { name, exact: true }).click())
const follow = (name: string) => arriving(() => page.getByRole('link', { name }).click())
const turnTo = (sheet: string) => turnPageTo(page, sheet)
const part = (id: string) => page.locator(`section#${id}`)

/** Does what leads to another page, and waits until that is there. */
async function arriving(action: () => Promise<void>): Promise<void> {
  const arrived = page.waitForEvent('load')
  await action()
  await arrived
}

async function rowsOf(table: Locator): Promise<string[]> {
  return (await table.locator('tbody tr').allInnerTexts()).map((text) => text.replace(/\s+/g, ' ').trim())
}

describe('the demo plan, without script', () => {
  test('is one click away, is saved, found again, and printed', async () => {
    await open(DESKTOP)
    await page.goto('/')
    await follow('Open the demo plan')
    await turnTo('Shop')
    const total = await part('shopping').locator('tfoot td').textContent()
    expect(total).toMatch(/^\d+\.\d\d$/)
    const list = await rowsOf(part('shopping'))
    expect(list.some((row) => row.includes('Rail, code 250 brass, 1828.8 mm (6 ft)'))).toBe(true)

    await turnTo('Line')
    await page.getByText('Edit plan').last().click()
    await page.locator('#save > summary').click()
    await field('name').fill('Demo of the browser')
    await field('notes').fill('First line\nsecond line')
    await press('Save')
    expect(new URL(page.url()).pathname).toMatch(/^\/plans\/[0-9a-f-]{36}$/)

    await page.goto('/')
    await follow('Demo of the browser')
    await turnTo('Shop')
    expect(await rowsOf(part('shopping'))).toEqual(list)
    expect(await part('shopping').locator('tfoot td').textContent()).toBe(total)

    // Of everything something has to be bought: each line has a box to tick.
    expect(await part('shopping').locator('.box').count()).toBe(list.length)
    await turnTo('Record')
    await page.emulateMedia({ media: 'print' })
    await page.setViewportSize(PAPER)
    for (const hidden of ['.top', '#edit', 'footer', '.tabs'])
      expect(await page.locator(hidden).isVisible()).toBe(false)
    for (const shown of ['#assumed', '#care']) expect(await page.locator(shown).isVisible()).toBe(true)
    expect(await page.getByText('second line').first().isVisible()).toBe(true)
  })
})

describe('a siding beside the longest straight of a loop', () => {
  test('is looked at, put in, saved, and on the bill, from the page alone', async () => {
    const { id } = await here.store.create({ name: 'Pond', notes: '', plan: POND_PLAN })
    await open(DESKTOP)
    await page.goto(`/plans/${id}`)
    await page.getByText('Edit plan').last().click()
    await page.locator('#figure > summary').click()
    await page.locator('[id="figure.passing-loop"] > summary').click()
    await field('figure.passing-loop.spacing').fill('8 in')
    await field('figure.passing-loop.clear').fill('9 ft')
    await press('Show the passing loop')
    // Half of what the turnouts leave of 18 ft is less than that.
    expect(await page.locator('#figure .fault').first().textContent()).toContain('The straight is 5473.7 mm long')

    await field('figure.passing-loop.clear').fill('6 ft')
    await press('Show the passing loop')
    expect(await page.locator('#figure svg .points').count()).toBe(2)
    expect(await page.locator('#figure').textContent()).toContain('clear length of the siding: 1829 mm (6 ft)')
    expect(await page.locator('#drawing svg .points').count()).toBe(0)
    await page.setViewportSize(PHONE)
    expect(await sideways()).toBe(0)
    await page.setViewportSize(DESKTOP)

    await press('Add it to the plan')
    expect(await page.locator('#drawing svg .points').count()).toBe(2)
    // The loop it was put into closes as it did before, and the siding meets its turnouts.
    const findings = await page.locator('#findings').textContent()
    for (const unmet of ['misses', 'does not meet', 'gap']) expect(findings).not.toContain(unmet)
    await field('name').fill('Pond loop with a siding')
    await press('Save')
    expect(new URL(page.url()).pathname).toMatch(/^\/plans\/[0-9a-f-]{36}$/)
    await page.reload()
    expect(await page.locator('#drawing svg .points').count()).toBe(2)
    await turnTo('Shop')
    const turnouts = (await rowsOf(part('shopping'))).filter((row) => row.startsWith('Turnout'))
    expect(turnouts).toHaveLength(2)
    for (const row of turnouts) expect(row).toMatch(/ 1 0 1 /)
  })
})

describe('a siding added to the demo plan', () => {
  test('at the cider press is shown, put in, saved and bought, from the page alone', async () => {
    await open(DESKTOP)
    await page.goto('/demo/shop')
    const before = await rowsOf(part('shopping'))
    await turnTo('Line')
    await page.getByText('Edit plan').last().click()
    await page.locator('#figure > summary').click()
    await field('figure.track').selectOption({ label: 'press spur' })
    await field('figure.where').selectOption({ label: 'At the end of the track' })

    await page.locator('[id="figure.ladder"] > summary').click()
    await field('figure.ladder.spacing').fill('8 in')
    await field('figure.ladder.count').fill('3')
    await field('figure.ladder.clear').fill('3 ft')
    await field('figure.ladder.doubleEnded').first().check()
    await press('Show the yard')
    // Two turnouts at either end, and as many where the ladders begin.
    expect(await page.locator('#figure svg .points').count()).toBe(4)
    expect(await page.locator('#figure').textContent()).toContain('clear length of track 3: 914 mm (3 ft)')

    await page.locator('[id="figure.passing-loop"] > summary').click()
    await field('figure.passing-loop.spacing').fill('8 in')
    await field('figure.passing-loop.clear').fill('4 ft')
    await press('Show the passing loop')
    await press('Add it to the plan')
    expect(await page.locator('#drawing svg .points').count()).toBe(6)
    const findings = await page.locator('#findings').textContent()
    for (const unmet of ['misses', 'does not meet', 'Stop']) expect(findings).not.toContain(unmet)
    await page.locator('#save > summary').click()
    await field('name').fill('Orchard with a siding at the press')
    await press('Save')
    await page.reload()
    expect(await page.locator('#drawing svg .points').count()).toBe(6)
    await turnTo('Shop')
    const after = await rowsOf(part('shopping'))
    const ofKind = (rows: readonly string[], kind: string) => rows.find((row) => row.includes(kind))
    for (const kind of ['six-left', 'six-right']) expect(ofKind(after, kind)).not.toBe(ofKind(before, kind))

    await follow('tick off the shopping list')
    const boxes = page.locator('.buying input[type=checkbox]')
    const count = await boxes.count()
    expect(count).toBeGreaterThan(5)
    for (let index = 0; index < count; index++) await boxes.nth(index).check()
    await press('Save')
    await page.reload()
    expect(await page.locator('main').textContent()).toContain('Everything is bought.')
  })
})

/** How far the page is wider than its window. */
async function sideways(): Promise<number> {
  return page.evaluate('document.documentElement.scrollWidth - document.documentElement.clientWidth')
}

describe('a plan entered from blank, with the table alone', () => {
  test('becomes a shopping list, is saved and opened again', async () => {
    await open(DESKTOP)
    await page.goto('/new')
    await field('title').fill('Shed to gate')
    await field('tracks.0.elements.0.kind').selectOption('Straight')
    await field('tracks.0.elements.0.length').fill('10 ft')
    await field('tracks.0.elements.1.kind').selectOption('Curve')
    await field('tracks.0.elements.1.across').fill('20 ft')
    await field('tracks.0.elements.1.angle').fill('90')
    await field('tracks.0.elements.1.turn').selectOption('Left')
    await press('Calculate')
    expect(await page.locator('#drawing svg .rail').count()).toBe(2)
    expect(await page.locator('#findings').textContent()).toContain('was not checked')
    await turnTo('Shop')

    // By hand: rails of 3048 + (3048 ∓ 23.9)·π/2 mm are 7798 and 7873 mm: five sticks of 1524 mm each, and the two
    // remainders of 178 and 253 mm from one more. Joints 2·5. Ties ⌊7835.8/45⌋ + 1 = 175, four fasteners each.
    expect(await rowsOf(part('shopping'))).toEqual([
      'Rail, code 250 brass, 1524 mm (5 ft) 11 0 11 11 no price –',
      'Rail joiner 10 0 10 10 no price –',
      'Tie 175 0 175 175 no price –',
      'Fastener 700 0 700 700 no price –',
    ])
    await page.getByText('Edit plan').last().click()
    await page.getByText('Stock and supplies').click()
    await field('supplies.sticks.0.length').fill('5 ft')
    await field('supplies.sticks.0.price').fill('10')
    await field('supplies.sticks.0.onHand').fill('3')
    await press('Save')
    expect(new URL(page.url()).pathname).toMatch(/^\/plans\//)
    await page.reload()
    expect(await page.locator('h1').textContent()).toBe('Shed to gate')
    await turnTo('Shop')
    expect((await rowsOf(part('shopping')))[0]).toBe('Rail, code 250 brass, 1524 mm (5 ft) 11 3 8 8 10.00 80.00')
    await turnTo('Line')
    await page.getByText('Edit plan').last().click()
    expect(await field('tracks.0.elements.1.across').inputValue()).toBe('20 ft')
    expect(await field('tracks.0.elements.1.turn').inputValue()).toBe('left')
  })

  test('with a bender becomes a bench card, on the screen, on a phone and on paper', async () => {
    await open(DESKTOP)
    await page.goto('/new')
    await field('tracks.0.elements.0.kind').selectOption('Curve')
    await field('tracks.0.elements.0.across').fill('4 ft')
    await field('tracks.0.elements.0.angle').fill('90')
    await field('tracks.0.elements.0.turn').selectOption('Right')
    await field('rail.material').selectOption('Stainless steel')
    await page.locator('#bender > summary').click()
    await field('bender.span').fill('120')
    await press('Calculate')
    await page.getByRole('link', { name: 'bending, bending method' }).click()
    expect(await field('bender.mode').isVisible()).toBe(true)
    await field('bender.outerRollerRadius').fill('12')
    await field('bender.bearsOn').selectOption('Web')
    await field('bender.mode').selectOption('Rolled: drawn through under load')
    await field('bender.maxPerPass').fill('0.5')
    await press('Calculate')
    await turnTo('Bench')
    const card = part('bending').locator('.job')
    expect(await card.first().textContent()).toContain('make a test bend first')
    expect(await page.locator('#curves .bend').count()).toBe(1)
    expect(await page.locator('#curves .passes').count()).toBe(0)

    await page.getByText('Edit plan').last().click()
    expect(await field('bender.maxPerPass').inputValue()).toBe('0.5')
    await field('rail.calibration.0.formedRadius').fill('2 ft')
    await field('rail.calibration.0.restingRadius').fill('6 ft')
    await press('Calculate')
    await turnTo('Bench')
    expect(await part('bending').locator('.calibration').isVisible()).toBe(true)
    expect(await card.first().textContent()).not.toContain('test bend')
    expect(await card.first().textContent()).toMatch(/Bend by hand to R [\d.]+ mm/)
    await page.locator('#curves > summary').click()
    const curve = page.locator('#curves .bend')
    expect(await curve.locator('.passes tbody tr').count()).toBeGreaterThan(1)
    expect(await curve.locator('svg.chord').count()).toBe(2)
    expect(await curve.isVisible()).toBe(true)

    await page.setViewportSize(PHONE)
    expect(await sideways()).toBe(0)
    await page.setViewportSize(PAPER)
    await page.emulateMedia({ media: 'print' })
    expect(await card.first().isVisible()).toBe(true)
    expect(await sideways()).toBe(0)
    expect(await page.evaluate("getComputedStyle(document.querySelector('.job')).breakInside")).toBe('avoid')
    expect((await card.first().boundingBox())!.height).toBeLessThan(PAPER.height)
  })

  test('with faults comes back as it was typed, and each complaint leads to its field', async () => {
    await open(DESKTOP)
    await page.goto('/new')
    await field('tracks.0.elements.0.kind').selectOption('Curve')
    await field('tracks.0.elements.0.across').fill('20 feats')
    await press('Calculate')
    expect(await field('tracks.0.elements.0.across').inputValue()).toBe('20 feats')
    await page.getByRole('link', { name: 'track 1, element 1, curve size' }).click()
    expect(await field('tracks.0.elements.0.across').evaluate((element) => element.matches(':target'))).toBe(true)
    expect(await field('tracks.0.elements.0.across').isVisible()).toBe(true)
  })

  test('a row that is inserted is there to be typed into', async () => {
    await open(DESKTOP)
    await page.goto('/demo')
    await page.getByText('Edit plan').last().click()
    await arriving(() => page.getByRole('button', { name: 'Insert a row above element 9' }).first().click())
    expect(await field('tracks.1.elements.8.length').inputValue()).toBe('')
    const top = await field('tracks.1.elements.8.length').evaluate((element) => element.getBoundingClientRect().top)
    expect(top).toBeGreaterThan(0)
    expect(top).toBeLessThan(DESKTOP.height - 80)
  })

  test('the return key in a field works the plan out', async () => {
    await open(DESKTOP)
    await page.goto('/new')
    await field('tracks.0.elements.0.kind').selectOption('Straight')
    await field('tracks.0.elements.0.length').fill('10 ft')
    await arriving(() => field('tracks.0.elements.0.length').press('Enter'))
    expect(await part('drawing').isVisible()).toBe(true)
  })
})

describe('a spur from a turnout, with the page alone', () => {
  test('is typed, worked out, bought and saved', async () => {
    await open(PHONE)
    await page.goto('/new')
    await field('title').fill('Spur')
    await page.locator('#turnoutTypes > summary').click()
    await field('turnoutTypes.0.id').fill('six-left')
    await field('turnoutTypes.0.hand').selectOption('Left')
    await field('turnoutTypes.0.number').fill('6')
    await field('turnoutTypes.0.price').fill('62.00')
    await field('tracks.0.elements.0.kind').selectOption('Straight')
    await field('tracks.0.elements.0.length').fill('1000')
    await field('tracks.0.elements.1.kind').selectOption('Turnout')
    await press('Add another track')
    await field('tracks.0.elements.1.name').fill('W1')
    await field('tracks.0.elements.1.type').fill('six-left')
    await field('tracks.0.elements.1.enters').selectOption('At the points')
    expect(await field('tracks.0.elements.1.length').isVisible()).toBe(false)
    expect(await field('tracks.0.elements.0.type').isVisible()).toBe(false)
    await field('tracks.1.name').fill('spur')
    await page.locator('[id="tracks.1.start"] > summary').click()
    await field('tracks.1.start.from.turnout').fill('W1')
    await field('tracks.1.start.from.leg').selectOption('Diverging leg')
    await field('tracks.1.elements.0.kind').selectOption('Straight')
    await field('tracks.1.elements.0.length').fill('5 ft')
    expect(await sideways()).toBe(0)
    await press('Calculate')
    expect(await page.locator('.elements-table tbody tr').nth(1).textContent()).toContain('W1: six-left')
    await press('Save')
    expect(new URL(page.url()).pathname).toMatch(/^\/plans\//)
    await page.reload()
    await turnTo('Shop')
    const lines = (await rowsOf(part('shopping'))).filter((line) => line.includes('Turnout'))
    expect(lines).toHaveLength(1)
    expect(lines[0]).toMatch(/^Turnout six-left, left hand, No. 6 .*62\.00.*62\.00/)
  })
})

describe('bending', () => {
  test('is checked by a few readings, from the card of the bend', async () => {
    await open(DESKTOP)
    await page.goto('/demo/bench')
    await arriving(() => page.getByRole('link', { name: 'Check readings' }).first().click())
    await field('chord').fill('500')
    expect(await field('across').inputValue()).toBe('2717.86')
    // By closed form 2717.86 − √(2717.86² − 250²) = 11.52 mm.
    await field('readings').fill('11.5\n13.2\n-')
    await press('Check')
    expect(await page.locator('.checked .good').count()).toBe(1)
    expect(await page.locator('.checked .ease').count()).toBe(1)
    expect(await page.locator('svg.readings').isVisible()).toBe(true)
    expect(await page.locator('.findings').textContent()).toContain('No reading at station 2')
    await follow('a laid curve')
    expect(await page.locator('svg.readings .throw').count()).toBeGreaterThan(3)
    await page.emulateMedia({ media: 'print' })
    await page.setViewportSize(PAPER)
    expect(await page.locator('#check').isVisible()).toBe(false)
    expect(await sideways()).toBe(0)
  })
})

describe('the extension that the README builds', () => {
  test('comes out as the README says', async () => {
    const readme = await readFile(new URL('../../README.md', import.meta.url), 'utf8')
    await open(DESKTOP)
    await writePlan(page)
    await workOut(page)
    await turnTo('Shop')
    const bought = (await part('shopping').locator('tbody td:nth-child(5)').allInnerTexts()).slice(0, 3)
    const total = await part('shopping').locator('tfoot td').textContent()
    expect(readme).toContain(
      `${bought[0]} sticks, ${bought[1]} joiners, ${bought[2]} ties, in whole packs, ${total} USD`,
    )
    await turnTo('Bench')
    const cards = (await part('bending').locator('.job').allTextContents()).join(' ')
    for (const figure of ['3071.9 mm', '558 mm', '15.17 mm']) {
      expect(readme).toContain(figure)
      expect(cards).toContain(figure)
    }
    await checkBend(page)
    const third = await page.locator('.checked tbody tr').nth(2).textContent()
    expect(readme).toContain('1.41 mm too much')
    expect(third).toContain('1.41 mm')
    expect(third).toContain('ease')
  })
})

const LAID = '/check?chord=500&readings=0+3+9+17+21+19+22+16+23+23+15+10+2+0'

const JOBS = SHEETS.slice(1)

/** Without script: the reference is a list of links then. */
const GUIDE_PAGES = ['/docs', ...GUIDES.map(({ name }) => `/docs/${name}`)]

describe('on a phone', () => {
  test.each([
    '/',
    '/new?stick=6+ft&curve=22+ft&curve=20+ft&curve=2+parsecs',
    '/demo',
    '/demo?show=feet',
    ...JOBS.map((sheet) => `/demo/${sheet}`),
    '/demo/bench?show=feet',
    '/check',
    '/survey',
    '/survey?example',
    LAID,
    '/plans/nowhere',
    ...GUIDE_PAGES,
  ])('%s is never wider than the screen', async (path) => {
    await open(PHONE)
    await page.goto(path)
    expect(await sideways()).toBe(0)
    for (const summary of await page.locator('details:not([open]) > summary').all())
      if (await summary.isVisible()) await summary.click()
    expect(await sideways()).toBe(0)
  })

  test('everything to touch is large enough for a thumb', async () => {
    await open(PHONE)
    await page.goto('/new')
    for (const control of await page
      .locator('input:visible:not([type=checkbox]), select:visible, textarea:visible, summary:visible')
      .all())
      expect((await control.boundingBox())!.height).toBeGreaterThanOrEqual(44)
    for (const button of await page.locator('button:visible:not(.default-button)').all()) {
      const box = (await button.boundingBox())!
      expect(Math.min(box.height, box.width)).toBeGreaterThanOrEqual(36)
    }
  })
})

describe('legibility', () => {
  test.each(['light', 'dark'] as const)(
    'every text stands out from its ground by 4.5 to 1, %s',
    async (colorScheme) => {
      await open(DESKTOP)
      await page.emulateMedia({ colorScheme })
      const script = await readFile(new URL('contrast.js', import.meta.url), 'utf8')
      for (const path of [
        '/demo',
        ...JOBS.map((sheet) => `/demo/${sheet}`),
        '/new?curve=20+ft',
        LAID,
        '/docs/plans',
        '/docs/spreadsheets',
        '/docs/problems',
      ]) {
        await page.goto(path)
        for (const summary of await page.locator('details:not([open]) > summary').all())
          if (await summary.isVisible()) await summary.click()
        expect(await page.evaluate(script)).toEqual([])
      }
    },
  )
})

describe('the guides', () => {
  test.each(GUIDE_PAGES)('%s is printed without what is for the screen, no wider than the paper', async (path) => {
    await open(PAPER)
    await page.goto(path)
    await page.emulateMedia({ media: 'print' })
    for (const hidden of ['.top', '.guides', '.up', 'footer'])
      for (const element of await page.locator(hidden).all()) expect(await element.isVisible()).toBe(false)
    expect(await page.locator('h1').isVisible()).toBe(true)
    expect(await sideways()).toBe(0)
  })
})

describe('the reference', () => {
  test('lists every request, by its own script and this service alone', async () => {
    await open(DESKTOP)
    await page.close()
    const scripted = await here.browser.newContext({ baseURL: here.serving.url, colorScheme: 'dark' })
    page = await scripted.newPage()
    page.on('console', (message) => complaints.push(message.text()))
    page.on('request', (request) => {
      if (!request.url().startsWith(here.serving.url) && !request.url().startsWith('data:'))
        complaints.push(request.url())
    })
    await page.goto('/docs/api')
    await page.locator('.opblock').first().waitFor()
    expect(await page.locator('.opblock').count()).toBeGreaterThan(40)
    expect(await page.locator('html.dark-mode').count()).toBe(1)
    await scripted.close()
  })
})

test.each([...SHEETS.map((sheet) => `/demo/${sheet}`), LAID])(
  'the drawings of %s are well-formed for a strict reader',
  async (path) => {
    await open(DESKTOP)
    await page.goto(path)
    const faults = await page.evaluate(`[...document.querySelectorAll('svg')].flatMap((drawing) => {
    const text = new XMLSerializer().serializeToString(drawing)
    return new DOMParser().parseFromString(text, 'image/svg+xml').querySelector('parsererror')?.textContent ?? []
  })`)
    expect(faults).toEqual([])
  },
)
