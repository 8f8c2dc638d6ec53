import type { Context } from 'hono'
import { StoreError } from '../../projects/store-error.ts'
import { WorkersError } from '../../workers/workers-error.ts'
import { show } from './answering.ts'
import { BUSY, broken, NO_SPACE, noStore, TOO_MUCH } from './plain-pages.ts'
import { POLICY } from './policy.ts'

const RETRY_AFTER_S = '2'
const RETRY_LONG_WORK_AFTER_S = '10'

/** The page for an error that was thrown. Details are in the log, never in the page. */
export function answerPageFailure(error: unknown, c: Context): Response {
  c.header('Content-Security-Policy', POLICY)
  if (error instanceof WorkersError) {
    if (error.kind !== 'full' && error.kind !== 'cancelled') return show(c, TOO_MUCH, 422)
    c.header('Retry-After', RETRY_LONG_WORK_AFTER_S)
    return show(c, BUSY, 503)
  }
  const id: string = c.get('requestId')
  if (error instanceof StoreError && error.kind === 'full') return show(c, NO_SPACE, 507)
  if (!(error instanceof StoreError && error.kind === 'unavailable')) return show(c, broken(id), 500)
  c.header('Retry-After', RETRY_AFTER_S)
  return show(c, noStore(id), 503)
}
