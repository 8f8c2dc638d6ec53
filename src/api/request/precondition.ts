import type { Context } from 'hono'
import type { Expected } from '../../projects/store.ts'
import type { ParameterFault, Refusal } from '../problem.ts'
import { entityTagOf, readIfMatch } from './entity-tag.ts'

export type Precondition<K extends 'if-match-required' | 'bad-parameter' = 'if-match-required' | 'bad-parameter'> =
  | { readonly ok: true; readonly expected: Expected }
  | { readonly ok: false; readonly refusal: Refusal<K> }

/** The revisions that the client allows to be replaced, from its If-Match header, which is required. */
export function readPrecondition(c: Context, action = 'replace or delete a project'): Precondition {
  if (c.req.header('if-match') !== undefined) return readOptionalPrecondition(c)
  const detail = `If-Match is required to ${action}, to say which revision you mean.`
  const faults = [fault('if-match-required', 'the header is missing')]
  return { ok: false, refusal: { kind: 'if-match-required', detail, faults } }
}

/** The same for an optional If-Match header; without it any revision is allowed. */
export function readOptionalPrecondition(c: Context): Precondition<'bad-parameter'> {
  const header = c.req.header('if-match')
  const expected = header === undefined ? 'any' : readIfMatch(header)
  if (expected !== null) return { ok: true, expected }
  const faults = [fault('bad-entity-tag', 'it is neither * nor a list of quoted tags')]
  return { ok: false, refusal: { kind: 'bad-parameter', detail: 'Check If-Match.', faults } }
}

function fault(code: 'if-match-required' | 'bad-entity-tag', detail: string): ParameterFault {
  const hint = 'send the ETag of the revision you read, such as If-Match: "3"'
  return { parameter: 'If-Match', code, detail, hint }
}

/** Somebody else saved in the meantime. The current tag is sent with the answer. */
export function staleRevision(
  c: Context,
  revision: number,
  of: 'project' | 'shed' = 'project',
): Refusal<'stale-revision'> {
  c.header('ETag', entityTagOf(revision))
  return {
    kind: 'stale-revision',
    detail: `The ${of} is now at revision ${revision}.`,
    faults: [
      {
        parameter: 'If-Match',
        code: 'stale-revision',
        detail: `it does not name ${entityTagOf(revision)}, the current revision`,
        hint: `read the ${of} again, make your changes in it, and save with its ETag`,
      },
    ],
  }
}

export const MISSING_PROJECT: Refusal<'not-found'> = {
  kind: 'not-found',
  detail: 'There is no such project, or it was deleted.',
}

export const MISSING_REVISION: Refusal<'not-found'> = {
  kind: 'not-found',
  detail: 'There is no such project, or it has no such revision.',
}
