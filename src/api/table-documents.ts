import { z } from '@hono/zod-openapi'
import { TABLE_FILES } from '../paper/linked-tables.ts'
import { ETAG_OF_CONTENT } from './parameters.ts'
import { XLSX } from './tables-answer.ts'

/** Descriptions of the endpoints for tables. */
export const TABLES =
  'Every row is complete in itself. Columns are named as in the JSON answer, with the unit at the end: lengthMm, lengthIn with units=in, lengthFtIn with a fraction. In CSV (RFC 4180) numbers are plain, without exponent, and a text that a spreadsheet would run as a formula gets an apostrophe in front. In JSON each row is a flat object, and money is a number.'
export const WORKBOOK = 'One sheet for each table, with numbers as numbers and a frozen header row.'

const LINK_TO_THE_NEXT = {
  Link: {
    description: 'The address of the next rows (rel="next"), where `rows` left some out.',
    schema: { type: 'string' as const },
  },
}

const Cell = z.union([z.string(), z.number(), z.null()])

/** A table, as endpoints document it. */
export const TABLE_ANSWERS = {
  200: {
    description: 'The table.',
    headers: { ...ETAG_OF_CONTENT, ...LINK_TO_THE_NEXT },
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

export const TABLE_FILE = {
  name: 'file',
  in: 'path' as const,
  required: true,
  description: 'The name of the table, with its format as extension.',
  schema: { type: 'string' as const, enum: [...TABLE_FILES] },
}
