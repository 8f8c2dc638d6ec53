import { z } from '@hono/zod-openapi'
import type { FaultCode } from '../fault-catalogue.ts'

/** What became of one value: the program's own form of it, or what is wrong with it in plain words. */
export type Read<T> = { readonly ok: true; readonly value: T } | Refused

export interface Refused {
  readonly ok: false
  readonly code: FaultCode
  readonly detail: string
  readonly hint?: string | undefined
}

/** What a fault's code and hint travel in, from a schema to `faultsOf`. */
export interface FaultParams {
  readonly fault: FaultCode
  readonly hint?: string | undefined
  /** For a `missing` fault: the names of which one would have done. */
  readonly oneOf?: readonly string[] | undefined
}

/** JSON Schema keywords of a leaf, as they stand in the OpenAPI document. */
type LeafDocument = NonNullable<Parameters<z.ZodType['openapi']>[1]>

/**
 * A schema for one value that is neither list nor object. It reads, checks and translates in one step, so that the
 * refusal can say in the trade's words what was found and what was expected.
 *
 * @param name the component's name in the OpenAPI document
 */
export function leaf<T>(name: string, read: (value: unknown) => Read<T>, document: LeafDocument) {
  return z
    .unknown()
    .transform((value, context): T => {
      const result = read(value)
      if (result.ok) return result.value
      const params: FaultParams = { fault: result.code, hint: result.hint }
      context.issues.push({ code: 'custom', message: result.detail, params, input: value })
      return z.NEVER
    })
    .openapi(name, document)
}

export function accepted<T>(value: T): Read<T> {
  return { ok: true, value }
}

export function refused(code: FaultCode, detail: string, hint?: string): Refused {
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
