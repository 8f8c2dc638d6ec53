import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Locator, Page } from 'playwright-core'
import { createApp } from '../../../src/app.ts'
import { openStore } from '../../../src/projects/open-store.ts'
import { serve } from '../../../src/serving.ts'
import { inThisThread } from '../../../src/workers/in-this-thread.ts'
import { launchChromium } from '../chromium.ts'
import { checkBend, outerPieces, turnTo, workOut, writePlan } from '../extension.ts'

/* Takes the pictures of the README again, beside this file: npm run pictures */

const folder = await mkdtemp(join(tmpdir(), 'longchord-pictures-'))
const store = await openStore({ databaseUrl: null, dataDir: join(folder, 'data') }, { onProgress: () => {} })
const serving = await serve(createApp({ store, workers: inThisThread }), { host: '127.0.0.1', port: 0 })
const browser = await launchChromium()

const pathOf = (name: string) => fileURLToPath(new URL(`${name}.png`, import.meta.url))
const MARGIN_PX = 12
/** Less below, where the next thing is near. */
const BELOW_PX = 3

/** From the top of one thing to the bottom of another. */
async function take(page: Page, name: string, first: Locator, last = first): Promise<void> {
  await page.evaluate('scrollTo(0, 0)')
  const [top, bottom] = [await first.boundingBox(), await last.boundingBox()]
  const x = Math.min(top!.x, bottom!.x) - MARGIN_PX
  const y = top!.y - MARGIN_PX
  const width = Math.max(top!.width, bottom!.width) + 2 * MARGIN_PX
  const height = bottom!.y + bottom!.height - y + BELOW_PX
  await page.screenshot({ path: pathOf(name), fullPage: true, clip: { x, y, width, height } })
}

try {
  const context = await browser.newContext({
    viewport: { width: 1000, height: 900 },
    deviceScaleFactor: 1.25,
    baseURL: serving.url,
  })
  const page = await context.newPage()

  await page.goto('/demo')
  // The drawing and what is found, in a file that loads quickly.
  await page.screenshot({ path: pathOf('demo-plan'), clip: { x: 0, y: 0, width: 1000, height: 830 } })

  await writePlan(page)
  await take(page, 'extension-plan', page.locator('table.elements'))
  await workOut(page)
  await take(page, 'extension-drawing', page.locator('#drawing'))
  await turnTo(page, 'Shop')
  await take(page, 'extension-list', page.locator('#shopping table'))
  await turnTo(page, 'Saw')
  await take(page, 'extension-cuts', page.locator('#cutting'))
  await turnTo(page, 'Bench')
  await take(page, 'extension-bend', outerPieces(page).filter({ hasText: 'Check readings' }).first())
  await checkBend(page)
  await take(page, 'extension-check', page.locator('.verdict'), page.locator('.checked'))
} finally {
  await browser.close()
  await serving.drain()
  await store.close()
  await rm(folder, { recursive: true })
}
