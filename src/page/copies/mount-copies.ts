import type { Context, Hono } from 'hono'
import { NO_BACKUPS } from '../../projects/backups/backups.ts'
import { OfferedCopies } from '../../projects/backups/offered-copies.ts'
import { linesOf } from '../../projects/journal/lines-of.ts'
import { fieldsOf, fileIn, type ShownStatus, show } from '../pages/answering.ts'
import { NO_FORM } from '../pages/plain-pages.ts'
import type { PageDeps } from '../pages/side-pages.ts'
import { COPY_FILE, copiesPage, copyFault, lookPage, putBackPage } from './copies-page.ts'

const FORGOTTEN = 'Choose a copy first. One that was sent more than half an hour ago has to be sent again.'

/** The pages for copies of everything. */
export function mountCopies(page: Hono, { store, backups = null }: PageDeps): void {
  const offered = new OfferedCopies()

  page.get('/copies', (c) => showCopies(c, null))

  page.post('/copies', async (c) => {
    const fields = await fieldsOf(c)
    if (!fields) return show(c, NO_FORM, 415)
    const file = await fileIn(c, COPY_FILE)
    const copy = file ? `sent ${await offered.offer(file)}` : (fields.get('copy') ?? '')
    const lines = await linesIn(copy)
    if (lines === null) return showCopies(c, FORGOTTEN, 422)
    const isLook = fields.get('do') !== 'put'
    const result = await store.importAll(lines, { dryRun: isLook, replace: true })
    if ('kind' in result) return showCopies(c, copyFault(result), 422)
    if (isLook) return show(c, { title: 'Put a copy back', main: lookPage(result, copy) })
    offered.forget(copy.slice('sent '.length))
    return show(c, {
      title: 'The copy is put back',
      main: putBackPage(result, backups?.status().state === 'kept'),
    })
  })

  async function linesIn(copy: string): Promise<AsyncIterable<string> | null> {
    const [, kind, name] = /^(sent|backup) (\S+)$/.exec(copy) ?? []
    if (kind === 'sent') {
      const bytes = offered.read(name!)
      return bytes && linesOf(bytes)
    }
    const file = kind === 'backup' ? await backups?.folder.find(name!) : null
    return file && backups ? linesOf(backups.folder.read(file)) : null
  }

  async function showCopies(c: Context, fault: string | null, status: ShownStatus = 200): Promise<Response> {
    const files = await backups?.list().catch(() => [])
    const main = copiesPage({
      status: backups?.status() ?? NO_BACKUPS,
      backups: (files ?? []).toReversed(),
      fault,
    })
    return show(c, { title: 'Keep a copy', main }, status)
  }
}
