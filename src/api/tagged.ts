import { createHash } from 'node:crypto'
import type { Context } from 'hono'
import { namesTag } from './request/entity-tag.ts'

/** The strong entity tag of a content, or of what it follows from. */
export function tagOf(content: string | Uint8Array): string {
  return `"${createHash('sha256').update(content).digest('base64url').slice(0, 27)}"`
}

/**
 * Answers with JSON or text that is the same for every client, unless the client already has it. The return type fits
 * every endpoint.
 */
export function sendTagged(c: Context, body: string, contentType = 'application/json'): never {
  const tag = tagOf(body)
  c.header('ETag', tag)
  if (namesTag(c.req.header('if-none-match'), tag)) return c.body(null, 304) as never
  return c.body(body, 200, { 'Content-Type': contentType }) as never
}
