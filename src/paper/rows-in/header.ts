import type { AnyValue, Field } from '../../plan/fields/field.ts'
import { ELEMENT } from '../../plan/rows/track.ts'

/** The fields of elements that one cell can hold, also under their other names. */
const VALUES: ReadonlyMap<string, AnyValue> = new Map(
  ELEMENT.options.flatMap(({ fields }) =>
    Object.entries<Field>(fields).flatMap(([name, field]): [string, AnyValue][] =>
      field.is === 'value'
        ? [
            [name, field],
            ...Object.entries(field.aliases ?? {}).map(([other, alias]) => [other, alias.field] as [string, AnyValue]),
          ]
        : [],
    ),
  ),
)

/** The columns a track may have. */
export const COLUMN_NAMES: ReadonlySet<string> = new Set(VALUES.keys())

/** The columns that hold lengths. */
export const LENGTHS: ReadonlySet<string> = new Set(
  [...VALUES].flatMap(([name, { kind }]) => (kind === 'length' ? [name] : [])),
)

/** No name with its unit is longer. */
const LONGEST_HEADER = 60

/** A header cell: its name in lower case, and its unit, as in `length (ft)`, `Diameter [in]`. */
export function headerOf(cell: string): { readonly name: string; readonly unit: string | null } {
  if (cell.length > LONGEST_HEADER) return { name: cell, unit: null }
  const text = cell.trim().toLowerCase()
  const open = text.search(/[([]/)
  if (open < 0 || !/[)\]]$/.test(text)) return { name: text, unit: null }
  return { name: text.slice(0, open).trim(), unit: text.slice(open + 1, -1).trim() || null }
}

/** Units of a column of lengths, and how each is written after a number. */
export const LENGTH_UNITS: ReadonlyMap<string, string> = new Map([
  ['mm', 'mm'],
  ['millimetres', 'mm'],
  ['millimeters', 'mm'],
  ['cm', 'cm'],
  ['m', 'm'],
  ['metres', 'm'],
  ['meters', 'm'],
  ['ft', 'ft'],
  ['foot', 'ft'],
  ['feet', 'ft'],
  ["'", 'ft'],
  ['in', 'in'],
  ['inch', 'in'],
  ['inches', 'in'],
  ['"', 'in'],
])

export const ANGLE_UNITS: ReadonlySet<string> = new Set(['deg', 'degree', 'degrees', '°'])
