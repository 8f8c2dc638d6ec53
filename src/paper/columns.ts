import type { Answer, AnswerFields, Declared, ObjectAnswer, OptionalAnswer } from '../plan/fields/answer.ts'
import type { Cell, ColumnKind, ColumnOf } from './table.ts'

/** Fields with one value, which a cell can hold. */
type CellName<F> = {
  [K in keyof F]: F[K] extends OptionalAnswer<infer D> ? K & CellKey<D, K> : CellKey<F[K], K>
}[keyof F]

type CellKey<D, K> = Answer<D> extends string | number | boolean | null ? K & string : never

/** A field with its own key or title, where those of the answer are unclear or already used in the table. */
interface Renamed<N> {
  readonly of: N
  readonly key: string
  readonly title?: string
}

/**
 * Makes columns from fields of an answer by name: key, kind and title are those of its declaration.
 *
 * @param answer the declaration
 * @param of where the answer is in a row of the table; null: there is none, and its cells are empty
 */
export function columnsOf<F extends AnswerFields, Row>(
  answer: ObjectAnswer<F>,
  of: (row: Row) => Answer<ObjectAnswer<F>> | null | undefined,
): (...columns: (CellName<F> | Renamed<CellName<F>>)[]) => ColumnOf<Row>[] {
  return (...columns) =>
    columns.map((column) => {
      const { of: name, key, title } = typeof column === 'object' ? column : { of: column, key: column }
      return {
        key,
        title: title ?? titleOf(answer.fields[name]!, name),
        kind: kindOf(answer.fields[name]!, name),
        value: (row) => cell((of(row) as Readonly<Record<string, unknown>> | null | undefined)?.[name]),
      }
    })
}

function titleOf(field: Declared | OptionalAnswer, name: string): string {
  if ('title' in field && field.title !== undefined) return field.title
  if ('of' in field) return titleOf(field.of, name)
  throw new Error(`the field ${name} is no column: its declaration has no title`)
}

function kindOf(field: Declared | OptionalAnswer, name: string): ColumnKind {
  if (field.is === 'word') return 'text'
  if (field.is === 'nullable' || field.is === 'optional' || field.is === 'part') return kindOf(field.of, name)
  if (field.is !== 'value') throw new Error(`the field ${name} is no column: it has more than one value`)
  const { kind } = field
  return kind === 'number' || kind === 'count' || kind === 'length' || kind === 'money' ? kind : 'text'
}

function cell(value: unknown): Cell {
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  return (value as Cell | undefined) ?? null
}
