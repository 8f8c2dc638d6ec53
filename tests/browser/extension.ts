import type { Page } from 'playwright-core'

/*
 * The short extension that the README builds from start to end, typed into the page as a newcomer would. A test checks
 * that the page shows the figures the README gives; `npm run pictures` takes the README's pictures of it.
 */

const ELEMENTS = [
  { kind: 'Straight', length: '4 ft' },
  { kind: 'Easement', length: '2 ft' },
  { kind: 'Curve', across: '20 ft', angle: '45', turn: 'Left' },
  { kind: 'Easement', length: '2 ft' },
  { kind: 'Straight', length: '3 ft' },
] as const

const SUPPLIES = {
  'sticks.0.length': '6 ft',
  'sticks.0.price': '14.50',
  'sticks.0.onHand': '2',
  'joiners.packSize': '10',
  'joiners.pricePerPack': '9.00',
  'ties.packSize': '100',
  'ties.pricePerPack': '21.00',
  'fasteners.packSize': '500',
  'fasteners.pricePerPack': '12.00',
} as const

/** Readings along the bent outer rail, mm: right, right, too tight. */
const READINGS = ['10.4', '10.1', '11.6']

const field = (page: Page, name: string) => page.locator(`[name="${name}"]`)

async function press(page: Page, name: string): Promise<void> {
  const arrived = page.waitForEvent('load')
  await page.getByRole('button', { name, exact: true }).click()
  await arrived
}

/** Fills in the form of a new plan. */
export async function writePlan(page: Page): Promise<void> {
  await page.goto('/new')
  await field(page, 'title').fill('Extension to the pond')
  await field(page, 'rail.temper').selectOption('half-hard')
  await page.getByLabel('Starts at existing track').check()
  for (const [index, element] of ELEMENTS.entries())
    for (const [cell, value] of Object.entries(element)) {
      const input = field(page, `tracks.0.elements.${index}.${cell}`)
      await (cell === 'kind' || cell === 'turn' ? input.selectOption(value) : input.fill(value))
    }
  await page.locator('#supplies > summary').click()
  for (const [cell, value] of Object.entries(SUPPLIES)) await field(page, `supplies.${cell}`).fill(value)
}

export const workOut = (page: Page) => press(page, 'Calculate')

/** Goes to another sheet of the plan, by a link or by the form. */
export async function turnTo(page: Page, sheet: string): Promise<void> {
  const arrived = page.waitForEvent('load')
  await page.locator('.tab').filter({ hasText: sheet }).click()
  await arrived
}

/** The cards of pieces of the outer rail of the curve. */
export const outerPieces = (page: Page) => page.locator('.job').filter({ hasText: '3071.9 mm' })

/** From the card of the bend to the check, with readings of the outer rail. */
export async function checkBend(page: Page): Promise<void> {
  const arrived = page.waitForEvent('load')
  await outerPieces(page).getByRole('link', { name: 'Check readings' }).first().click()
  await arrived
  await field(page, 'chord').fill('500')
  await field(page, 'readings').fill(READINGS.join('\n'))
  await press(page, 'Check')
}
