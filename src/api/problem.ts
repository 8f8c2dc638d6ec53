import type { Context, TypedResponse } from 'hono'
import type { Fault } from '../measure/fault.ts'
import type { Problem } from './answers/problem.ts'
import { type FaultCode, PROBLEMS, type ProblemKind, type ProblemStatus } from './fault-catalogue.ts'

export const PROBLEM_MEDIA_TYPE = 'application/problem+json'
export const PROBLEMS_PAGE = '/docs/problems'

/** At most this many faults are listed; the detail says how many there are. */
const MOST_LISTED = 1_000

/** A fault of a query parameter or a header. */
export interface ParameterFault {
  readonly parameter: string
  readonly code: FaultCode
  readonly detail: string
  readonly hint?: string | undefined
}

/** A fault of a table, by row and column. */
type TableFault = Fault & { readonly row: number; readonly column: string | null; readonly sheet?: string }

/** One response type per status, so that a handler's type shows every status it may send. */
type ProblemResponse<S extends ProblemStatus> = S extends S ? Response & TypedResponse<Problem, S, 'json'> : never

/** What a problem answer is made from. */
export interface Refusal<K extends ProblemKind> {
  readonly kind: K
  readonly detail: string
  readonly faults?: readonly (Fault | TableFault | ParameterFault)[]
}

/** Answers with a problem (RFC 9457). Headers already set on the context stay on the answer. */
export function problem<K extends ProblemKind>(
  c: Context,
  { kind, detail, faults = [] }: Refusal<K>,
): ProblemResponse<ProblemStatus<K>> {
  const { status, title } = PROBLEMS[kind]
  const body: Problem = {
    type: `${PROBLEMS_PAGE}#${kind}`,
    title,
    status,
    detail:
      faults.length > MOST_LISTED
        ? `${detail} The first ${MOST_LISTED} of ${faults.length} faults are listed.`
        : detail,
    instance: c.get('requestId'),
    errors: faults.slice(0, MOST_LISTED).map(toEntry),
  }
  return c.body(JSON.stringify(body), status, { 'Content-Type': PROBLEM_MEDIA_TYPE }) as never
}

/** A valid JSON body with faults. */
export function unacceptable(faults: readonly Fault[]): Refusal<'unacceptable-content'> {
  const count = faults.length === 1 ? '1 fault has' : `${faults.length} faults have`
  return { kind: 'unacceptable-content', detail: `${count} to be corrected first.`, faults }
}

export function badParameters(faults: readonly ParameterFault[]): Refusal<'bad-parameter'> {
  const names = [...new Set(faults.map(({ parameter }) => parameter))].slice(0, 10).join(', ')
  return { kind: 'bad-parameter', detail: `Check ${names}.`, faults }
}

function toEntry(fault: Fault | TableFault | ParameterFault): Problem['errors'][number] {
  const { detail, hint } = fault
  const code = fault.code as FaultCode
  const common = { code, detail, ...(hint === undefined ? {} : { hint }) }
  if (!('path' in fault)) return { parameter: fault.parameter, ...common }
  const inTable =
    'row' in fault
      ? { row: fault.row, column: fault.column, ...(fault.sheet !== undefined && { sheet: fault.sheet }) }
      : {}
  return { pointer: toPointer(fault.path), ...common, ...inTable }
}

/** RFC 6901: `~` and `/` inside a name are escaped. */
export function toPointer(path: Fault['path']): string {
  return path.map((token) => `/${String(token).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('')
}
