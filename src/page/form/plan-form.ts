import { isDeepStrictEqual } from 'node:util'
import type { Shape, Values } from './form-shape.ts'
import { isObject, planShape } from './plan-shape.ts'

/**
 * A plan in the form. `preserved` has what the form has no field for or cannot show in the same way (a price that was a
 * number, a flag that was explicitly false). It is preserved in a hidden field, so that an unchanged form gives the same
 * plan. Null: nothing to preserve.
 */
export interface FormPart {
  readonly cells: Readonly<Record<string, string>>
  readonly groups: Readonly<Record<string, FormPart>>
  readonly tables: Readonly<Record<string, readonly FormPart[]>>
  readonly preserved: Values | null
}

/** The name of the hidden field for what is preserved. */
export const PRESERVED = 'preserved'

/** The hidden field of a page without the form: the whole plan, as JSON. */
export const WHOLE = 'whole'

export function formOfPlan(plan: Values, shape: Shape = planShape): FormPart {
  return partOf(shape, plan)
}

/** The plan of a form. Rows must not be blank (see `withoutBlankRows`), so that places in the plan match the form's. */
export function planOfForm(form: FormPart, shape: Shape = planShape): Record<string, unknown> {
  return valuesOf(shape, form) ?? {}
}

/** A part with nothing typed into it. */
export function blankPart(shape: Shape): FormPart {
  return partOf(shape, undefined)
}

function partOf(shape: Shape, wire: unknown): FormPart {
  const present = isObject(wire)
  const values: Values = present ? (shape.toFields?.(wire) ?? wire) : {}
  const { groups = {}, tables = {} } = shape
  const cells: Record<string, string> = {}
  const preserved: [string, unknown][] = []
  for (const [key, cell] of Object.entries(shape.cells)) {
    cells[key] = cell.show(values[key])
    if (key in values && !isDeepStrictEqual(cell.read(cells[key]), values[key])) preserved.push([key, values[key]])
  }
  const rowsOf = (key: string) => (Array.isArray(values[key]) ? values[key] : [])
  for (const [key, value] of Object.entries(values)) {
    const emptyTable = key in tables && rowsOf(key).length === 0
    if (emptyTable || !(key in shape.cells || key in groups || key in tables)) preserved.push([key, value])
  }
  const saysNothing = present && Object.keys(values).length === 0
  return {
    cells,
    groups: mapped(groups, (group, key) => partOf(group, values[key])),
    tables: mapped(tables, (row, key) => rowsOf(key).map((value) => partOf(row, value))),
    preserved: preserved.length > 0 || saysNothing ? Object.fromEntries(preserved) : null,
  }
}

function valuesOf(shape: Shape, part: FormPart): Record<string, unknown> | undefined {
  const preserved = part.preserved ?? {}
  const { groups = {}, tables = {} } = shape
  const values: [string, unknown][] = Object.entries(preserved).filter(([key]) => !(key in shape.cells))
  const put = (key: string, value: unknown) => {
    if (value !== undefined) values.push([key, value])
  }
  for (const [key, cell] of Object.entries(shape.cells)) {
    const text = part.cells[key] ?? ''
    const unchanged = key in preserved && cell.show(preserved[key]) === text
    put(key, unchanged ? preserved[key] : cell.read(text))
  }
  for (const [key, group] of Object.entries(groups)) put(key, valuesOf(group, part.groups[key] ?? blankPart(group)))
  for (const [key, row] of Object.entries(tables)) {
    const rows = part.tables[key] ?? []
    if (rows.length > 0)
      put(
        key,
        rows.map((each) => valuesOf(row, each) ?? {}),
      )
  }
  if (values.length === 0 && part.preserved === null) return undefined
  const fields = Object.fromEntries(values)
  const wire = shape.toWire?.(fields) ?? fields
  // A choice of radius or diameter beside a blank size says nothing.
  return Object.keys(wire).length === 0 && part.preserved === null ? undefined : { ...wire }
}

/** Posted fields as the form's parts. Names are paths with dots; rows are in the order of their numbers, which may have gaps. */
export function formOfFields(fields: ReadonlyMap<string, string>, shape: Shape = planShape): FormPart {
  return postedPart(shape, fields, rowNumbers(fields.keys()), '')
}

/** How many rows of all tables together the posted fields have. */
export function rowsPosted(fields: ReadonlyMap<string, string>): number {
  return [...rowNumbers(fields.keys()).values()].reduce((sum, { size }) => sum + size, 0)
}

type RowNumbers = ReadonlyMap<string, ReadonlySet<number>>

function rowNumbers(names: Iterable<string>): RowNumbers {
  const numbers = new Map<string, Set<number>>()
  for (const name of names)
    for (const match of name.matchAll(/\.(\d{1,6})(?=\.)/g)) {
      const table = name.slice(0, match.index)
      const seen = numbers.get(table)
      if (seen) seen.add(Number(match[1]))
      else numbers.set(table, new Set([Number(match[1])]))
    }
  return numbers
}

function postedPart(shape: Shape, fields: ReadonlyMap<string, string>, numbers: RowNumbers, at: string): FormPart {
  return {
    cells: mapped(shape.cells, (_, key) => fields.get(at + key) ?? ''),
    groups: mapped(shape.groups ?? {}, (group, key) => postedPart(group, fields, numbers, `${at}${key}.`)),
    tables: mapped(shape.tables ?? {}, (row, key) =>
      [...(numbers.get(at + key) ?? [])]
        .sort((a, b) => a - b)
        .map((number) => postedPart(row, fields, numbers, `${at}${key}.${number}.`)),
    ),
    preserved: readPreserved(fields.get(at + PRESERVED)),
  }
}

/** Written by the form itself; if it was altered and cannot be read, its content is lost. */
function readPreserved(text: string | undefined): Values | null {
  if (text === undefined) return null
  try {
    const value: unknown = JSON.parse(text)
    return isObject(value) ? value : null
  } catch {
    return null
  }
}

export function mapped<A, B>(
  record: Readonly<Record<string, A>>,
  each: (value: A, key: string) => B,
): Readonly<Record<string, B>> {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, each(value, key)]))
}
