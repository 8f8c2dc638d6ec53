import type { MiddlewareHandler } from 'hono'

const REQUEST_ID = /^[\w-]{1,64}$/

/** Headers that keep a browser from misusing an answer. Endpoints may set another `Cache-Control`. */
const EVERY_ANSWER = {
  'X-Content-Type-Options': 'nosniff',
  'Content-Security-Policy': "default-src 'none'; frame-ancestors 'none'",
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Cache-Control': 'no-cache',
} as const

/** The client's own id for the request if it sent a plain one, so that its log and ours can be matched. */
export function requestIdOf(given: string | undefined): string {
  return given !== undefined && REQUEST_ID.test(given) ? given : crypto.randomUUID()
}

/**
 * Sets the headers of every answer: the request id and those above. Pages that need scripts or styles set a wider
 * Content-Security-Policy.
 */
export const everyAnswer: MiddlewareHandler = async (c, next) => {
  const id = requestIdOf(c.req.header('x-request-id'))
  c.set('requestId', id)
  c.header('X-Request-Id', id)
  for (const [name, value] of Object.entries(EVERY_ANSWER)) c.header(name, value)
  await next()
}

/** A response with the headers of every answer, made without the middleware. */
export function wholeResponse(
  id: string,
  body: string | null,
  status: number,
  headers: Readonly<Record<string, string>>,
): Response {
  return new Response(body, { status, headers: { 'X-Request-Id': id, ...EVERY_ANSWER, ...headers } })
}
