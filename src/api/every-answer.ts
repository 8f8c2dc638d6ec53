import type { MiddlewareHandler } from 'hono'

const REQUEST_ID = /^[\w-]{1,64}$/

/**
 * What stands on every answer: the request's id (the client's own, if it sent a plain one, so that its log and ours can
 * be matched) and headers that keep a browser from doing more with an answer than it should. Pages that need scripts or
 * styles set a wider Content-Security-Policy of their own.
 */
export const everyAnswer: MiddlewareHandler = async (c, next) => {
  const given = c.req.header('x-request-id')
  const id = given !== undefined && REQUEST_ID.test(given) ? given : crypto.randomUUID()
  c.set('requestId', id)
  c.header('X-Request-Id', id)
  c.header('X-Content-Type-Options', 'nosniff')
  c.header('Content-Security-Policy', "default-src 'none'; frame-ancestors 'none'")
  c.header('Referrer-Policy', 'no-referrer')
  c.header('Cross-Origin-Resource-Policy', 'same-origin')
  c.header('Cache-Control', 'no-cache')
  await next()
}
