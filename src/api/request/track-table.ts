import { readPlan } from '../../estimate/read-plan.ts'
import type { Fault } from '../../measure/fault.ts'
import type { Sheet, SheetFault } from '../../paper/rows-in/sheet.ts'
import { trackRows } from '../../paper/rows-in/track-rows.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { FaultCode } from '../fault-catalogue.ts'
import type { ParameterFault } from '../problem.ts'
import { type PlanQuery, parameterAt, planFromQuery } from './plan-query.ts'

export type ReadTrackTable =
  | { readonly ok: true; readonly plan: PlanInput; readonly inTable: (faults: readonly Fault[]) => TrackTableFault[] }
  | { readonly ok: false; readonly faults: readonly TrackTableFault[] }

/** A fault of the table, by row and column, or of a query parameter. */
type TrackTableFault = SheetFault | ParameterFault

/** Reads a track from a table, with rail and supplies from the query; reports the faults of both together. */
export function readTrackTable(sheet: Sheet, query: PlanQuery): ReadTrackTable {
  const { elements, faults, inTable } = trackRows(sheet)
  const standIn = [{ kind: 'tangent', length: 1000 }]
  const read = readPlan(planFromQuery(query, elements.length > 0 ? elements : standIn))
  const toFaults = (found: readonly Fault[]): TrackTableFault[] =>
    found.flatMap((fault): TrackTableFault[] => {
      const parameter = parameterAt(fault.path)
      if (parameter !== null)
        return [{ parameter, code: fault.code as FaultCode, detail: fault.detail, hint: fault.hint }]
      const [, , , element, field] = fault.path
      if (elements.length === 0) return []
      const placed = inTable(
        typeof element === 'number' ? element : 0,
        field === undefined ? null : String(field),
        fault,
      )
      return placed ? [placed] : []
    })
  const all = [...faults, ...(read.ok ? [] : toFaults(read.faults))]
  return all.length > 0 || !read.ok ? { ok: false, faults: all } : { ok: true, plan: read.plan, inTable: toFaults }
}
