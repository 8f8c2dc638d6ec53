import type { Hono } from 'hono'
import { readLengthsIn } from '../show-length.ts'
import { fieldsOf, plainText, show } from './answering.ts'
import { NO_FORM, NO_PLAN } from './plain-pages.ts'
import type { PageDeps } from './side-pages.ts'

const CARD_LONGEST = 1_000

/** Where bench cards of a revision are ticked off. */
export function mountFinishedPages(page: Hono, { store }: PageDeps): void {
  page.post('/plans/:id/revisions/:revision/cards', async (c) => {
    const fields = await fieldsOf(c)
    if (!fields) return show(c, NO_FORM, 415)
    const { id, revision: number } = c.req.param()
    const revision = /^[1-9]\d*$/.test(number) ? Number(number) : 0
    const card = plainText(fields.get('card'))
    if (card === '' || card.length > CARD_LONGEST) return show(c, NO_PLAN, 404)
    if (!(await store.noteCard(id, revision, card, fields.get('done') === 'yes'))) return show(c, NO_PLAN, 404)
    const present = await store.get(id)
    const base = present?.revision === revision ? `/plans/${id}` : `/plans/${id}/revisions/${revision}`
    const lengthsIn = readLengthsIn(fields.get('show'))
    const next = /^\d{1,5}$/.test(fields.get('next') ?? '') ? `#card-${fields.get('next')}` : ''
    return c.redirect(`${base}/bench?show=${lengthsIn}${next}`, 303)
  })
}
