/**
 * The kinds of problem (RFC 9457) that this service answers with, and the codes of the faults inside a problem. Both are
 * shown at `/docs/problems`, where the `type` of every problem points.
 */

interface ProblemRow {
  readonly status: 400 | 401 | 403 | 404 | 405 | 406 | 409 | 412 | 413 | 415 | 421 | 422 | 428 | 429 | 500 | 503 | 507
  readonly title: string
  readonly when: string
}

export const PROBLEMS = {
  'malformed-body': {
    status: 400,
    title: 'The body is not JSON',
    when: 'The body is empty, not UTF-8 or not valid JSON. The fault says where it stops being JSON.',
  },
  'bad-parameter': {
    status: 400,
    title: 'A parameter is wrong',
    when: 'A query parameter or a header is unknown, missing, repeated or cannot be read.',
  },
  'key-required': {
    status: 401,
    title: 'The access key is needed',
    when: 'The service has an access key, and the request carries neither the key (Authorization: Bearer …) nor the session of a browser that has signed in.',
  },
  'foreign-request': {
    status: 403,
    title: 'The request comes from another site',
    when: 'A browser sent the request for a page of another site. Only calculations can be opened to such pages, by the operator.',
  },
  'not-found': {
    status: 404,
    title: 'Not found',
    when: 'The address is unknown, or the project or revision does not exist or was deleted.',
  },
  'method-not-allowed': {
    status: 405,
    title: 'Method not allowed',
    when: 'The address does not support this method. The Allow header lists the methods it supports.',
  },
  'not-acceptable': {
    status: 406,
    title: 'The answer has no acceptable media type',
    when: 'The Accept header excludes the only media type this address answers in.',
  },
  'already-built': {
    status: 409,
    title: 'This revision was already built',
    when: 'The revision was marked as built before. Each can be built only once, because building takes its stock out of the shed.',
  },
  'in-progress': {
    status: 409,
    title: 'The same request is still being answered',
    when: 'Another request with this Idempotency-Key has not been answered yet. The Retry-After header says when to send it again.',
  },
  'not-empty': {
    status: 409,
    title: 'There are projects already',
    when: 'An import would remove projects, and the request does not allow that.',
  },
  'stale-revision': {
    status: 412,
    title: 'Somebody else saved in the meantime',
    when: 'If-Match names a revision that is not current. The ETag header has the current one.',
  },
  'body-too-large': {
    status: 413,
    title: 'The body is too large',
    when: 'The body is larger than 1 MiB.',
  },
  'unsupported-body': {
    status: 415,
    title: 'The type or encoding of the body is not supported',
    when: 'The Content-Type is not application/json in UTF-8 (or, where a table may be sent, text/csv or XLSX), or the body is compressed.',
  },
  'unknown-host': {
    status: 421,
    title: 'Not an address of this service',
    when: 'The Host header names neither this computer nor a name that the operator has allowed.',
  },
  'unacceptable-content': {
    status: 422,
    title: 'The content cannot be used as it stands',
    when: 'The JSON is valid, but a field is unknown, missing, of the wrong type, out of range or contradicts another.',
  },
  'too-much-work': {
    status: 422,
    title: 'One request may not take this much work',
    when: 'The request is within the limits, but what it asks for takes more than a minute, too much memory, or an answer of more than 32 MiB. The detail says which.',
  },
  'if-match-required': {
    status: 428,
    title: 'If-Match is required',
    when: 'A project is to be replaced or deleted, or the shed to be replaced, without an If-Match header that says which revision is meant.',
  },
  'too-many-wrong-keys': {
    status: 429,
    title: 'Too many wrong keys',
    when: 'Ten wrong access keys came from this address within ten minutes. The Retry-After header says when to try again.',
  },
  'internal-error': {
    status: 500,
    title: 'Internal error',
    when: 'An error in the service itself. The log has details under the request id in `instance`.',
  },
  unavailable: {
    status: 503,
    title: 'The database does not answer',
    when: 'The database is down, starting or overloaded. The Retry-After header says when to try again.',
  },
  'disk-full': {
    status: 507,
    title: 'No space is left',
    when: 'The disk of the embedded database has less than 64 MB free, so nothing can be saved. Reading still works.',
  },
  'too-busy': {
    status: 503,
    title: 'The service is too busy',
    when: 'The service has too many thorough or large plans to work out, and this one could not be begun. The Retry-After header says when to try again.',
  },
} as const satisfies Record<string, ProblemRow>

export type ProblemKind = keyof typeof PROBLEMS
export type ProblemStatus<K extends ProblemKind = ProblemKind> = (typeof PROBLEMS)[K]['status']

interface FaultRow {
  /** The statuses of the problems that may have it. */
  readonly statuses: readonly ProblemRow['status'][]
  readonly title: string
  readonly when: string
}

export const FAULTS = {
  'adjacent-easements': {
    statuses: [400, 422],
    title: 'Two easements side by side',
    when: 'Two easements follow one another, so the curvature between them is unknown.',
  },
  'already-built': {
    statuses: [409],
    title: 'Already built',
    when: 'The current revision of the project was already marked as built.',
  },
  'bad-cursor': {
    statuses: [400],
    title: 'Not a cursor',
    when: 'The cursor is not the `next` of an earlier page.',
  },
  'bad-entity-tag': {
    statuses: [400],
    title: 'Not an entity tag',
    when: 'If-Match is neither `*` nor a list of quoted tags (RFC 9110).',
  },
  'bad-key': {
    statuses: [400],
    title: 'Not a key',
    when: 'The Idempotency-Key is empty, too long, or has characters that may not stand in it.',
  },
  'bad-length': {
    statuses: [400, 422],
    title: 'Not a length',
    when: 'A text cannot be read as a length, or has no unit.',
  },
  'bad-number': {
    statuses: [400, 422],
    title: 'Not a number',
    when: 'A query parameter or a cell of a table that holds a number is not a plain decimal, or could be read as two numbers.',
  },
  'bad-price': {
    statuses: [400, 422],
    title: 'Not a price',
    when: 'A price is not a plain decimal, has more decimal places than its currency (two for most), or is too large.',
  },
  'bad-track': {
    statuses: [400],
    title: 'Not a track in one word',
    when: 'An element of the word is not a straight, an easement or an arc. The fault gives its number and position.',
  },
  'bad-temperature': {
    statuses: [400, 422],
    title: 'Not a temperature',
    when: 'A text cannot be read as a temperature, or has no unit.',
  },
  'bad-text': {
    statuses: [422],
    title: 'A text that cannot be stored',
    when: 'A text has a NUL character or half of a surrogate pair, or a file cannot be read as a table.',
  },
  'cannot-fit': {
    statuses: [422],
    title: 'What is left open does not follow from the rest',
    when: 'Lengths, angles or a path are left to be fitted, but where the track must end is not given, gives fewer conditions than there are unknowns, or depends on what is left open; or nothing is left open where something must be.',
  },
  contradictory: {
    statuses: [400, 422],
    title: 'Two fields contradict each other',
    when: 'Two fields exclude each other, or their values cannot both be true.',
  },
  'duplicate-length': {
    statuses: [400, 422],
    title: 'A stick length is listed twice',
    when: 'Two entries of `supplies.sticks` have the same length.',
  },
  'duplicate-name': {
    statuses: [422],
    title: 'A track name is used twice',
    when: 'Each track of a plan needs a name of its own.',
  },
  'easement-without-change': {
    statuses: [400, 422],
    title: 'An easement between equal curvatures',
    when: 'Both neighbours have the same curvature, so there is nothing to ease.',
  },
  'impossible-test-bend': {
    statuses: [422],
    title: 'An impossible test bend',
    when: 'A test bend did not spring back, or a deeper pass left a larger radius.',
  },
  'in-progress': {
    statuses: [409],
    title: 'Still being answered',
    when: 'A request with this Idempotency-Key is being answered at the moment.',
  },
  'key-reused': {
    statuses: [422],
    title: 'The key was used before',
    when: 'The Idempotency-Key was used for a request with another body.',
  },
  'malformed-json': {
    statuses: [400],
    title: 'Broken JSON',
    when: 'The body is not valid JSON, is empty, or is not UTF-8.',
  },
  missing: {
    statuses: [400, 422],
    title: 'Something required is missing',
    when: 'A required field or parameter was left out.',
  },
  'no-fit': {
    statuses: [422],
    title: 'Nothing fits',
    when: 'No lengths and angles bring the end of a track to where it must be, or no path leads there. The hint says the nearest that would do.',
  },
  'no-rail': {
    statuses: [400, 422],
    title: 'No rail to build from',
    when: 'No stick can be bought and none is on hand.',
  },
  'not-acceptable': {
    statuses: [406],
    title: 'The Accept header excludes the answer',
    when: 'The Accept header excludes the only media type this address answers in.',
  },
  'out-of-order': {
    statuses: [422],
    title: 'Stations out of order',
    when: 'The points of a grade line, or the breaks of a track, are not in order along the track, or a stretch ends before it begins.',
  },
  'out-of-range': {
    statuses: [400, 422],
    title: 'Out of range',
    when: 'A number or length is below the smallest or above the largest value allowed.',
  },
  'repeated-parameter': {
    statuses: [400],
    title: 'A parameter is given twice',
    when: 'Only `chord` may be repeated.',
  },
  'stale-revision': {
    statuses: [412],
    title: 'Not the current revision',
    when: 'The project or the shed was changed in the meantime. Read it again before you write.',
  },
  'too-little-rail': {
    statuses: [400, 422],
    title: 'The sticks on hand are not enough',
    when: 'No stick can be bought, and the sticks on hand are not enough for the rails.',
  },
  'too-few': {
    statuses: [422],
    title: 'Too few entries',
    when: 'A list that must not be empty is empty.',
  },
  'too-long': {
    statuses: [400, 422],
    title: 'A text is too long',
    when: 'A text is longer than its documented limit.',
  },
  'too-many': {
    statuses: [400, 422],
    title: 'Too many entries',
    when: 'A list has more entries than its documented limit. Its entries are then not checked.',
  },
  'unknown-field': {
    statuses: [422],
    title: 'Unknown field',
    when: 'There is no such field. The hint names the nearest one.',
  },
  'unknown-parameter': {
    statuses: [400],
    title: 'Unknown query parameter',
    when: 'This address has no such parameter. The hint names the nearest one.',
  },
  'unknown-temper': {
    statuses: [400, 422],
    title: 'Unknown temper',
    when: 'The material has no such temper in the catalogue.',
  },
  'unknown-value': {
    statuses: [400, 422],
    title: 'Not one of the values allowed',
    when: 'A field allows only certain words, and this is not one of them. The hint names the nearest.',
  },
  'unsupported-body': {
    statuses: [415],
    title: 'Content-Type or Content-Encoding is wrong',
    when: 'The hint names the header and its correct value.',
  },
  'wrong-type': {
    statuses: [400, 422],
    title: 'Wrong type',
    when: 'A value has the wrong type, such as a text instead of a number or a list instead of an object.',
  },
  'if-match-required': {
    statuses: [428],
    title: 'If-Match is missing',
    when: 'A project is to be replaced or deleted, or the shed to be replaced, without an If-Match header that says which revision is meant.',
  },
} as const satisfies Record<string, FaultRow>

export type FaultCode = keyof typeof FAULTS
