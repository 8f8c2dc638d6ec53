import type { Estimate } from '../../src/estimate/answer.ts'
import { type Html, html } from '../../src/page/html.ts'
import type { WorkedPlan } from '../../src/page/pages/worked-plan.ts'
import { beforeBending, curveCards } from '../../src/page/sheets/bench/bend-cards.ts'
import { lineSheet } from '../../src/page/sheets/line/line-sheet.ts'
import { recordSheet } from '../../src/page/sheets/record/record-sheet.ts'
import type { SheetContext } from '../../src/page/sheets/sheet.ts'
import { SHEETS, type SheetName } from '../../src/page/sheets/sheet-names.ts'
import { jobSheet } from '../../src/page/sheets/sheets.ts'
import type { LengthsIn } from '../../src/page/show-length.ts'

/** Links of a plan that is saved. */
export const linksIn = (lengthsIn: LengthsIn) =>
  ({ base: '/plans/x', posted: false, lengthsIn, ownUnits: 'both' }) as const

export function contextOf(worked: WorkedPlan, lengthsIn: LengthsIn, railAt: string | null = null): SheetContext {
  return { worked, lengthsIn, links: linksIn(lengthsIn), railAt }
}

/** The markup of one sheet, without the form. */
export function sheetOf(worked: WorkedPlan, sheet: SheetName, lengthsIn: LengthsIn = 'metric'): string {
  const context = contextOf(worked, lengthsIn)
  if (sheet === 'line') return lineSheet(context, html``, false).toString()
  if (sheet === 'record') return recordSheet(context, '', html``, html``).toString()
  return jobSheet(sheet, context).toString()
}

/** The markup of all sheets, one after the other. */
export function everySheet(worked: WorkedPlan, lengthsIn: LengthsIn = 'metric'): string {
  return SHEETS.map((sheet) => sheetOf(worked, sheet, lengthsIn)).join('\n')
}

/** What is said of the curves of a plan, before and behind the cards of its pieces. */
export function bendCards(estimate: Estimate, lengthsIn: LengthsIn): Html {
  return html`${beforeBending(estimate, lengthsIn, linksIn(lengthsIn))}${curveCards(estimate, lengthsIn)}`
}
