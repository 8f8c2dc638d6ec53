import type { Context, MiddlewareHandler } from 'hono'
import { matchedRoutes } from 'hono/route'
import type { Log } from './log.ts'

/** A request that was answered. */
export interface Answered {
  readonly method: string
  /** Its address without what is particular to it, such as `/v1/projects/{id}`. */
  readonly template: string
  readonly status: number
  readonly ms: number
  /** What an endpoint threw. */
  readonly error: Error | undefined
}

/** Asked by machines every few seconds. */
const FREQUENT = ['/livez', '/readyz']

/** How much an error that was answered matters to the operator. */
export type Weight = 'info' | 'warn' | 'error'

/** Logs every request, and hands it to `onAnswered`. Paths are not logged: they hold tokens, and whatever people type. */
export function loggedRequests(
  log: Log,
  weightOf: (error: Error) => Weight,
  onAnswered: (answered: Answered) => void,
): MiddlewareHandler {
  return async (c, next) => {
    const startedMs = performance.now()
    await next()
    const answered = {
      method: c.req.method,
      template: templateOf(c),
      status: c.res.status,
      ms: Math.round((performance.now() - startedMs) * 10) / 10,
      error: c.error,
    }
    onAnswered(answered)
    logAnswered(log, c.get('requestId'), answered, weightOf)
  }
}

function logAnswered(log: Log, id: string, { error, ...about }: Answered, weightOf: (error: Error) => Weight): void {
  const line = { id, ...about }
  const weight = error && weightOf(error)
  if (error && weight === 'error') log.error({ ...line, err: error }, 'request failed')
  else if (error && weight === 'warn') log.warn({ ...line, reason: error.message }, 'request failed')
  else if (FREQUENT.includes(about.template)) log.debug(line, 'request')
  else log.info(line, 'request')
}

function templateOf(c: Context): string {
  const route = matchedRoutes(c).find(({ path }) => !path.endsWith('*'))
  // Hono writes `:name` and `:name{pattern}`.
  return route === undefined ? 'none' : route.path.replace(/:(\w+)(\{[^/]*\})?/g, '{$1}')
}
