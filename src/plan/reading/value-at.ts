import type { Fault } from '../../measure/fault.ts'

/** The value at a place of any JSON value; undefined where there is none. */
export function valueAt(raw: unknown, path: Fault['path']): unknown {
  return path.reduce<unknown>((value, key) => {
    const holds = typeof value === 'object' && value !== null && Object.hasOwn(value, key)
    return holds ? (value as Record<string | number, unknown>)[key] : undefined
  }, raw)
}

/** The list at a place; empty where there is none. */
export function listAt(raw: unknown, path: Fault['path']): readonly unknown[] {
  const value = valueAt(raw, path)
  return Array.isArray(value) ? value : []
}
