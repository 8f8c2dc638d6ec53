import type { Context } from 'hono'
import type { Expected } from '../../projects/store.ts'
import type { ParameterFault, Refusal } from '../problem.ts'
import { entityTagOf, readIfMatch } from './entity-tag.ts'

export type Precondition<K extends 'if-match-required' | 'bad-parameter' = 'if-match-required' | 'bad-parameter'> =
  | { readonly ok: true; readonly expected: Expected }
  | { readonly ok: false; readonly refusal: Refusal<K> }

/** Which revisions the client is ready to replace, from its If-Match header, which has to be there. */
export function readPrecondition(c: Context, act = 'replace or delete a project'): Precondition {
  if (c.req.header('if-match') !== undefined) return readOptionalPrecondition(c)
  const detail = `This would ${act}; say which revision you mean.`
  const faults = [fault('if-match-required', 'the header is missing')]
  return { ok: false, refusal: { kind: 'if-match-required', detail, faults } }
}

/** The same where it may be left out: then any revision will do. */
export function readOptionalPrecondition(c: Context): Precondition<'bad-parameter'> {
  const header = c.req.header('if-match')
  const expected = header === undefined ? 'any' : readIfMatch(header)
  if (expected !== null) return { ok: true, expected }
  const faults = [fault('bad-entity-tag', 'it is neither * nor a list of quoted tags')]
  return { ok: false, refusal: { kind: 'bad-parameter', detail: 'Look at If-Match.', faults } }
}

function fault(code: 'if-match-required' | 'bad-entity-tag', detail: string): ParameterFault {
  const hint = 'send the ETag of the revision you read, such as If-Match: "3"'
  return { parameter: 'If-Match', code, detail, hint }
}

/** Somebody wrote in between. The present tag goes out with the answer. */
export function staleRevision(
  c: Context,
  revision: number,
  of: 'project' | 'shed' = 'project',
): Refusal<'stale-revision'> {
  c.header('ETag', entityTagOf(revision))
  return {
    kind: 'stale-revision',
    detail: `The ${of} is at revision ${revision} now.`,
    faults: [
      {
        parameter: 'If-Match',
        code: 'stale-revision',
        detail: `it does not name ${entityTagOf(revision)}, the present revision`,
        hint: `read the ${of} again, bring your changes in, and save with its ETag`,
      },
    ],
  }
}

export const MISSING_PROJECT: Refusal<'not-found'> = {
  kind: 'not-found',
  detail: 'There is no such project, or no longer.',
}

export const MISSING_REVISION: Refusal<'not-found'> = {
  kind: 'not-found',
  detail: 'There is no such project, or it has no such revision.',
}
