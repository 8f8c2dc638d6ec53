import { z } from '@hono/zod-openapi'
import { PROBLEM } from './answers/problem.ts'
import { answerSchema } from './answers/schema.ts'
import { PROBLEMS, type ProblemKind, type ProblemStatus } from './fault-catalogue.ts'
import { ETAG, RETRY_AFTER } from './parameters.ts'
import { PROBLEM_MEDIA_TYPE } from './problem.ts'

/** A JSON answer, as an endpoint documents it. */
const ProblemSchema = answerSchema(PROBLEM)

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

/** The problems an endpoint may answer with, by status; several of one status are described together. */
export function problems<K extends ProblemKind>(...kinds: K[]): Record<ProblemStatus<K>, ProblemDocument> {
  const documents: Partial<Record<ProblemStatus, ProblemDocument>> = {}
  for (const kind of kinds) {
    const { status, when } = PROBLEMS[kind]
    const before = documents[status]?.description
    documents[status] = {
      description: before === undefined ? when : `${before} Or: ${when}`,
      content: { [PROBLEM_MEDIA_TYPE]: { schema: ProblemSchema } },
      ...(status === 412 ? { headers: ETAG } : status === 503 ? { headers: RETRY_AFTER } : {}),
    }
  }
  return documents as Record<ProblemStatus<K>, ProblemDocument>
}

/** What may be wrong with a body that is read with `readJsonBody` and its schema, and with the request around it. */
export const REFUSALS_OF_A_BODY = [
  'malformed-body',
  'bad-parameter',
  'not-acceptable',
  'body-too-large',
  'unsupported-body',
  'unacceptable-content',
] as const

/** A body that is read with `readJsonBody`: the schema is for the document, the endpoint reads and refuses by itself. */
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
