import type { Context } from 'hono'
import { readCsv } from '../../paper/rows-in/read-csv.ts'
import { readWorkbook } from '../../paper/rows-in/read-workbook.ts'
import type { Sheet, SheetFault } from '../../paper/rows-in/sheet.ts'
import { badParameters, type ParameterFault, type Refusal } from '../problem.ts'
import { ODS, XLSX } from '../tables-answer.ts'
import { readBody } from './json-body.ts'

export type TableBody =
  | { readonly ok: true; readonly sheet: Sheet }
  | {
      readonly ok: false
      readonly refusal: Refusal<'body-too-large' | 'unsupported-body' | 'unacceptable-content' | 'bad-parameter'>
    }

/** Whether a Content-Type is that of a table. */
export function isTable(contentType: string | undefined): boolean {
  return mediaTypeOf(contentType) !== null
}

/** Reads a request's body as a table: CSV, or a sheet of a workbook. */
export async function readTableBody(c: Context): Promise<TableBody> {
  const body = await readBody(c)
  if (!body.ok) return body
  const contentType = c.req.header('content-type')
  const encoding = charsetOf(contentType)
  if (encoding !== null && !isKnown(encoding)) return { ok: false, refusal: unknownCharset(encoding) }
  const isWorkbook = mediaTypeOf(contentType) !== 'text/csv'
  const read = isWorkbook ? await readWorkbook(body.bytes) : readCsv(body.bytes, encoding)
  return read.ok ? read : { ok: false, refusal: unacceptableTable(read.faults) }
}

/** The refusal of a table with faults; if only the query parameters have faults, it is about those. */
export function unacceptableTable(
  faults: readonly (SheetFault | ParameterFault)[],
): Refusal<'unacceptable-content' | 'bad-parameter'> {
  const ofParameters = faults.filter((fault) => 'parameter' in fault)
  if (ofParameters.length === faults.length) return badParameters(ofParameters)
  const count = faults.length === 1 ? '1 fault has' : `${faults.length} faults have`
  return { kind: 'unacceptable-content', detail: `${count} to be corrected in the table first.`, faults }
}

/** The charset in a Content-Type; null if it has none. */
function charsetOf(contentType = ''): string | null {
  const parameters = contentType.split(';').slice(1)
  const charset = parameters.map((each) => each.trim().toLowerCase()).find((each) => each.startsWith('charset='))
  return charset?.slice('charset='.length).replaceAll('"', '') ?? null
}

function isKnown(encoding: string): boolean {
  try {
    new TextDecoder(encoding)
    return true
  } catch {
    return false
  }
}

function unknownCharset(encoding: string): Refusal<'unsupported-body'> {
  const fault: ParameterFault = {
    parameter: 'Content-Type',
    code: 'unsupported-body',
    detail: `the charset ${encoding.slice(0, 40)} is unknown`,
    hint: 'save the table in UTF-8 and send Content-Type: text/csv; charset=utf-8',
  }
  return { kind: 'unsupported-body', detail: 'The header Content-Type is wrong.', faults: [fault] }
}

function mediaTypeOf(contentType: string | undefined): (typeof TABLE_TYPES)[number] | null {
  const type = (contentType ?? '').split(';', 1)[0]!.trim().toLowerCase()
  return TABLE_TYPES.find((each) => each === type) ?? null
}

const TABLE_TYPES = ['text/csv', XLSX, ODS] as const
