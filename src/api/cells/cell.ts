import type { z } from '@hono/zod-openapi'
import { formatMm, MM_PER_INCH } from '../../measure/length.ts'
import { USUAL } from '../../plan/usual.ts'
import type { Workers } from '../../workers/workers.ts'
import type { ParameterFault } from '../problem.ts'

export type CellValue =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly faults: readonly ParameterFault[] }

/** One number with an address of its own. */
export interface Cell<Query extends z.ZodType = z.ZodType> {
  /** The end of its address. */
  readonly name: string
  readonly summary: string
  readonly description: string
  /** What stands in for parameters that are left out, and bears on the number; null: nothing does. */
  readonly assumes: string | null
  readonly query: Query
  /** Whether it may need a worker thread, and so may be refused as `too-busy`. */
  readonly searches: boolean
  /** A query whose answer is a number. */
  readonly example: string
  readonly compute: (query: z.output<Query>, workers: Workers) => CellValue
}

/** Checks that `compute` takes what `query` reads. */
export function cell<Query extends z.ZodType>(definition: Cell<Query>): Cell {
  return definition as unknown as Cell
}

export function number(value: number): CellValue {
  return { ok: true, value }
}

export function refuse(...faults: ParameterFault[]): CellValue {
  return { ok: false, faults }
}

/** A length in the unit that the query wants. */
export function length(mm: number, units: 'mm' | 'in' | undefined): CellValue {
  return number(units === 'in' ? mm / MM_PER_INCH : mm)
}

/** The rail when a query has none: the numbers hardly depend on it. */
export const USUAL_RAIL = { section: '250', material: 'brass' }

/** What is assumed of rail and gauge where a query leaves them out. */
export const ASSUMED_CURVE = `section ${USUAL_RAIL.section} and a gauge of ${formatMm(USUAL.gauge)}`
