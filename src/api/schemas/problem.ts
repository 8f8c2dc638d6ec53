import { z } from '@hono/zod-openapi'
import { FAULTS, type FaultCode } from '../fault-catalogue.ts'

const fault = {
  code: z.enum(Object.keys(FAULTS) as [FaultCode, ...FaultCode[]]),
  detail: z.string().openapi({ description: 'What was found, and what was expected.' }),
  hint: z.string().optional().openapi({ description: 'What to do about it.' }),
}

const FaultInBody = z
  .object({
    pointer: z.string().openapi({
      format: 'json-pointer',
      description: 'The place in the body (RFC 6901); "" is all of it. In a table: row and column from 0.',
    }),
    ...fault,
    row: z.int().min(1).optional().openapi({ description: 'In a table that was sent: the row, from 1.' }),
    column: z
      .string()
      .nullable()
      .optional()
      .openapi({ description: 'In a table that was sent: the column, A, B, …; null for the whole row.' }),
  })
  .openapi('FaultInBody')

const FaultInParameter = z
  .object({ parameter: z.string().openapi({ description: 'The name of a query parameter or a header.' }), ...fault })
  .openapi('FaultInParameter')

/** RFC 9457, with every fault of the request. */
export const ProblemSchema = z
  .object({
    type: z.string().openapi({ format: 'uri-reference', description: 'A page about this kind of problem.' }),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string().openapi({ description: 'The id of the request, also in X-Request-Id and in the log.' }),
    errors: z.array(z.union([FaultInBody, FaultInParameter])),
  })
  .openapi('Problem', { description: 'What went wrong (RFC 9457), with every fault of the request.' })

export type Problem = z.output<typeof ProblemSchema>
