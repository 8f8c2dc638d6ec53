import type { Context } from 'hono'
import type { Expected } from '../../projects/store.ts'
import type { Refusal } from '../problem.ts'
import { entityTagOf, readIfMatch } from './entity-tag.ts'

export type Precondition =
  | { readonly ok: true; readonly expected: Expected }
  | { readonly ok: false; readonly refusal: Refusal<'if-match-required' | 'bad-parameter'> }

const WHAT_TO_SEND = 'send the ETag of the revision you read, such as If-Match: "3"'

/** Which revisions the client is ready to replace, from its If-Match header. */
export function readPrecondition(c: Context): Precondition {
  const header = c.req.header('if-match')
  const fault = (code: 'if-match-required' | 'bad-entity-tag', detail: string) => [
    { parameter: 'If-Match', code, detail, hint: WHAT_TO_SEND },
  ]
  if (header === undefined) {
    const detail = 'This would replace or delete a project; say which revision you mean.'
    return refuse({ kind: 'if-match-required', detail, faults: fault('if-match-required', 'the header is missing') })
  }
  const expected = readIfMatch(header)
  if (expected !== null) return { ok: true, expected }
  const faults = fault('bad-entity-tag', 'it is neither * nor a list of quoted tags')
  return refuse({ kind: 'bad-parameter', detail: 'Look at If-Match.', faults })
}

function refuse(refusal: Refusal<'if-match-required' | 'bad-parameter'>): Precondition {
  return { ok: false, refusal }
}

/** Somebody wrote in between. The present tag goes out with the answer. */
export function staleRevision(c: Context, revision: number): Refusal<'stale-revision'> {
  c.header('ETag', entityTagOf(revision))
  return {
    kind: 'stale-revision',
    detail: `The project is at revision ${revision} now.`,
    faults: [
      {
        parameter: 'If-Match',
        code: 'stale-revision',
        detail: `it does not name ${entityTagOf(revision)}, the present revision`,
        hint: 'read the project again, bring your changes in, and save with its ETag',
      },
    ],
  }
}

export const MISSING_PROJECT: Refusal<'not-found'> = {
  kind: 'not-found',
  detail: 'There is no such project, or no longer.',
}
