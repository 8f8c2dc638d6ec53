import { createHash } from 'node:crypto'
import type { Context } from 'hono'
import { namesTag } from './request/entity-tag.ts'

/** The strong entity tag of a content, or of what it follows from. */
export function tagOf(content: string | Uint8Array): string {
  return `"${createHash('sha256').update(content).digest('base64url').slice(0, 27)}"`
}

/**
 * Answers with what is the same for every client, unless the client already has it. The return type fits every endpoint.
 *
 * @param named a Content-Disposition, for a file
 */
export function sendTagged(
  c: Context,
  body: string | Uint8Array<ArrayBuffer>,
  contentType = 'application/json',
  named?: string,
): never {
  const tag = tagOf(body)
  c.header('ETag', tag)
  if (named !== undefined) c.header('Content-Disposition', named)
  if (namesTag(c.req.header('if-none-match'), tag)) return c.body(null, 304) as never
  return c.body(body, 200, { 'Content-Type': contentType }) as never
}
