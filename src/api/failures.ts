import type { Context, Hono } from 'hono'
import { meantName } from '../plan/fields/nearest.ts'
import { StoreError } from '../projects/store-error.ts'
import { WorkersError, type WorkersErrorKind } from '../workers/workers-error.ts'
import { problem, type Refusal } from './problem.ts'

const RETRY_AFTER_S = 2
/** Each piece of long work takes some seconds. */
const RETRY_LONG_WORK_AFTER_S = 10

/** The answer to an error that an endpoint threw. Details are in the log under the request id, never in the answer. */
export function answerFailure(error: unknown, c: Context): Response {
  if (error instanceof StoreError && error.kind === 'unavailable') return problem(c, unavailable(c))
  if (error instanceof StoreError && error.kind === 'full') return problem(c, DISK_FULL)
  if (error instanceof WorkersError) {
    const { kind } = error
    if (c.req.path.startsWith(CELLS) && c.req.query('errors') === 'cell') return c.text(cellTextOf(kind))
    return problem(c, kind === 'full' || kind === 'cancelled' ? tooBusy(c) : TOO_MUCH_WORK[kind])
  }
  return problem(c, {
    kind: 'internal-error',
    detail: 'The request could not be answered. The log has details under its id.',
  })
}

export const DISK_FULL: Refusal<'disk-full'> = {
  kind: 'disk-full',
  detail: 'The disk is nearly full, and nothing can be saved until there is space again. What is saved can be read.',
}

export function unavailable(c: Context): Refusal<'unavailable'> {
  c.header('Retry-After', String(RETRY_AFTER_S))
  return { kind: 'unavailable', detail: `The database is not answering. Try again in ${RETRY_AFTER_S} s.` }
}

const FEWER = 'Divide the plan into several, or ask for a quick plan or for fewer parts of the answer (fields=).'

const FEWER_ROWS = 'Of a table, ask for some of its rows (rows=).'

const tooMuchWork = (detail: string): Refusal<'too-much-work'> => ({
  kind: 'too-much-work',
  detail: `${detail} ${FEWER}`,
})

const TOO_MUCH_WORK = {
  'too-long': tooMuchWork('This takes more than a minute to work out.'),
  'too-much-memory': tooMuchWork(`This takes too much memory to work out. ${FEWER_ROWS}`),
  'too-large': tooMuchWork(`The answer would be larger than 32 MiB. ${FEWER_ROWS}`),
} as const

const CELLS = '/v1/cell/'

function cellTextOf(kind: WorkersErrorKind): string {
  return kind === 'full' || kind === 'cancelled'
    ? 'ERR too-busy track: the service is too busy; calculate again in some seconds'
    : 'ERR too-much-work track: this takes too long to work out; use a shorter track'
}

/** Also when work was cancelled because the client has disconnected; nobody reads that answer. */
function tooBusy(c: Context): Refusal<'too-busy'> {
  c.header('Retry-After', String(RETRY_LONG_WORK_AFTER_S))
  return {
    kind: 'too-busy',
    detail: `The service is too busy. Try again in ${RETRY_LONG_WORK_AFTER_S} s, or ask for a quick plan.`,
  }
}

/** The answer to an unknown address; it names the nearest known one. */
export function answerNotFound(app: Hono): (c: Context) => Response {
  return (c) => {
    const known = app.routes.filter(({ method }) => method !== 'ALL').map(({ path }) => path)
    const meant = meantName(c.req.path, [...new Set(known)])
    const detail = meant === null ? 'All addresses are in /openapi.json.' : `Did you mean ${meant}?`
    return problem(c, { kind: 'not-found', detail: `There is nothing at this address. ${detail}` })
  }
}

/**
 * Answers the methods that an address does not support: OPTIONS with the list of those it supports, the others with 405.
 * Call it after everything else is mounted.
 */
export function answerOtherMethods(app: Hono): void {
  const methodsAt = new Map<string, Set<string>>()
  for (const { method, path } of app.routes) {
    if (method === 'ALL') continue
    const methods = methodsAt.get(path) ?? new Set()
    methodsAt.set(path, methods.add(method))
    if (method === 'GET') methods.add('HEAD')
  }
  for (const [path, methods] of methodsAt) {
    const allowed = [...methods, 'OPTIONS'].join(', ')
    app.all(path, (c) => {
      c.header('Allow', allowed)
      if (c.req.method === 'OPTIONS') return c.body(null, 204)
      return problem(c, { kind: 'method-not-allowed', detail: `This address supports ${allowed}.` })
    })
  }
}
