import type { Field, Fields, Item } from './field.ts'

/** The row of the field at a place of an object; null where there is none. Entries of a list have the row of the list. */
export function fieldAt(item: Item, path: readonly (string | number)[]): Field | null {
  const [name, ...rest] = path
  if (name === undefined) return null
  if (item.is === 'variants') return firstOf(item.options, (option) => fieldAt(option, path))
  if (item.is === 'value') return null
  const field = fieldNamed(item.fields, String(name))
  if (!field || rest.length === 0) return field
  if (field.is === 'value') return null
  const inside = field.is === 'list' && isEntry(rest[0]) ? rest.slice(1) : rest
  return inside.length === 0 ? field : fieldAt(field.item, inside)
}

/** A field, also under the other names its value may be given by. */
function fieldNamed(fields: Fields, name: string): Field | null {
  return (
    fields[name] ??
    firstOf(Object.values(fields), (field) => {
      if (field.is !== 'value') return null
      const { [name]: alias, ...others } = field.aliases ?? {}
      return alias
        ? field
        : firstOf(Object.values(others), ({ beside }) => (beside?.name === name ? beside.field : null))
    })
  )
}

function firstOf<A, B>(list: readonly A[], find: (each: A) => B | null): B | null {
  for (const each of list) {
    const found = find(each)
    if (found !== null) return found
  }
  return null
}

function isEntry(token: string | number | undefined): boolean {
  return token !== undefined && /^\d+$/.test(String(token))
}

/** As a field is called in a sentence: what its row says, or its label. */
export function calledInSentence({ called, label }: Field): string | undefined {
  return called ?? (label && label.charAt(0).toLowerCase() + label.slice(1))
}
