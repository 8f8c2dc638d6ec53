import type { Context, Hono } from 'hono'
import { meantName } from '../plan/fields/nearest.ts'
import { StoreError } from '../projects/store-error.ts'
import { WorkersError } from '../workers/workers-error.ts'
import { withoutToken } from './link-token.ts'
import { problem, type Refusal } from './problem.ts'

const RETRY_AFTER_S = 5
/** Long work takes some seconds each. */
const RETRY_LONG_WORK_AFTER_S = 10

/**
 * The answer to whatever an endpoint threw. What happened is written to the log under the request's id; the answer says
 * nothing of it.
 */
export function answerFailure(error: unknown, c: Context): Response {
  const request = `request ${c.get('requestId')} (${c.req.method} ${withoutToken(c.req.path)})`
  if (error instanceof StoreError && error.kind === 'unavailable') {
    console.error(`${request}: ${error.message}`)
    return problem(c, unavailable(c))
  }
  if (error instanceof WorkersError) return problem(c, tooBusy(c))
  console.error(`${request} failed:`, error)
  return problem(c, { kind: 'internal-error', detail: 'The request could not be answered. Its id is in the log.' })
}

export function unavailable(c: Context): Refusal<'unavailable'> {
  c.header('Retry-After', String(RETRY_AFTER_S))
  return { kind: 'unavailable', detail: `The database does not answer at present. Try again in ${RETRY_AFTER_S} s.` }
}

/** Also where the work was given up because whoever asked has gone: nobody reads that. */
function tooBusy(c: Context): Refusal<'too-busy'> {
  c.header('Retry-After', String(RETRY_LONG_WORK_AFTER_S))
  return {
    kind: 'too-busy',
    detail: `Too much long work is waiting. Try again in ${RETRY_LONG_WORK_AFTER_S} s, or ask for a quick plan.`,
  }
}

/** The answer to an address nothing is at, with the nearest one there is. */
export function answerNotFound(app: Hono): (c: Context) => Response {
  return (c) => {
    const known = app.routes.filter(({ method }) => method !== 'ALL').map(({ path }) => path)
    const meant = meantName(c.req.path, [...new Set(known)])
    const detail = meant === null ? 'What there is stands in /openapi.json.' : `Did you mean ${meant}?`
    return problem(c, { kind: 'not-found', detail: `There is nothing at this address. ${detail}` })
  }
}

/**
 * Answers, at every address the app has by now, the methods it does not have: OPTIONS with the list, the others with
 * 405. Call it last.
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
      return problem(c, { kind: 'method-not-allowed', detail: `This address has ${allowed}.` })
    })
  }
}
