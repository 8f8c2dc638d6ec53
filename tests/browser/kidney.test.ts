import { expect, test } from 'vitest'
import { Hand } from './hand.ts'
import { cell, DESKTOP, PHONE, scripted, violations } from './scripted.ts'

const { open } = scripted()

const MOST_SECONDS = 4 * 60

/** Two ends of 22 ft, 18 ft apart: 40 ft across; between them on one side a dent. The dent turns the wrong way. */
const ROWS = [
  { length: '18 ft' },
  { across: '22 ft', angle: '200' },
  { length: '2 ft' },
  { across: '20 ft', angle: '40' },
  { length: '2 ft' },
  { across: '22 ft', angle: '200' },
]

test.each([
  ['on a desk, with script', DESKTOP, true],
  ['on a desk, without script', DESKTOP, false],
  ['on a phone, with script', PHONE, true],
  ['on a phone, without script', PHONE, false],
] as const)(
  'a kidney of 40 by 22 ft is planned from blank and mended in four minutes, %s',
  async (_, size, script) => {
    const { page } = await open('/', size, { script })
    const hand = new Hand(page, size === PHONE)
    await hand.type(page.getByLabel('Stick length'), '6 ft')
    await hand.type(page.getByLabel('Curve, diameter'), '22 ft')
    await hand.type(page.getByLabel('Curve 2, diameter'), '20 ft')
    await hand.press(page.getByRole('button', { name: 'Start the plan' }))
    await hand.tick(page.getByLabel('Closed loop: the end joins the start'))
    for (const [row, fields] of ROWS.entries()) {
      const isCurve = 'across' in fields
      await hand.choose(cell(page, row, 'kind'), isCurve ? 'Curve' : 'Straight')
      for (const [key, text] of Object.entries(fields)) await hand.type(cell(page, row, key), text!)
      if (isCurve) await hand.choose(cell(page, row, 'turn'), 'Left')
    }
    if (!script) await hand.press(page.getByRole('button', { name: 'Calculate', exact: true }))

    // 200° + 40° + 200° are 80° over a turn.
    await hand.read(4, page.getByText('The track turns 80.00° too far to the left').first())
    await hand.press(page.getByRole('button', { name: 'Apply: turn of element 4: right' }).first())
    // Closed form: with 20° on either side of the dent, 9 − 11·sin 20° − 2·cos 20° − 10·sin 20° ft are left on each side.
    await hand.read(4, page.getByText('The end misses the start by 37.7 mm').first())
    await hand.press(page.getByRole('button', { name: /^Apply: length of element 1: 18 ft 1/ }))
    await hand.read(2, page.locator('#drawing'))
    expect(await page.locator('.findings .stop').count()).toBe(0)
    expect(await page.locator('#drawing').textContent()).toMatch(/40 ft 1-\d+\/\d+ in across and 6\.706 m 22 ft/)
    expect(hand.actions).toBeLessThan(40)
    expect(hand.seconds).toBeLessThan(MOST_SECONDS)
    if (script) expect(await violations(page)).toEqual([])
  },
  60_000,
)
