import type { MiddlewareHandler } from 'hono'
import { parseAccept } from 'hono/utils/accept'
import { problem, type Refusal } from '../problem.ts'

/**
 * Whether an Accept header allows a media type (RFC 9110, section 12.5.1): the most specific range that matches counts,
 * and a weight of 0 excludes. No header, or an empty one, allows everything. Media type parameters are not looked at.
 */
export function allows(accept: string | undefined, mediaType: string): boolean {
  if (accept === undefined || accept === '*/*' || accept.trim() === '') return true
  const [main] = mediaType.split('/')
  const rank: Readonly<Record<string, number>> = { '*/*': 1, [`${main}/*`]: 2, [mediaType]: 3 }
  let best = { rank: 0, q: 0 }
  for (const { type, q } of parseAccept(accept)) {
    const range = { rank: rank[type.toLowerCase()] ?? 0, q }
    if (range.rank > best.rank) best = range
  }
  return best.q > 0
}

/** The refusal of an Accept header that excludes the only media type of an answer. */
export function notAcceptable(mediaType: string): Refusal<'not-acceptable'> {
  const hint = `send Accept: ${mediaType}, or leave the header out`
  return {
    kind: 'not-acceptable',
    detail: `This address answers in ${mediaType} only.`,
    faults: [{ parameter: 'Accept', code: 'not-acceptable', detail: `it excludes ${mediaType}`, hint }],
  }
}

/** Refuses requests whose Accept header excludes the only media type of the endpoint. */
export function answersIn(mediaType: string): MiddlewareHandler {
  return async (c, next) => {
    if (allows(c.req.header('accept'), mediaType)) return next()
    return problem(c, notAcceptable(mediaType))
  }
}
