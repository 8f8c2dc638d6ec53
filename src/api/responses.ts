import { z } from '@hono/zod-openapi'
import { PROBLEM } from './answers/problem.ts'
import { answerSchema } from './answers/schema.ts'
import { PROBLEMS, type ProblemKind, type ProblemStatus } from './fault-catalogue.ts'
import { ETAG, RETRY_AFTER } from './parameters.ts'
import { PROBLEM_MEDIA_TYPE } from './problem.ts'

const ProblemSchema = answerSchema(PROBLEM)

/** A JSON answer, as an endpoint documents it. */
export function json<Schema extends z.ZodType>(schema: Schema, description: string, example?: z.input<Schema>) {
  return {
    description,
    content: { 'application/json': { schema, ...(example === undefined ? {} : { example }) } },
  }
}

export const CSV = 'text/csv'

/** A table, as an endpoint documents it. */
export function csv(description: string) {
  return { description, content: { [CSV]: { schema: z.string() } } }
}

interface ProblemDocument {
  description: string
  headers?: typeof ETAG | typeof RETRY_AFTER
  content: { [PROBLEM_MEDIA_TYPE]: { schema: typeof ProblemSchema } }
}

/** The problems an endpoint may answer with, by status; those of the same status are described together. */
export function problems<K extends ProblemKind>(...kinds: K[]): Record<ProblemStatus<K>, ProblemDocument> {
  const documents: Partial<Record<ProblemStatus, ProblemDocument>> = {}
  for (const kind of kinds) {
    const { status, when } = PROBLEMS[kind]
    const before = documents[status]?.description
    documents[status] = {
      description: before === undefined ? when : `${before} Or: ${when}`,
      content: { [PROBLEM_MEDIA_TYPE]: { schema: ProblemSchema } },
      ...(status === 412
        ? { headers: ETAG }
        : status === 503 || kind === 'in-progress'
          ? { headers: RETRY_AFTER }
          : {}),
    }
  }
  return documents as Record<ProblemStatus<K>, ProblemDocument>
}

/** The problems of a request whose body is read with `readJsonBody` and a schema. */
export const REFUSALS_OF_A_BODY = [
  'malformed-body',
  'bad-parameter',
  'not-acceptable',
  'body-too-large',
  'unsupported-body',
  'unacceptable-content',
] as const

/** The problems of a request for what has to be worked out of a saved project. */
export const REFUSALS_OF_A_PROJECT = [
  'bad-parameter',
  'not-found',
  'not-acceptable',
  'unacceptable-content',
  'unavailable',
  'too-busy',
  'too-much-work',
] as const

/** A body that is read with `readJsonBody`: this schema is for the document only, the endpoint validates the body itself. */
export function jsonBody(component: string, description: string, examples?: Record<string, Example>) {
  return {
    required: true,
    description,
    content: {
      'application/json': { schema: { $ref: `#/components/schemas/${component}` }, ...(examples ? { examples } : {}) },
    },
  }
}

export interface Example {
  readonly summary: string
  readonly value: unknown
}
