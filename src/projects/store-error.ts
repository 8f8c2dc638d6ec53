/**
 * Why a call of the store failed:
 * - `unavailable`: the database cannot be reached, is closed, or is busy; the same call may work later.
 * - `full`: there is no space left on the disk; reading still works.
 * - `refused`: the database does not accept this content (a constraint, or a character it cannot store).
 * - `failed`: anything else; a fault of the program or of the database.
 */
export type StoreErrorKind = 'unavailable' | 'full' | 'refused' | 'failed'

/**
 * The only error that leaves the store. Drivers put the statement and its parameters, with people's data, into their
 * messages, so neither their text nor the error itself is passed on. The operator sees only `code` (an SQLSTATE, or a code of
 * the driver or the system) and the name of a constraint.
 */
export class StoreError extends Error {
  override readonly name = 'StoreError'
  readonly kind: StoreErrorKind
  readonly code: string | null

  constructor(kind: StoreErrorKind, message: string, code: string | null = null) {
    super(message)
    this.kind = kind
    this.code = code
  }
}

/** What a driver's error says without drizzle's wrapper. Errors of PostgreSQL have a severity, others have none. */
interface DriverFault {
  readonly code: string | null
  readonly fromServer: boolean
  readonly constraint: string | null
}

function faultOf(error: unknown): DriverFault {
  let innermost: unknown = error
  while (innermost instanceof Error && innermost.cause !== undefined) innermost = innermost.cause
  const fields = (typeof innermost === 'object' && innermost !== null ? innermost : {}) as Record<string, unknown>
  const text = (value: unknown) => (typeof value === 'string' && value !== '' ? value : null)
  return {
    code: text(fields.code),
    fromServer: text(fields.severity) !== null,
    // PGlite calls it `constraint`, postgres `constraint_name`.
    constraint: text(fields.constraint) ?? text(fields.constraint_name),
  }
}

/** The driver's or the system's code of an error (an SQLSTATE such as 23514, or ECONNREFUSED), if it has any. */
export function codeOf(error: unknown): string | null {
  return faultOf(error).code
}

/** Classes of SQLSTATE (PostgreSQL's manual, appendix A) after which the same statement may succeed later. */
const TEMPORARY = /^(08|53|57P0|57014|25006|25P03|25P04|40001|40P01|55P03)/
/** Data exceptions and violated constraints. */
const REFUSED = /^2[23]/

export function toStoreError(error: unknown): StoreError {
  if (error instanceof StoreError) return error
  const { code, fromServer, constraint } = faultOf(error)
  const marks = [code, constraint && `constraint ${constraint}`].filter(Boolean).join(', ')
  const suffix = marks === '' ? '' : ` (${marks})`
  if (!fromServer && code !== null)
    return new StoreError('unavailable', `The database cannot be reached${suffix}.`, code)
  if (code !== null && TEMPORARY.test(code))
    return new StoreError('unavailable', `The database cannot answer now${suffix}.`, code)
  if (code !== null && REFUSED.test(code))
    return new StoreError('refused', `The database does not accept this content${suffix}.`, code)
  return new StoreError('failed', `The database failed${suffix}.`, code)
}
