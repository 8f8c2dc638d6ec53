import { z } from '@hono/zod-openapi'
import { TABLE_FILES } from '../paper/linked-tables.ts'
import { ETAG_OF_CONTENT } from './parameters.ts'
import { XLSX } from './tables-answer.ts'

/** What endpoints say of tables. */
export const TABLES =
  'Each row stands alone. Columns are named as in the JSON answer, the unit at the end: lengthMm, with units=in lengthIn, with a fraction lengthFtIn. As CSV (RFC 4180) numbers are plain, without exponent, and a text that a spreadsheet would run as a formula begins with an apostrophe. As JSON each row is a flat object, money a number too.'
export const WORKBOOK = 'A sheet for each table, numbers as numbers, the header frozen.'

const Cell = z.union([z.string(), z.number(), z.null()])

/** A table, as endpoints document it. */
export const TABLE_ANSWERS = {
  200: {
    description: 'The table.',
    headers: ETAG_OF_CONTENT,
    content: {
      'text/csv': { schema: z.string() },
      'application/json': { schema: z.array(z.record(z.string(), Cell)) },
    },
  },
} as const

export const WORKBOOK_ANSWERS = {
  200: {
    description: 'The workbook.',
    headers: ETAG_OF_CONTENT,
    content: { [XLSX]: { schema: z.string().openapi({ format: 'binary' }) } },
  },
} as const

export const UNCHANGED = { 304: { description: 'Nothing has changed since that ETag.' } } as const

export const TABLE_FILE = {
  name: 'file',
  in: 'path' as const,
  required: true,
  description: 'The name of a table, and how it is written.',
  schema: { type: 'string' as const, enum: [...TABLE_FILES] },
}
