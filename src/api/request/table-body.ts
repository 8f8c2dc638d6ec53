import type { Context } from 'hono'
import { readCsv } from '../../paper/rows-in/read-csv.ts'
import { readWorkbook } from '../../paper/rows-in/read-xlsx.ts'
import type { Sheet, SheetFault } from '../../paper/rows-in/sheet.ts'
import { badParameters, type ParameterFault, type Refusal } from '../problem.ts'
import { XLSX } from '../tables-answer.ts'
import { readBody } from './json-body.ts'

export type TableBody =
  | { readonly ok: true; readonly sheet: Sheet }
  | {
      readonly ok: false
      readonly refusal: Refusal<'body-too-large' | 'unsupported-body' | 'unacceptable-content' | 'bad-parameter'>
    }

/** Whether a request's body says that it is a table. */
export function isTable(contentType: string | undefined): boolean {
  return mediaTypeOf(contentType) !== null
}

/** Reads a request's body as a table: CSV, or the first sheet of a workbook. */
export async function readTableBody(c: Context): Promise<TableBody> {
  const body = await readBody(c)
  if (!body.ok) return body
  const mediaType = mediaTypeOf(c.req.header('content-type'))
  const read = mediaType === XLSX ? await readWorkbook(body.bytes) : readCsv(body.bytes)
  return read.ok ? read : { ok: false, refusal: unacceptableTable(read.faults) }
}

/** What is wrong with a table; where it is only the parameters beside it, they are what is refused. */
export function unacceptableTable(
  faults: readonly (SheetFault | ParameterFault)[],
): Refusal<'unacceptable-content' | 'bad-parameter'> {
  const ofParameters = faults.filter((fault) => 'parameter' in fault)
  if (ofParameters.length === faults.length) return badParameters(ofParameters)
  const count = faults.length === 1 ? 'One thing has' : `${faults.length} things have`
  return { kind: 'unacceptable-content', detail: `${count} to be put right in the table first.`, faults }
}

function mediaTypeOf(contentType: string | undefined): 'text/csv' | typeof XLSX | null {
  const type = (contentType ?? '').replace(/;.*$/s, '').trim().toLowerCase()
  return type === 'text/csv' || type === XLSX ? type : null
}
