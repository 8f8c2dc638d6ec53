import type { Fault } from '../../measure/fault.ts'
import { RAIL_PART_NAMES, RAIL_PARTS, type RailPartName } from '../../plan/rows/parts.ts'
import { STOCK, STOCKED_PART } from '../../plan/rows/shed.ts'
import { type LengthTexts, lengthText } from '../../shed/length-texts.ts'
import type { Stock } from '../../shed/stock.ts'
import { asMeant, SHOWN_IN } from '../form/bare-numbers.ts'
import { choice } from '../form/cells.ts'
import type { FaultsByPlace } from '../form/fault-places.ts'
import { formShape, type Shape, type Values } from '../form/form-shape.ts'
import { type FormPart, formOfFields, formOfPlan, planOfForm } from '../form/plan-form.ts'
import { isObject } from '../form/plan-shape.ts'
import { readRowChange, withBlankRows, withoutBlankRows, withRowChange } from '../form/rows.ts'
import { readLengthsIn } from '../show-length.ts'

const USUAL_PART: RailPartName = 'joiners'

const ofPart = formShape(STOCKED_PART)

/** Parts that are counted by rail are in one table with a column for their kind. */
const parts: Shape = {
  cells: { part: choice(USUAL_PART), ...ofPart.cells },
  looks: {
    part: { label: 'Part', options: RAIL_PART_NAMES.map((name) => ({ value: name, label: RAIL_PARTS[name].one })) },
    ...ofPart.looks,
  },
}

const ofStock = formShape(STOCK)

/** The form of the shed. */
export const shedShape: Shape = {
  ...ofStock,
  tables: { ...ofStock.tables, parts },
  toWire: ({ parts, ...wire }) => ({
    ...wire,
    ...Object.fromEntries(
      RAIL_PART_NAMES.map((name) => [
        name,
        rowsIn(parts).flatMap(({ part = USUAL_PART, ...row }) => (part === name ? [row] : [])),
      ]),
    ),
  }),
}

function rowsIn(table: unknown): Values[] {
  return Array.isArray(table) ? table.filter(isObject) : []
}

/** Lengths as they were typed, where that is known. */
export function formOfStock(stock: Stock, texts: LengthTexts): FormPart {
  const asWritten = (mm: number) => lengthText(texts, mm) ?? mm
  const { ties, fasteners, tieStrips } = stock
  const sticks = stock.sticks.map(({ lengthMm, ...row }) => ({ ...row, length: asWritten(lengthMm) }))
  const panels = stock.panels.map(({ lengthMm, radiusMm, angleDeg, ties: onOne, ...row }) => ({
    ...row,
    ...(radiusMm === null ? { length: asWritten(lengthMm) } : { ...curveSize(texts, radiusMm), angle: angleDeg }),
    ...(onOne > 0 && { ties: onOne }),
  }))
  const parts = RAIL_PART_NAMES.flatMap((name) => stock[name].map((row) => ({ part: name, ...row })))
  return withBlankRows(formOfPlan({ sticks, panels, parts, tieStrips, ties, fasteners }, shedShape), shedShape)
}

/** As a diameter, unless it was written as a radius. */
function curveSize(texts: LengthTexts, radiusMm: number): Values {
  const [diameter, radius] = [lengthText(texts, 2 * radiusMm), lengthText(texts, radiusMm)]
  return diameter === null && radius !== null ? { radius } : { diameter: diameter ?? 2 * radiusMm }
}

/** Reads the posted form: to be shown again, with a row added or removed, if a button asked for that; otherwise as the stock of the shed. */
export function readShedForm(
  fields: ReadonlyMap<string, string>,
): { readonly changed: FormPart } | { readonly form: FormPart; readonly stock: Record<string, unknown> } {
  const posted = asMeant(formOfFields(fields, shedShape), shedShape, readLengthsIn(fields.get(SHOWN_IN)))
  const change = readRowChange(fields.get('do') ?? '')
  if (change) return { changed: withRowChange(posted, change, shedShape) }
  if (fields.get('do') === 'show') return { changed: posted }
  const filled = withoutBlankRows(posted, shedShape)
  return { form: withBlankRows(filled, shedShape), stock: planOfForm(filled, shedShape) }
}

/** Faults by the field or table they belong to; '' for the shed as a whole. */
export function shedFaultsByPlace(faults: readonly Fault[], form: FormPart): FaultsByPlace {
  const places = new Map<string, Fault[]>()
  for (const fault of faults) {
    const place = placeIn(form, fault.path).join('.')
    const shown = fault.code === 'missing' ? { ...fault, detail: 'this is blank', hint: 'fill it in' } : fault
    places.set(place, [...(places.get(place) ?? []), shown])
  }
  return places
}

/** Finds the row of a part in the table of all parts. */
function placeIn({ tables }: FormPart, path: Fault['path']): Fault['path'] {
  const [table, n, ...given] = path
  // The form has one field for the size of a curve.
  const rest = given.map((name) => (name === 'radius' || name === 'diameter' ? 'across' : name))
  if (table === 'panels' && n !== undefined) return [table, n, ...rest]
  if (!RAIL_PART_NAMES.some((name) => name === table)) return path
  const ofKind = [...(tables.parts ?? []).entries()].filter(([, { cells }]) => (cells.part || USUAL_PART) === table)
  const row = ofKind[Number(n)]
  return row ? ['parts', row[0], ...rest] : ['parts']
}
