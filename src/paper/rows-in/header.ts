import type { AnyValue, Field } from '../../plan/fields/field.ts'
import { meantName } from '../../plan/fields/nearest.ts'
import { ELEMENT } from '../../plan/rows/track.ts'

/** The fields of elements that one cell can hold, also under their other names. */
const VALUES: ReadonlyMap<string, AnyValue> = new Map(
  ELEMENT.options.flatMap(({ fields }) =>
    Object.entries<Field>(fields).flatMap(([name, field]): [string, AnyValue][] =>
      field.is === 'value'
        ? [
            [name, field],
            ...Object.entries(field.aliases ?? {}).flatMap(([other, { field: its, beside }]): [string, AnyValue][] => [
              [other, its],
              ...(beside ? [[beside.name, beside.field] as [string, AnyValue]] : []),
            ]),
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

/** The columns that hold angles. */
export const ANGLES: ReadonlySet<string> = new Set(['angle', 'degree'])

/** The columns that hold a text of the sender's own. */
export const TEXTS: ReadonlySet<string> = new Set(
  [...VALUES].flatMap(([name, { kind }]) => (kind === 'text' ? [name] : [])),
)

/** No name with its unit is longer. */
const LONGEST_HEADER = 60

interface Header {
  /** In lower case. */
  readonly name: string
  readonly unit: string | null
}

/** A header cell: its name, and its unit, as in `length (ft)`, `Diameter [in]`. */
export function headerOf(cell: string): Header {
  if (cell.length > LONGEST_HEADER) return { name: cell, unit: null }
  const text = cell.trim().toLowerCase()
  const open = text.search(/[([]/)
  if (open < 0 || !/[)\]]$/.test(text)) return { name: text, unit: null }
  return { name: text.slice(0, open).trim(), unit: text.slice(open + 1, -1).trim() || null }
}

/** Other words for the columns of a track: a column called so may have been meant to be read. */
const OTHER_WORDS: ReadonlyMap<string, string> = new Map(
  Object.entries({
    kind: ['type', 'shape', 'element', 'straight'],
    length: ['size', 'distance', 'long', 'len', 'mm', 'cm', 'metres', 'meters', 'feet', 'ft', 'inches'],
    radius: ['curve', 'rad', 'r'],
    diameter: ['dia', 'd'],
    angle: ['degrees', 'deg', 'sweep', 'arc'],
    turn: ['direction', 'hand', 'side', 'way', 'left', 'right'],
  }).flatMap(([name, words]) => words.map((word): [string, string] => [word, name])),
)

/** What rows of one track cannot say, though a plan can: such a column would be missed. */
const NOT_IN_ROWS: ReadonlySet<string> = new Set([
  ...['track', 'state', 'x', 'y', 'heading', 'start', 'end', 'closed'],
  ...['grade', 'gradient', 'slope', 'rise', 'elevation', 'height'],
  ...['gauge', 'section', 'material', 'temper'],
])

/** Whether a header names something of a plan that rows cannot say. */
export function isNotInRows({ name }: Header): boolean {
  return name.length <= LONGEST_HEADER && wordsOf(name).some((word) => NOT_IN_ROWS.has(word))
}

function wordsOf(name: string): string[] {
  return name.split(/[^\p{L}]+/u).filter((word) => word !== '')
}

/**
 * The column of a track that an unknown header may have been meant for; null if it can only be a column of the sender's
 * own, such as a remark. What holds a unit is a measure.
 */
export function mayMean({ name, unit }: Header): string | null {
  if (name.length > LONGEST_HEADER) return 'kind'
  const known = [...COLUMN_NAMES]
  const words = wordsOf(name)
  const exact = words.find((word) => COLUMN_NAMES.has(word) || OTHER_WORDS.has(word))
  if (exact !== undefined) return OTHER_WORDS.get(exact) ?? exact
  for (const written of [name, ...words]) {
    const meant = meantName(written, known)
    if (meant !== null) return meant
  }
  const inside = known.find((each) => name.includes(each))
  return inside ?? (unit !== null && (LENGTH_UNITS.has(unit) || ANGLE_UNITS.has(unit)) ? 'length' : null)
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
