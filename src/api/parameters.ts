import { KEY_KEPT_HOURS } from '../projects/create-once.ts'

/*
 * Path parameters and headers for the OpenAPI document. Endpoints read them themselves: an id that is not one of a
 * project is answered as not found.
 */

export const PROJECT_ID = {
  name: 'id',
  in: 'path' as const,
  required: true,
  description: 'The id of the project.',
  schema: { type: 'string' as const, format: 'uuid' },
}

export const LINK_ID = {
  name: 'link',
  in: 'path' as const,
  required: true,
  description: 'The id of the link.',
  schema: { type: 'string' as const, format: 'uuid' },
}

export const LINK_TOKEN = {
  name: 'token',
  in: 'path' as const,
  required: true,
  description: 'The token of a link.',
  schema: { type: 'string' as const, pattern: '^[A-Za-z0-9_-]{43}$' },
}

export const REVISION_NUMBER = {
  name: 'revision',
  in: 'path' as const,
  required: true,
  description: 'The number of the revision, from 1.',
  schema: { type: 'integer' as const, minimum: 1 },
}

export const IF_MATCH = {
  name: 'If-Match',
  in: 'header' as const,
  required: true,
  description: 'The ETag of the revision you have read, a list of ETags, or * for any revision.',
  schema: { type: 'string' as const },
  example: '"3"',
}

export const IF_NONE_MATCH = {
  name: 'If-None-Match',
  in: 'header' as const,
  required: false,
  description: 'An ETag you received earlier. If it is still current, the answer is 304 without a body.',
  schema: { type: 'string' as const },
}

export const IDEMPOTENCY_KEY = {
  name: 'Idempotency-Key',
  in: 'header' as const,
  required: false,
  description: `A text of your own, best a random UUID, in double quotes. A request that is sent again with the same key and the same body gets the same answer and creates nothing. The key of a request that was refused can be used again. Keys are kept for ${KEY_KEPT_HOURS} hours.`,
  schema: { type: 'string' as const },
  example: '"8e03978e-40d5-43dd-bc93-6894a57f9324"',
}

/** Headers of an answer. */
export const ETAG_OF_CONTENT = {
  ETag: { description: 'The entity tag of this content.', schema: { type: 'string' as const } },
}
export const ETAG = {
  ETag: { description: 'The number of the revision, in double quotes.', schema: { type: 'string' as const } },
}
export const LOCATION = {
  Location: {
    description: 'The address of the project.',
    schema: { type: 'string' as const, format: 'uri-reference' },
  },
}
export const RETRY_AFTER = {
  'Retry-After': { description: 'Seconds to wait before trying again.', schema: { type: 'integer' as const } },
}
