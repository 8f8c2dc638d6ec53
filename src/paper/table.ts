import { formatFeetInches, MM_PER_INCH } from '../measure/length.ts'
import { meantNumber } from '../measure/meant.ts'

export type Cell = string | number | null

/**
 * `length`: in mm, or in inches on request; the unit is the end of its key. `money`: decimal text with the
 * places of its currency. `count`: whole numbers. `number`: all other measures, with the unit in the key.
 */
export type ColumnKind = 'text' | 'count' | 'number' | 'length' | 'money'

export interface Column {
  /** As in the JSON answer, with the unit at its end. */
  readonly key: string
  /** For people, with the unit. */
  readonly title: string
  readonly kind: ColumnKind
}

/** A table of an estimate. Each row is complete in itself; null: empty. */
export interface Table {
  readonly name: string
  readonly title: string
  readonly columns: readonly Column[]
  readonly rows: readonly (readonly Cell[])[]
  /** Sums below the rows, for people; programs get them otherwise. */
  readonly foot?: readonly (readonly Cell[])[]
}

/** Lengths in millimetres, in decimal inches, or in feet, inches and fractions of an inch, as text. */
export type LengthsIn = 'mm' | 'in' | { readonly partsOfInch: 16 | 32 | 64 }

/** A column and its value for a row. The title of a length is without its unit; its key ends in `Mm`. */
export type ColumnOf<Row> = Column & { readonly value: (row: Row) => Cell }

export function tableOf<Row>(
  name: string,
  title: string,
  columns: readonly ColumnOf<Row>[],
  rows: readonly Row[],
  lengthsIn: LengthsIn,
): Table {
  const shown = columns.map(({ key, title, kind }) => columnIn({ key, title, kind }, lengthsIn))
  return {
    name,
    title,
    columns: shown,
    rows: rows.map((row) =>
      columns.map(({ key, kind, value }) => {
        const cell = kind === 'length' ? lengthIn(value(row), lengthsIn) : value(row)
        return typeof cell === 'number' ? meantNumber(cell, key) : cell
      }),
    ),
  }
}

function columnIn({ key, title, kind }: Column, lengthsIn: LengthsIn): Column {
  if (kind !== 'length') return { key, title, kind }
  const quantity = key.replace(/Mm$/, '')
  if (lengthsIn === 'mm') return { key, title: `${title} (mm)`, kind }
  if (lengthsIn === 'in') return { key: `${quantity}In`, title: `${title} (in)`, kind }
  return { key: `${quantity}FtIn`, title: `${title} (ft, in)`, kind: 'text' }
}

function lengthIn(mm: Cell, lengthsIn: LengthsIn): Cell {
  if (typeof mm !== 'number' || lengthsIn === 'mm') return mm
  return lengthsIn === 'in' ? mm / MM_PER_INCH : formatFeetInches(mm, lengthsIn.partsOfInch)
}

/** A column of values that are not fields of an answer. */
export const text = <Row>(key: string, title: string, value: (row: Row) => string | null): ColumnOf<Row> => ({
  key,
  title,
  kind: 'text',
  value,
})
export const count = <Row>(key: string, title: string, value: (row: Row) => number | null): ColumnOf<Row> => ({
  key,
  title,
  kind: 'count',
  value,
})
export const length = <Row>(key: `${string}Mm`, title: string, value: (row: Row) => number | null): ColumnOf<Row> => ({
  key,
  title,
  kind: 'length',
  value,
})
