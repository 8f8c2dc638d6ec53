import type { Cell, Table } from './table.ts'

/** A table as flat objects by the keys of its columns: numbers and money as numbers, null where a cell is empty. */
export function flatRows({ columns, rows }: Table): Record<string, Cell>[] {
  return rows.map((row) =>
    Object.fromEntries(
      columns.map(({ key, kind }, index) => {
        const value = row[index]!
        return [key, kind === 'money' && value !== null ? Number(value) : value]
      }),
    ),
  )
}
