import { readFile } from 'node:fs/promises'
import { createRequire } from 'node:module'
import type { BrowserContext, Page } from 'playwright-core'
import { afterEach, beforeEach, expect } from 'vitest'
import { served } from './served.ts'

export const DESKTOP = { width: 1400, height: 900 }
export const PHONE = { width: 390, height: 844 }

export interface Opened {
  readonly page: Page
  readonly context: BrowserContext
}

/** A service and a browser for the tests of one file; each test opens the pages it needs, with the script or without. */
export function scripted() {
  const here = served()
  const contexts: BrowserContext[] = []
  /** Requests that left this service, and whatever the browser complained of. */
  let complaints: string[] = []

  beforeEach(() => {
    complaints = []
  })

  afterEach(async () => {
    for (const context of contexts.splice(0)) await context.close()
    expect(complaints).toEqual([])
  })

  async function open(
    path: string,
    viewport: { width: number; height: number } = DESKTOP,
    how: { readonly script?: boolean; readonly dark?: boolean; readonly touch?: boolean } = {},
  ): Promise<Opened> {
    const { script = true, dark = false, touch = false } = how
    const context = await here.browser.newContext({
      viewport,
      javaScriptEnabled: script,
      colorScheme: dark ? 'dark' : 'light',
      hasTouch: touch,
      baseURL: here.serving.url,
    })
    contexts.push(context)
    return { page: await newPage(context, path), context }
  }

  async function newPage(context: BrowserContext, path: string): Promise<Page> {
    const page = await context.newPage()
    page.on('request', (request) => {
      if (!request.url().startsWith(here.serving.url) && !request.url().startsWith('data:'))
        complaints.push(request.url())
    })
    page.on('console', (message) => {
      if (!message.text().startsWith('Failed to load resource')) complaints.push(message.text())
    })
    page.on('pageerror', (error) => complaints.push(error.message))
    await page.goto(path)
    return page
  }

  return { open, newPage, store: () => here.store, url: () => here.serving.url }
}

export const field = (page: Page, name: string) => page.locator(`[name="${name}"]`)
export const cell = (page: Page, row: number, key: string) => field(page, `tracks.0.elements.${row}.${key}`)

/** Does what leads to another page, and waits until that is there. */
export async function arriving(page: Page, action: () => Promise<unknown>): Promise<void> {
  const arrived = page.waitForEvent('load')
  await action()
  await arrived
}

/** A straight and a quarter of a circle, as somebody types them. */
export async function typeTwoElements(page: Page): Promise<void> {
  await cell(page, 0, 'kind').selectOption('tangent')
  await cell(page, 0, 'length').fill('6 ft')
  await cell(page, 1, 'kind').selectOption('arc')
  await cell(page, 1, 'across').fill('10 ft')
  await cell(page, 1, 'angle').fill('90')
  await cell(page, 1, 'turn').selectOption('left')
}

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js')

/** What axe finds wrong with a page, by its rules for WCAG 2.2 AA and good practice, or by some of them alone. */
export async function violations(page: Page, rules: readonly string[] = []): Promise<string[]> {
  if (!(await page.evaluate("'axe' in window"))) await page.evaluate(await readFile(AXE, 'utf8'))
  const options = rules.length === 0 ? {} : { runOnly: rules }
  return page.evaluate(
    `axe.run(${JSON.stringify(options)}).then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes.map(({ target }) => target.join(' ')).join(', ')))`,
  )
}
