import { z } from '@hono/zod-openapi'
import type { FaultParams } from './leaf.ts'

/** Of several names for the same thing exactly one is given. Said also when the same object has other faults. */
export function exactlyOneOf(...names: readonly string[]) {
  return oneOf(names, false)
}

/** The same where none need be given. */
export function atMostOneOf(...names: readonly string[]) {
  return oneOf(names, true)
}

function oneOf(names: readonly string[], optional: boolean) {
  return z.superRefine(
    (value: unknown, context) => {
      if (typeof value !== 'object' || value === null) return
      const given = names.filter((name) => (value as Record<string, unknown>)[name] !== undefined)
      if (given.length === 1 || (given.length === 0 && optional)) return
      const params: FaultParams =
        given.length === 0
          ? { fault: 'missing', hint: `give ${names.join(' or ')}`, oneOf: names }
          : { fault: 'contradictory', hint: `keep one of them` }
      const message =
        given.length === 0
          ? `neither ${names.join(' nor ')} is given`
          : `${given.length === 2 ? 'both ' : ''}${given.join(' and ')} are given`
      context.addIssue({ code: 'custom', path: [given[0] ?? names[0]!], message, params: { ...params } })
    },
    { when: () => true },
  )
}

/** JSON Schema of an object that has this field. */
export function requiring(name: string) {
  return { properties: { [name]: {} }, required: [name] }
}

/** Two fields that mean something only together. */
export function bothOrNeither(first: string, second: string) {
  return z.superRefine(
    (value: unknown, context) => {
      if (typeof value !== 'object' || value === null) return
      const [given, missing] = [first, second].toSorted((a, b) => Number(b in value) - Number(a in value)) as [
        string,
        string,
      ]
      if (!(given in value) || missing in value) return
      const params: FaultParams = { fault: 'missing', hint: `give ${missing} too, or leave out ${given}` }
      context.addIssue({
        code: 'custom',
        path: [missing],
        message: `${given} is given, ${missing} is not`,
        params: { ...params },
      })
    },
    { when: () => true },
  )
}
