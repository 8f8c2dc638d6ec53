import type { Fault } from '../../measure/fault.ts'

/** Names of a list of the plan that stand there before; what could not be read has none. */
export function duplicateNames(names: readonly (string | undefined)[], list: string, what: string): Fault[] {
  const first = new Map<string, number>()
  return names.flatMap((name, index): Fault[] => {
    if (name === undefined) return []
    const known = first.get(name)
    if (known === undefined) {
      first.set(name, index)
      return []
    }
    return [
      {
        path: [list, index, 'name'],
        code: 'duplicate-name',
        detail: `${what} ${known + 1} is also called "${name}"`,
        hint: `give each ${what} a name of its own`,
      },
    ]
  })
}
