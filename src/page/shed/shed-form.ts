import type { Stock } from '../../estimate/shed/stock.ts'
import type { Fault } from '../../measure/fault.ts'
import { choice, length, number } from '../form/cells.ts'
import type { FaultsByPlace } from '../form/fault-places.ts'
import { type FormPart, formOfFields, formOfPlan, planOfForm } from '../form/plan-form.ts'
import type { Shape } from '../form/plan-shape.ts'
import { readRowChange, withBlankRows, withoutBlankRows, withRowChange } from '../form/rows.ts'

const rail = { section: choice(), material: choice() }

/** The shed as its form shows it. */
const shedShape: Shape = {
  cells: { ties: number, fasteners: number },
  tables: {
    sticks: { cells: { ...rail, length, count: number } },
    joiners: { cells: { ...rail, count: number } },
  },
}

export function formOfStock({ sticks, joiners, ties, fasteners }: Stock): FormPart {
  const rows = sticks.map(({ section, material, lengthMm, count }) => ({ section, material, length: lengthMm, count }))
  return withBlankRows(formOfPlan({ sticks: rows, joiners, ties, fasteners }, shedShape), shedShape)
}

/** The form that came back: with a row more or less where a button asked for that, else as what it says of the shed. */
export function readShedForm(
  fields: ReadonlyMap<string, string>,
): { readonly changed: FormPart } | { readonly form: FormPart; readonly stock: Record<string, unknown> } {
  const posted = formOfFields(fields, shedShape)
  const change = readRowChange(fields.get('do') ?? '')
  if (change) return { changed: withRowChange(posted, change, shedShape) }
  const filled = withoutBlankRows(posted, shedShape)
  return { form: withBlankRows(filled, shedShape), stock: planOfForm(filled, shedShape) }
}

/** Faults by the field or table they belong to; '' for the shed as a whole. */
export function shedFaultsByPlace(faults: readonly Fault[]): FaultsByPlace {
  const places = new Map<string, Fault[]>()
  for (const fault of faults) {
    const place = fault.path.join('.')
    const said = fault.code === 'missing' ? { ...fault, detail: 'this is still blank', hint: 'fill it in' } : fault
    places.set(place, [...(places.get(place) ?? []), said])
  }
  return places
}
