import type { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import type { Estimate } from '../estimate/answer.ts'
import { csvOf } from '../paper/csv.ts'
import { ESTIMATE_TABLES, TABLE_NAMES, type TableName } from '../paper/estimate-tables.ts'
import type { TABLE_FORMATS } from '../paper/linked-tables.ts'
import { type Origin, withOrigin } from '../paper/origin.ts'
import { flatRows } from '../paper/rows.ts'
import type { Table } from '../paper/table.ts'
import { billSinceTable } from '../paper/tables/bill-since.ts'
import { workbookOf } from '../paper/workbook.ts'
import { workbookTables } from '../paper/workbook-tables.ts'
import type { BillSince } from '../shed/bill-since.ts'
import type { ProblemKind } from './fault-catalogue.ts'
import { fileName } from './file-name.ts'
import { badParameters, type Refusal } from './problem.ts'
import { allows, notAcceptable } from './request/accept.ts'
import { namesTag } from './request/entity-tag.ts'
import { type TableForm, type TableOptions, tableForm, usualUnits } from './request/table-options.ts'
import { tagOf } from './tagged.ts'

export const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet'
export const ODS = 'application/vnd.oasis.opendocument.spreadsheet'
const MEDIA_TYPES = { csv: 'text/csv', json: 'application/json', xlsx: XLSX } as const
const CONTENT_TYPES = {
  csv: 'text/csv; charset=utf-8; header=present',
  json: 'application/json',
  xlsx: XLSX,
} as const

type FormRefusal = 'not-acceptable' | 'bad-parameter'

/** A plan as it was sent or read. Its field `units` says in what its tables are where the request does not. */
interface PlanWithUnits {
  readonly units?: unknown
}

/** A requested table and how to write it. */
export interface TableRequest {
  readonly name: TableName
  readonly format: (typeof TABLE_FORMATS)[number]
  readonly form: TableForm
}

type Requested<T, K extends ProblemKind> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly refusal: Refusal<K> }

/** Which table is requested, and how to write it. */
export function tableRequest(
  c: Context,
  file: string,
  options: z.output<typeof TableOptions>,
  plan: PlanWithUnits = {},
): Requested<TableRequest, 'not-found' | FormRefusal> {
  const [, name, format] = /^([a-z-]+)\.(csv|json)$/.exec(file) ?? []
  if (!isTableName(name) || (format !== 'csv' && format !== 'json')) return { ok: false, refusal: NO_SUCH_TABLE }
  const form = formRequest(c, format, options, plan)
  return form.ok ? { ok: true, value: { name, format, form: form.value } } : form
}

/** How to write a workbook. */
export function workbookRequest(
  c: Context,
  options: z.output<typeof TableOptions>,
  plan: PlanWithUnits = {},
): Requested<TableForm, FormRefusal> {
  return formRequest(c, 'xlsx', options, plan)
}

/** A file that is ready to be sent. */
interface FileToSend {
  readonly body: string | Uint8Array<ArrayBuffer>
  /** Its entity tag. */
  readonly tag: string
  readonly format: keyof typeof MEDIA_TYPES
  /** Parameters of Content-Disposition; null: a browser shows the file instead of saving it. */
  readonly named: string | null
  /** The number of the row that comes after those of this file. */
  readonly nextRow?: number
}

/** A table of an estimate. */
export function tableFile(estimate: Estimate, { name, format, form }: TableRequest, origin: Origin): FileToSend {
  return fileOf(withOrigin(ESTIMATE_TABLES[name](estimate, form.lengthsIn), origin), { name, format, form }, origin)
}

/** The bill of what is still to buy. */
export function billSinceFile(bill: BillSince, request: TableRequest, origin: Origin): FileToSend {
  return fileOf(withOrigin(billSinceTable(bill, request.form.lengthsIn), origin), request, origin)
}

function fileOf(table: Table, { name, format, form }: TableRequest, origin: Origin): FileToSend {
  const { from, rows } = form.part
  const next = from - 1 + rows
  const part = { ...table, rows: table.rows.slice(from - 1, next) }
  const body = format === 'csv' ? csvOf(part, form.csv) : JSON.stringify(flatRows(part))
  // An unsaved plan was sent by a program, which needs no name for its file.
  const named = origin.revision === null ? null : fileName(origin.plan ?? '', `${name}.${format}`)
  return { body, tag: tagOf(body), format, named, ...(next < table.rows.length && { nextRow: next + 1 }) }
}

/** All tables of an estimate as a workbook. */
export async function workbookFile(estimate: Estimate, { lengthsIn }: TableForm, origin: Origin): Promise<FileToSend> {
  const body = await workbookOf(workbookTables(estimate, lengthsIn), origin)
  return {
    body,
    tag: tagOf(body),
    format: 'xlsx',
    named: fileName(origin.revision === null ? '' : (origin.plan ?? ''), 'tables.xlsx'),
  }
}

/** Answers with a file. The return type fits every endpoint. */
export function send(c: Context, { body, tag, format, named, nextRow }: FileToSend): never {
  return c.body(body, 200, {
    ETag: tag,
    'Content-Type': CONTENT_TYPES[format],
    ...(named !== null && { 'Content-Disposition': `attachment; ${named}` }),
    ...(nextRow !== undefined && { Link: `<${addressFrom(c, nextRow)}>; rel="next"` }),
  }) as never
}

/** The same address for the rows from another one on. */
function addressFrom(c: Context, row: number): string {
  const { pathname, searchParams } = new URL(c.req.url)
  searchParams.set('from', String(row))
  return `${pathname}?${searchParams}`
}

/** The same, unless the client already has it. */
export function sendIfChanged(c: Context, file: FileToSend) {
  if (!namesTag(c.req.header('if-none-match'), file.tag)) return send(c, file)
  return c.body(null, 304, { ETag: file.tag })
}

function formRequest(
  c: Context,
  format: FileToSend['format'],
  options: z.output<typeof TableOptions>,
  plan: PlanWithUnits,
): Requested<TableForm, FormRefusal> {
  if (!allows(c.req.header('accept'), MEDIA_TYPES[format]))
    return { ok: false, refusal: notAcceptable(MEDIA_TYPES[format]) }
  const form = tableForm(options, format, usualUnits(plan, format))
  return form.ok ? { ok: true, value: form.form } : { ok: false, refusal: badParameters(form.faults) }
}

const NO_SUCH_TABLE: Refusal<'not-found'> = {
  kind: 'not-found',
  detail: `There is no such table. There are ${TABLE_NAMES.join(', ')}, each as .csv and .json.`,
}

function isTableName(name: string | undefined): name is TableName {
  return (TABLE_NAMES as readonly (string | undefined)[]).includes(name)
}

/** The clock, where the service meets the world: nothing that makes a table looks at it. */
export type Clock = () => Date

/** What the tables of a plan say of where they come from. */
export function originOf(
  plan: { readonly name: string | null; readonly revision: number | null },
  clock: Clock,
): Origin {
  return { plan: plan.name, revision: plan.revision, date: clock().toISOString().slice(0, 10) }
}
