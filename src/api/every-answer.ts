import type { Context, MiddlewareHandler } from 'hono'

const REQUEST_ID = /^[\w-]{1,64}$/

/** Headers that keep a browser from doing more with an answer than it should; `Cache-Control` unless something else is said. */
const EVERY_ANSWER = {
  'X-Content-Type-Options': 'nosniff',
  'Content-Security-Policy': "default-src 'none'; frame-ancestors 'none'",
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Cache-Control': 'no-cache',
} as const

/** Answers that bring all their headers along (`wholeAnswer`): setting them one by one takes longer than a cell's work. */
const BRING_THEIR_OWN = '/v1/cell/'

/**
 * What stands on every answer: the request's id (the client's own, if it sent a plain one, so that its log and ours can
 * be matched) and the headers above. Pages that need scripts or styles set a wider Content-Security-Policy of their own.
 */
export const everyAnswer: MiddlewareHandler = async (c, next) => {
  const given = c.req.header('x-request-id')
  const id = given !== undefined && REQUEST_ID.test(given) ? given : crypto.randomUUID()
  c.set('requestId', id)
  if (!c.req.path.startsWith(BRING_THEIR_OWN)) {
    setHeaders(c, id)
    return next()
  }
  await next()
  if (c.get('whole') === true) return
  const own = new Headers(c.res.headers)
  setHeaders(c, id)
  for (const [name, value] of own) c.header(name, value)
}

function setHeaders(c: Context, id: string): void {
  c.header('X-Request-Id', id)
  for (const [name, value] of Object.entries(EVERY_ANSWER)) c.header(name, value)
}

/** An answer with all its headers, at an address whose answers bring their own. */
export function wholeAnswer(
  c: Context,
  body: string | null,
  status: number,
  headers: Readonly<Record<string, string>>,
): Response {
  c.set('whole', true)
  return new Response(body, { status, headers: { 'X-Request-Id': c.get('requestId'), ...EVERY_ANSWER, ...headers } })
}
