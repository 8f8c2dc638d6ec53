import { readPlan } from '../../estimate/read-plan.ts'
import type { Fault } from '../../measure/fault.ts'
import type { Sheet, SheetFault } from '../../paper/rows-in/sheet.ts'
import { type TrackRows, trackRows } from '../../paper/rows-in/track-rows.ts'
import type { Assumption } from '../../plan/fields/assumption.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { FaultCode } from '../fault-catalogue.ts'
import type { ParameterFault } from '../problem.ts'
import { type PlanQuery, parameterAt, planFromQuery } from './plan-query.ts'

export type ReadTrackTable =
  | {
      readonly ok: true
      readonly plan: PlanInput
      readonly inTable: (faults: readonly Fault[]) => TrackTableFault[]
      /** What was not read of the table. */
      readonly assumptions: readonly Assumption[]
    }
  | { readonly ok: false; readonly faults: readonly TrackTableFault[] }

/** A fault of the table, by row and column, or of a query parameter. */
type TrackTableFault = SheetFault | ParameterFault

const STAND_IN = { elements: [{ kind: 'tangent', length: 1000 }], tracks: null }

/** Reads a track from a table, with rail and supplies from the query; reports the faults of both together. */
export function readTrackTable(sheet: Sheet, query: PlanQuery): ReadTrackTable {
  const rows = trackRows(sheet)
  const { elements, tracks, ignored, faults, inTable } = rows
  const read = readPlan(planOf(query, elements.length > 0 ? rows : STAND_IN))
  const firstOf = firstElements(tracks ?? [])
  const toFaults = (found: readonly Fault[]): TrackTableFault[] =>
    found.flatMap((fault): TrackTableFault[] => {
      const parameter = parameterAt(fault.path)
      if (parameter !== null)
        return [{ parameter, code: fault.code as FaultCode, detail: fault.detail, hint: fault.hint }]
      const [, track, , element, field] = fault.path
      if (elements.length === 0) return []
      const placed = inTable(
        (typeof track === 'number' ? (firstOf[track] ?? 0) : 0) + (typeof element === 'number' ? element : 0),
        field === undefined ? null : String(field),
        fault,
      )
      return placed ? [placed] : []
    })
  const all = [...faults, ...(read.ok ? [] : toFaults(read.faults))]
  if (all.length > 0 || !read.ok) return { ok: false, faults: all }
  return { ok: true, plan: read.plan, inTable: toFaults, assumptions: ignored.map(withoutColumn) }
}

/** The plan of the query with the track of the table; a table of elements may hold several and says more of each. */
function planOf(query: PlanQuery, { elements, tracks }: Pick<TrackRows, 'elements' | 'tracks'>): unknown {
  const plan = planFromQuery(query, elements)
  if (tracks === null) return plan
  const [{ name, ...first }] = plan.tracks as [Record<string, unknown>]
  const firstOf = firstElements(tracks)
  const listed = tracks.map(({ given, elements: count }, index) => ({
    name,
    ...(index === 0 && first),
    ...given,
    ...(index === 0 && query.name !== undefined && { name }),
    elements: elements.slice(firstOf[index], firstOf[index]! + count),
  }))
  return { ...plan, tracks: listed }
}

/** The number of the first element of each track in the table. */
function firstElements(tracks: readonly { readonly elements: number }[]): number[] {
  let next = 0
  return tracks.map(({ elements }) => {
    const first = next
    next += elements
    return first
  })
}

function withoutColumn(name: string): Assumption {
  return {
    field: '/tracks/0/elements',
    value: `without the column "${name}"`,
    reason: 'it is not a column of a track, so it was taken for a column of your own',
  }
}
