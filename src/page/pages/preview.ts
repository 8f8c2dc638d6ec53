import type { Context, Hono } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { readPlan } from '../../estimate/read-plan.ts'
import { workOf } from '../../estimate/work.ts'
import type { Fault } from '../../measure/fault.ts'
import { inFormWords } from '../form/fault-words.ts'
import { planOfForm } from '../form/plan-form.ts'
import { withoutBlankRows } from '../form/rows.ts'
import { type Html, html } from '../html.ts'
import { lineResults } from '../sheets/line/line-sheet.ts'
import { counted } from '../words.ts'
import { faultList } from './plan-page.ts'
import { postedFor, stockOf } from './shown-plan.ts'
import type { PageDeps } from './side-pages.ts'
import { inUnitsOf } from './units-of-plan.ts'
import { workOutRead } from './worked-plan.ts'

/** Estimated milliseconds (`workOf`); a plan that takes longer is worked out when it is asked for, not while one types. */
const MOST_WORK = 400
/** Without its blank fields, a form of a thousand elements. */
const MOST_BYTES = 256 * 1024

/**
 * What the script of the page asks for while one types: the posted form worked out, as a part of a page. Nothing is
 * stored. A plan with faults is answered with these alone, each with the place of its field.
 */
export function mountPreview(page: Hono, { store, workers }: PageDeps): void {
  const atMost = bodyLimit({ maxSize: MOST_BYTES, onError: (c) => answer(c, tooMuch(), 422) })
  page.post('/preview', atMost, (c) => preview(c, null))
  page.post('/plans/:id/preview', atMost, (c) => preview(c, c.req.param('id')))

  async function preview(c: Context, id: string | null): Promise<Response> {
    const posted = await postedFor(c, store, id)
    if (!posted) return answer(c, html`<p>The plan has to be sent as a form.</p>`, 415)
    const { saved } = posted
    const { lengthsIn } = posted.saveFields
    const typed = inUnitsOf(planOfForm(withoutBlankRows(posted.form)), lengthsIn)
    const plan: typeof typed = typed.effort === undefined ? typed : { ...typed, effort: 'quick' }
    workers.refuseLarge(plan)
    const read = readPlan(plan)
    if (!read.ok) return answer(c, faulty(read.faults), 422)
    if (workOf(read.plan) > MOST_WORK) return answer(c, tooMuch(), 422)
    const result = workOutRead(workers, plan, read.plan, await stockOf(store, saved))
    if (!result.ok) return answer(c, faulty(result.faults), 422)
    const links = { base: id === null ? '/sheets' : `/plans/${id}`, posted: true, lengthsIn, ownUnits: lengthsIn }
    const results = lineResults({ worked: result.worked, lengthsIn, links, railAt: null, finished: null })
    return answer(c, typed.effort === 'thorough' ? html`${results}${ROUGHLY}` : results, 200)
  }
}

function answer(c: Context, part: Html, status: 200 | 415 | 422): Response {
  return c.html(part, status, { 'Cache-Control': 'no-store' })
}

function tooMuch(): Html {
  return html`<p class="card notice">This plan takes too long to be worked out while you type. Press “Calculate” to see it.</p>`
}

const ROUGHLY = html`<p class="hint">While you type, sticks and cost are those of a quick cut plan. “Calculate” looks for a better one.</p>`

function faulty(faults: readonly Fault[]): Html {
  const shown = faults.map(inFormWords)
  return html`<section class="card errors" aria-labelledby="live-faults"><h2 id="live-faults">${counted(faults.length, 'problem')} so far</h2>
${faultList(shown, 'listed by “Calculate”')}
<p class="hint">The drawing and the totals are as of before.</p></section>`
}
