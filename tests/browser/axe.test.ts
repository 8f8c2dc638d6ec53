import { readFile } from 'node:fs/promises'
import type { Page } from 'playwright-core'
import { beforeAll, expect, test } from 'vitest'
import type { StoredPlan } from '../../src/projects/store.ts'
import { POND_PLAN } from '../page/pond-plan.ts'
import { turnTo } from './extension.ts'
import { arriving, cell, DESKTOP, field, PHONE, scripted, typeTwoElements, violations } from './scripted.ts'

const { open, store } = scripted()

/** A kidney with a wrong turn: stops and remedies. */
const KIDNEY = {
  rail: { section: '250', material: 'brass' },
  tracks: [
    {
      name: 'main',
      closed: true,
      elements: [
        { kind: 'tangent', length: '18 ft' },
        { kind: 'arc', diameter: '22 ft', angle: 200, turn: 'left' },
        { kind: 'tangent', length: '2 ft' },
        { kind: 'arc', diameter: '20 ft', angle: 40, turn: 'left' },
        { kind: 'tangent', length: '2 ft' },
        { kind: 'arc', diameter: '22 ft', angle: 200, turn: 'left' },
      ],
    },
  ],
}

interface Saved {
  kidney: string
  pond: string
  fits: string
  faulty: string
  old: string
}

let saved: Saved

beforeAll(async () => {
  const example = new URL('../../openapi/examples/connection-to-fit.json', import.meta.url)
  const put = async (name: string, plan: StoredPlan) => (await store().create({ name, notes: 'by the pond', plan })).id
  const old = await put('Twice', POND_PLAN)
  await store().replace(old, { name: 'Twice', notes: '', plan: KIDNEY }, [1])
  saved = {
    kidney: await put('Kidney', KIDNEY),
    pond: await put('Pond', POND_PLAN),
    fits: await put('To fit', JSON.parse(await readFile(example, 'utf8')).plan),
    faulty: await put('No rail', { ...KIDNEY, rail: { section: '9999', material: 'gold' } }),
    old,
  }
})

const pressed = (page: Page, name: string) =>
  arriving(page, () => page.getByRole('button', { name, exact: true }).click())

/** Opens whatever is folded away. */
const unfolded = (page: Page) =>
  page.evaluate("for (const fold of document.querySelectorAll('details')) fold.open = true")

/** What is looked at, and how to get there. */
const STATES: Readonly<Record<string, (page: Page) => Promise<unknown>>> = {
  'the start': (page) => page.goto('/'),
  'six fields': (page) => page.goto('/new?stick=6+ft&curve=20+ft&curve=2+parsecs'),
  'a blank plan, unfolded': async (page) => {
    await page.goto('/new')
    await unfolded(page)
  },
  'typed, with what follows': async (page) => {
    await page.goto('/new')
    await typeTwoElements(page)
    await page.locator('#live svg.plan').first().waitFor()
  },
  'typed, with a fault': async (page) => {
    await page.goto('/new')
    await cell(page, 0, 'kind').selectOption('tangent')
    await cell(page, 0, 'length').fill('2 parsecs')
    await page.locator('#live .errors').waitFor()
  },
  'sent, with a fault': async (page) => {
    await page.goto('/new')
    await cell(page, 0, 'length').fill('2 parsecs')
    await pressed(page, 'Calculate')
  },
  'findings with all remedies': async (page) => {
    await page.goto(`/plans/${saved.kidney}`)
    await unfolded(page)
    expect(await page.locator('.remedy button:visible').count()).toBeGreaterThan(1)
  },
  'a saved plan being edited': async (page) => {
    await page.goto(`/plans/${saved.kidney}`)
    await page.getByRole('link', { name: 'Edit plan' }).click()
    await page.locator('form#plan table.elements').first().waitFor()
    await unfolded(page)
  },
  'a figure to look at': async (page) => {
    await page.goto(`/plans/${saved.pond}?edit`)
    await unfolded(page)
    await field(page, 'figure.passing-loop.spacing').fill('8 in')
    await field(page, 'figure.passing-loop.clear').fill('6 ft')
    await pressed(page, 'Show the passing loop')
    await page.locator('#figure svg').first().waitFor()
  },
  'what was fitted': async (page) => {
    await page.goto(`/plans/${saved.fits}`)
    await page.locator('#fitted').waitFor()
  },
  'a plan that cannot be worked out': async (page) => {
    await page.goto(`/plans/${saved.faulty}`)
    await page.locator('.errors').waitFor()
  },
  ...Object.fromEntries(
    ['line', 'shop', 'saw', 'bench', 'garden', 'record'].map((sheet) => [
      `the ${sheet} sheet, unfolded`,
      async (page: Page) => {
        await page.goto(`/demo/${sheet}`)
        await unfolded(page)
      },
    ]),
  ),
  'the bench sheet of a saved plan': (page) => page.goto(`/plans/${saved.pond}/bench`),
  'metals compared': async (page) => {
    await page.goto(`/plans/${saved.pond}`)
    await turnTo(page, 'Record')
    await pressed(page, 'Compare the metals')
  },
  'an earlier revision': (page) => page.goto(`/plans/${saved.old}/revisions/1`),
  ...Object.fromEntries(
    ['revisions', 'links', 'shopping', 'since', 'built', 'delete'].map((of) => [
      of,
      (page: Page) => page.goto(`/plans/${saved.old}/${of}`),
    ]),
  ),
  'a survey': (page) => page.goto('/survey'),
  'a survey worked out': async (page) => {
    await page.goto('/survey?example')
    await unfolded(page)
  },
  'a check': (page) => page.goto('/check?chord=500&readings=0+3+9+17+21+19+22+16+23+23+15+10+2+0'),
  'a check with faults': (page) => page.goto('/check?chord=a&readings=b'),
  'the shed': (page) => page.goto('/shed'),
  copies: (page) => page.goto('/copies'),
  'deleted plans': (page) => page.goto('/deleted'),
  'signing in': (page) => page.goto('/sign-in'),
  'signing in with a wrong key': async (page) => {
    await page.goto('/sign-in')
    await page.locator('input[name=key]').fill('wrong')
    await pressed(page, 'Sign in')
  },
  'no such page': (page) => page.goto('/plans/nowhere'),
  guides: (page) => page.goto('/docs'),
  'a guide': (page) => page.goto('/docs/plans'),
}

const ZOOMED = { width: DESKTOP.width / 2, height: DESKTOP.height / 2 }

/** In the dark nothing but the colours is otherwise. Zoomed in to 200 %, a window has half the width of the desk. */
const LOOKS = [
  { name: 'on a desk', size: DESKTOP, dark: false, rules: [] },
  { name: 'in the dark', size: DESKTOP, dark: true, rules: ['color-contrast'] },
  { name: 'zoomed in to 200 %', size: ZOOMED, dark: false, rules: ['target-size', 'scrollable-region-focusable'] },
  { name: 'on a phone', size: PHONE, dark: false, rules: [] },
] as const

test.each(Object.entries(STATES))(
  'axe finds nothing wrong with %s, and it is not wider than the window',
  async (_, lead) => {
    const { page } = await open('/sign-in')
    const wrong: Record<string, unknown> = {}
    await lead(page)
    for (const { name, size, dark, rules } of LOOKS) {
      await page.setViewportSize(size)
      await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light' })
      const found = await violations(page, rules)
      const wider = await page.evaluate<number>('document.documentElement.scrollWidth - innerWidth')
      if (found.length > 0 || wider > 0) wrong[name] = { found, wider }
    }
    expect(wrong).toEqual({})
  },
  120_000,
)
