import type { Locator, Page } from 'playwright-core'
import { arriving } from './scripted.ts'

/*
 * How long a person takes for what is done on a page, by the keystroke-level model: S. K. Card, T. P. Moran and A. Newell,
 * “The keystroke-level model for user performance time with interactive systems”, Communications of the ACM 23 (1980),
 * 396–410; its times are given from memory.
 */

/** A key of somebody who types 40 words a minute. */
const KEY_S = 0.28
/** To point at something. */
const POINT_S = 1.1
/** To press and let go of a button of the mouse. */
const CLICK_S = 0.2
/** Between keyboard and mouse. */
const HAND_S = 0.4
/** To think of what to do next. */
const THINK_S = 1.35
/** A letter on the glass of a phone: own choice, no source. */
const GLASS_S = 0.5

/** What a person does on a page, with the time it takes, and how long the page itself took. */
export class Hand {
  private humanS = 0
  private pageS = 0
  private count = 0
  private readonly page: Page
  private readonly onPhone: boolean

  constructor(page: Page, onPhone: boolean) {
    this.page = page
    this.onPhone = onPhone
  }

  get actions(): number {
    return this.count
  }

  get seconds(): number {
    return this.humanS + this.pageS
  }

  async type(field: Locator, text: string): Promise<void> {
    const keyS = this.onPhone ? GLASS_S : KEY_S
    const handS = this.onPhone ? 0 : 2 * HAND_S
    await this.act(THINK_S + POINT_S + CLICK_S + handS + keyS * text.length, () => field.fill(text))
  }

  async choose(list: Locator, label: string): Promise<void> {
    await this.act(THINK_S + 2 * (POINT_S + CLICK_S), () => list.selectOption(label))
  }

  async tick(box: Locator): Promise<void> {
    await this.act(THINK_S + POINT_S + CLICK_S, () => box.check())
  }

  /** What leads to another page. */
  async press(button: Locator): Promise<void> {
    await this.act(THINK_S + POINT_S + CLICK_S, () => arriving(this.page, () => button.click()))
  }

  /** Reads some lines; a thought for each. */
  async read(lines: number, text: Locator): Promise<void> {
    await this.act(THINK_S * lines, () => text.waitFor())
  }

  private async act(humanS: number, action: () => Promise<unknown>): Promise<void> {
    const began = performance.now()
    await action()
    this.humanS += humanS
    this.pageS += (performance.now() - began) / 1_000
    this.count += 1
  }
}
