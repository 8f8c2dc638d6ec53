import type { z } from '@hono/zod-openapi'
import type { Asker, Workers } from '../../workers/workers.ts'
import type { ParameterFault } from '../problem.ts'

export type CellValue =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly faults: readonly ParameterFault[] }

/** One number that is asked for by an address. */
export interface Cell<Query extends z.ZodType = z.ZodType> {
  /** The end of its address. */
  readonly name: string
  readonly summary: string
  readonly description: string
  readonly query: Query
  /** Whether it may have to wait for a place among long work. */
  readonly searches: boolean
  /** A query that is answered with a number. */
  readonly example: string
  readonly work: (asked: z.output<Query>, workers: Workers, asker: Asker) => CellValue | Promise<CellValue>
}

/** Keeps the type of the query together with what works it out. */
export function cell<Query extends z.ZodType>(definition: Cell<Query>): Cell {
  return definition as unknown as Cell
}

export function number(value: number): CellValue {
  return { ok: true, value }
}

export function refuse(...faults: ParameterFault[]): CellValue {
  return { ok: false, faults }
}
