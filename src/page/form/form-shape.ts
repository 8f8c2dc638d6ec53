import type { AnyValue, Field as FieldRow, Fields, Item, ListField, PartField } from '../../plan/fields/field.ts'
import { type Cell, choice, length, lengths, number, price, temperature, tick, words } from './cells.ts'

/*
 * The form of a plan is derived from the rows of its fields: a cell for each value that has a label, a group for each
 * object, a table for each list of objects.
 */

export type Values = Readonly<Record<string, unknown>>

export interface Option {
  readonly value: string
  readonly label: string
}

/** How a field appears in the form. */
export interface Look {
  readonly label: string
  /** How to fill it in. */
  readonly hint?: string | undefined
  /** The meaning of a blank cell: a text, or a length that is shown in the units of the page. */
  readonly blank?: string | { readonly mm: number } | undefined
  readonly options?: readonly Option[] | undefined
  readonly numeric?: boolean | undefined
  /** A checkbox instead of a text field. */
  readonly tick?: boolean | undefined
}

/** What the form shows of one object of a plan: its cells, its groups of cells, its tables. */
export interface Shape {
  readonly cells: Readonly<Record<string, Cell>>
  readonly looks: Readonly<Record<string, Look>>
  readonly groups?: Readonly<Record<string, Shape>>
  readonly tables?: Readonly<Record<string, Shape>>
  /** Conversion where the form's fields differ from the plan's. Each is the inverse of the other. */
  readonly toFields?: (wire: Values) => Values
  readonly toWire?: (fields: Values) => Values
}

type Parts = Required<Pick<Shape, 'cells' | 'looks' | 'groups' | 'tables'>>

/** The form of an object without the fields left out; for an item with several variants, all their fields together. */
export function formShape(item: Item, ...leftOut: readonly string[]): Shape {
  const parts: Parts = { cells: {}, looks: {}, groups: {}, tables: {} }
  for (const [name, row] of fieldsOf(item)) if (!leftOut.includes(name)) addField(parts, name, row)
  return 'across' in parts.cells ? { ...parts, ...acrossToWire } : parts
}

/** The fields of an object; for an item with several variants, the fields of all of them, each name once. */
function fieldsOf(item: Item): [string, FieldRow][] {
  if (item.is === 'shape') return Object.entries<FieldRow>(item.fields as Fields)
  if (item.is === 'value') return []
  const merged = new Map<string, FieldRow>()
  for (const option of item.options)
    for (const [name, row] of fieldsOf(option)) {
      const there = merged.get(name)
      const together = name === item.byWord && there ? withChoices(there, row) : (there ?? row)
      merged.set(name, together)
    }
  return [...merged]
}

/** The values that distinguish the variants, in one choice. */
function withChoices(one: FieldRow, other: FieldRow): FieldRow {
  if (one.is !== 'value' || other.is !== 'value') return one
  return { ...one, choices: [...(one.choices ?? []), ...(other.choices ?? [])] }
}

function addField(parts: Parts, name: string, row: FieldRow): void {
  if (row.label === undefined) return
  if (row.is === 'value') {
    const inForm = row.aliases?.diameter ? 'across' : name
    const put = { cells: parts.cells as Record<string, Cell>, looks: parts.looks as Record<string, Look> }
    put.cells[inForm] = cellOf(row)
    put.looks[inForm] = lookOf(row)
    if (inForm === 'across') {
      const { beside } = row.aliases!.degree ?? {}
      put.cells.acrossIs = choice('diameter')
      put.looks.acrossIs = beside ? ACROSS_OR_DEGREE : ACROSS_IS
      if (beside) {
        put.cells.chord = cellOf(beside.field)
        put.looks.chord = lookOf(beside.field)
      }
    }
    return
  }
  if (row.is === 'list' && row.item.is === 'value') {
    Object.assign(parts.cells, { [name]: lengths })
    Object.assign(parts.looks, { [name]: lookOf(row) })
    return
  }
  const whole = row.is === 'part' ? objectOf(row) : row.item
  if (whole) Object.assign(row.is === 'part' ? parts.groups : parts.tables, { [name]: formShape(whole) })
}

/** The object among the variants of an item; the form has no field for the others. */
function objectOf({ item }: PartField): Item | null {
  if (item.is !== 'variants' || item.byWord !== undefined) return item
  return item.options.find((option) => option.is === 'shape') ?? null
}

function cellOf(row: AnyValue): Cell {
  switch (row.kind) {
    case 'length':
      return length
    case 'temperature':
    case 'difference':
      return temperature
    case 'number':
    case 'count':
      return number
    case 'price':
      return price
    case 'text':
      return words
    case 'flag':
      return tick(row.usual?.value === true)
    case 'choice':
      return choice()
  }
}

export function lookOf(row: AnyValue | ListField): Look {
  const { label = '', hint } = row
  if (row.is === 'list') return { label, hint, blank: row.usual?.shown ?? row.blank }
  return {
    label,
    hint,
    blank: row.kind === 'choice' || row.kind === 'flag' ? undefined : blankOf(row),
    options: row.choices && [{ value: '', label: unchosen(row) }, ...row.choices],
    numeric: row.kind === 'number' || row.kind === 'count' || row.kind === 'price' || undefined,
    tick: row.kind === 'flag' || undefined,
  }
}

/** No hint for a default that means the same as no value. */
function blankOf({ kind, usual, blank, show }: AnyValue): Look['blank'] {
  if (blank !== undefined || !usual || usual.because === null) return blank
  return kind === 'length' ? { mm: usual.value as number } : show(usual.value)
}

function unchosen({ presence, usual, blank, choices = [] }: AnyValue): string {
  if (blank !== undefined) return presence === 'required' ? blank : `Default: ${blank}`
  if (usual) return `Default: ${lowerFirst(choices.find(({ value }) => value === usual.value)?.label ?? '')}`
  return 'Choose …'
}

export function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1)
}

const ACROSS_IS: Look = {
  label: 'Size given as',
  options: [
    { value: 'diameter', label: 'Diameter' },
    { value: 'radius', label: 'Radius' },
  ],
}

const ACROSS_OR_DEGREE: Look = { ...ACROSS_IS, options: [...ACROSS_IS.options!, { value: 'degree', label: 'Degree' }] }

/**
 * The form has one field for a curve's size with a choice next to it; the plan has a field for each. A degree is shown with
 * its sign, so that it is not taken for a length without a unit; the chord that goes with it says nothing of other sizes.
 */
const acrossToWire = {
  toFields: (wire: Values): Values => {
    const acrossIs = ['diameter', 'radius', 'degree'].find((name) => name in wire)
    if (!acrossIs) return wire
    const { [acrossIs]: size, ...fields } = wire
    return { ...fields, across: acrossIs === 'degree' && typeof size === 'number' ? `${size}°` : size, acrossIs }
  },
  toWire: ({ across, acrossIs = 'diameter', chord, ...fields }: Values): Values => {
    if (acrossIs !== 'degree') return across === undefined ? fields : { ...fields, [String(acrossIs)]: across }
    return {
      ...fields,
      ...(across !== undefined && { degree: number.read(String(across)) }),
      ...(chord !== undefined && { chord }),
    }
  },
}
