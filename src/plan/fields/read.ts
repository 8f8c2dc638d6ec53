/** What became of one value: the program's own form of it, or what is wrong with it in plain words. */
export type Read<T> = { readonly ok: true; readonly value: T } | Refused

export interface Refused {
  readonly ok: false
  readonly code: string
  readonly detail: string
  readonly hint?: string | undefined
}

export function accepted<T>(value: T): Read<T> {
  return { ok: true, value }
}

export function refused(code: string, detail: string, hint?: string): Refused {
  return { ok: false, code, detail, hint }
}

/** A value of the wrong type, or none at all. */
export function notA(expected: string, value: unknown, hint?: string): Refused {
  if (value === undefined) return refused('missing', `${expected} is required here`, hint)
  return refused('wrong-type', `found ${shown(value)} where ${expected} is expected`, hint)
}

const SHOWN_LENGTH = 40

/** A value as it is quoted back: short, and without what is inside lists and objects. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing'
  if (value === null) return 'null'
  if (Array.isArray(value)) return 'a list'
  if (typeof value === 'object') return 'an object'
  if (typeof value !== 'string') return String(value)
  return JSON.stringify(value.length > SHOWN_LENGTH ? `${value.slice(0, SHOWN_LENGTH)}…` : value)
}
