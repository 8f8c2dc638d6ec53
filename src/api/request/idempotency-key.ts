import { createHash } from 'node:crypto'
import type { Context } from 'hono'
import type { CreatedOnce } from '../../projects/store.ts'
import type { Refusal } from '../problem.ts'
import { MISSING_PROJECT } from './precondition.ts'

/*
 * Idempotency-Key (draft-ietf-httpapi-idempotency-key-header): a client that got no answer sends the same request again
 * with the same key, and nothing is done twice.
 */

const LONGEST_KEY = 255
const RETRY_AFTER_S = 1
const PARAMETER = 'Idempotency-Key'

/** A string of a structured field (RFC 9651), without parameters. */
const QUOTED = /^"((?:[\x20\x21\x23-\x5b\x5d-\x7e]|\\["\\])+)"$/
/** Many clients leave the quotes out. */
const BARE = /^[\w.:~+/=-]+$/

/** The key of a request; null if it has none. */
export function readIdempotencyKey(
  c: Context,
):
  | { readonly ok: true; readonly value: string | null }
  | { readonly ok: false; readonly refusal: Refusal<'bad-parameter'> } {
  const header = c.req.header(PARAMETER)
  if (header === undefined) return { ok: true, value: null }
  const value = QUOTED.exec(header)?.[1]?.replaceAll(/\\(.)/g, '$1') ?? BARE.exec(header)?.[0]
  if (value !== undefined && value.length <= LONGEST_KEY) return { ok: true, value }
  const fault = {
    parameter: PARAMETER,
    code: 'bad-key' as const,
    detail: `it is no text in double quotes, of 1 to ${LONGEST_KEY} characters of ASCII`,
    hint: 'use a random UUID, such as Idempotency-Key: "8e03978e-40d5-43dd-bc93-6894a57f9324"',
  }
  return { ok: false, refusal: { kind: 'bad-parameter', detail: `Check ${PARAMETER}.`, faults: [fault] } }
}

/** The same for the same JSON, whatever white space it was sent with. */
export function hashOf(body: unknown): string {
  return createHash('sha256').update(JSON.stringify(body)).digest('base64url')
}

/** Why a request with a key is not answered with a project. */
export function notCreatedAgain(
  c: Context,
  outcome: Exclude<CreatedOnce['outcome'], 'done'>,
): Refusal<'in-progress' | 'unacceptable-content' | 'not-found'> {
  switch (outcome) {
    case 'in-progress':
      c.header('Retry-After', String(RETRY_AFTER_S))
      return {
        kind: 'in-progress',
        detail: `A request with this key is being answered. Send it again in ${RETRY_AFTER_S} s.`,
        faults: [{ parameter: PARAMETER, code: 'in-progress', detail: 'a request with this key is not answered yet' }],
      }
    case 'other-body':
      return {
        kind: 'unacceptable-content',
        detail: 'This key was used for a request with another body.',
        faults: [
          {
            parameter: PARAMETER,
            code: 'key-reused',
            detail: 'another body was sent with this key before',
            hint: 'use a new key for each project, and send a request again only as it was',
          },
        ],
      }
    case 'missing':
      return MISSING_PROJECT
  }
}
