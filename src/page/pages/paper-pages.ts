import type { Context, Hono } from 'hono'
import type { Origin } from '../../paper/origin.ts'
import { type Papers, PRINTED_SHEETS } from '../../paper/papers.ts'
import { planOfForm } from '../form/plan-form.ts'
import { withoutBlankRows } from '../form/rows.ts'
import { html } from '../html.ts'
import { PRINTED } from '../sheets/paper-links.ts'
import { show } from './answering.ts'
import { NO_FORM } from './plain-pages.ts'
import { BLANK, nameOf, postedFor, showPlan, stockOf } from './shown-plan.ts'
import type { PageDeps } from './side-pages.ts'
import { inUnitsOf } from './units-of-plan.ts'
import { workOut } from './worked-plan.ts'

/** The sheets, printed, of a plan that is not saved as it is shown: its form is posted. Nothing is stored. */
export function mountPaperPages(
  page: Hono,
  {
    store,
    workers,
    papers,
    clock = () => new Date(),
  }: PageDeps & { readonly papers: Papers; readonly clock?: () => Date },
): void {
  page.post(`/sheets/${PRINTED}`, (c) => printed(c, null))
  page.post(`/plans/:id/${PRINTED}`, (c) => printed(c, c.req.param('id')))

  async function printed(c: Context, id: string | null): Promise<Response> {
    const posted = await postedFor(c, store, id)
    if (!posted) return show(c, NO_FORM, 415)
    const { saveFields, saved } = posted
    const { lengthsIn } = saveFields
    const form = withoutBlankRows(posted.form)
    const plan = inUnitsOf(planOfForm(form), lengthsIn)
    workers.refuseHere()
    const result = workOut(workers, plan, await stockOf(store, saved))
    if (!result.ok) return showPlan(c, { ...BLANK, form, saveFields, saved, faults: result.faults }, 422)
    const name = nameOf(saveFields, form) || null
    const origin: Origin = { plan: name, revision: null, date: clock().toISOString().slice(0, 10) }
    const asked = PRINTED_SHEETS.filter((sheet) => sheet === c.req.query('for'))
    const pdf = await papers.sheets(
      result.worked,
      { sheets: asked.length > 0 ? asked : PRINTED_SHEETS, paper: lengthsIn === 'feet' ? 'letter' : 'a4' },
      origin,
    )
    if (!pdf.ok)
      return show(
        c,
        { title: 'Not printed', main: html`<h1>Not printed</h1><p>${pdf.fault.detail}. ${pdf.fault.hint}.</p>` },
        422,
      )
    return c.body(pdf.pdf, 200, {
      'Content-Type': 'application/pdf',
      'Content-Disposition': 'attachment; filename="sheets.pdf"',
      'Cache-Control': 'no-store',
    })
  }
}
