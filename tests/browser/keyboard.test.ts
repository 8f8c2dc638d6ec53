import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { arriving, scripted, violations } from './scripted.ts'

const { open, store } = scripted()

/** More stops of the tab key than this to the next thing one wants are too many. */
const MOST_STOPS = 70

/** Presses the tab key until what is wanted has the focus. */
async function tabTo(page: Page, wanted: string, most = MOST_STOPS): Promise<void> {
  for (let stops = 0; stops < most; stops++) {
    await page.keyboard.press('Tab')
    if (await page.evaluate(`document.activeElement.matches(${JSON.stringify(wanted)})`)) return
  }
  throw new Error(`the tab key did not come to ${wanted}`)
}

/** Whatever has the focus is to be seen, and shows that it has it. */
async function isShown(page: Page): Promise<boolean> {
  return page.evaluate(`(() => {
    const at = document.activeElement
    const { top, bottom } = at.getBoundingClientRect()
    const { outlineStyle, outlineWidth } = getComputedStyle(at)
    return bottom > 0 && top < innerHeight && outlineStyle !== 'none' && outlineWidth !== '0px'
  })()`)
}

test.each([true, false])(
  'from a blank plan to one that is saved and printed with the keyboard alone, script: %s',
  async (script) => {
    const { page } = await open('/', undefined, { script })
    await tabTo(page, '[name=stick]')
    await page.keyboard.type('6 ft')
    await page.keyboard.press('Tab')
    await page.keyboard.type('10 ft')
    await arriving(page, () => page.keyboard.press('Enter'))
    expect(new URL(page.url()).pathname).toBe('/new')

    await tabTo(page, '[name=title]')
    expect(await isShown(page)).toBe(true)
    await page.keyboard.type('Round the pond')
    await tabTo(page, '[name="tracks.0.closed"]')
    await page.keyboard.press('Space')
    // An oval by hand: two straights of 8 ft, and one half circle that is a degree short.
    const rows = [
      ['Straight', '8 ft'],
      ['Curve', '10 ft', '180', 'Left'],
      ['Straight', '8 ft'],
      ['Curve', '10 ft', '179', 'Left'],
    ] as const
    for (const [index, [kind, ...cells]] of rows.entries()) {
      await tabTo(page, `[name="tracks.0.elements.${index}.kind"]`)
      await page.keyboard.type(kind)
      const keys = kind === 'Curve' ? ['across', 'angle', 'turn'] : ['length']
      for (const [n, text] of cells.entries()) {
        await tabTo(page, `[name="tracks.0.elements.${index}.${keys[n]}"]`, 5)
        await page.keyboard.type(text)
      }
    }
    await tabTo(page, '.bar-buttons button[value="work"]')
    expect(await isShown(page)).toBe(true)
    await arriving(page, () => page.keyboard.press('Enter'))

    expect(await page.locator('.findings .stop').count()).toBeGreaterThan(0)
    await tabTo(page, '.remedy button')
    expect(await isShown(page)).toBe(true)
    expect(await page.evaluate('document.activeElement.textContent')).toContain('angle of element 4: 180°')
    await arriving(page, () => page.keyboard.press('Enter'))
    expect(await page.locator('.findings .stop').count()).toBe(0)

    await tabTo(page, '#save button[value="save"]', 120)
    expect(await isShown(page)).toBe(true)
    await arriving(page, () => page.keyboard.press('Enter'))
    const [, id] = /^\/plans\/([0-9a-f-]{36})$/.exec(new URL(page.url()).pathname)!
    expect((await store().get(id!))?.plan).toMatchObject({
      title: 'Round the pond',
      supplies: { sticks: [{ length: '6 ft' }] },
    })

    await tabTo(page, '.paper-links a')
    expect(await page.evaluate('document.activeElement.textContent')).toBe('Print as PDF')
    const printed = page.waitForEvent('download')
    await page.keyboard.press('Enter')
    expect((await printed).suggestedFilename()).toContain('sheets.pdf')
    if (script) expect(await violations(page)).toEqual([])
  },
  60_000,
)
