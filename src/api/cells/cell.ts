import type { z } from '@hono/zod-openapi'
import type { Client, Workers } from '../../workers/workers.ts'
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
  readonly query: Query
  /** Whether it may need a worker thread, and so may be refused as `too-busy`. */
  readonly searches: boolean
  /** A query whose answer is a number. */
  readonly example: string
  readonly compute: (query: z.output<Query>, workers: Workers, client: Client) => CellValue | Promise<CellValue>
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
