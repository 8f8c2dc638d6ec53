import type { Answer } from '../plan/fields/answer.ts'
import { either, list, nullable, number, object, optional, text, word, written } from '../plan/fields/answer.ts'

/** One step of a JSON Patch (RFC 6902), of the kinds that remedies use. */
export const PATCH = list(
  object({
    op: word(['add', 'remove', 'replace']),
    path: text('JSON Pointer into the plan as it was sent.'),
    value: optional(either(number(), text(), list(number()), written())),
  }),
)

export type Patch = Answer<typeof PATCH>
type Step = Patch[number]

export const REMEDIES = {
  remedy: nullable(
    PATCH,
    'A JSON Patch (RFC 6902) on the plan as it was sent: applied, this finding is gone, and none of the same or a higher severity is new. null: there is none that can be carried out like that.',
  ),
  otherRemedies: list(PATCH, 'Further remedies, best first.'),
}

/**
 * The value with a patch applied, or null where a path leads nowhere. The value itself is not changed.
 *
 * Range: `add`, `remove` and `replace` (RFC 6902, section 4); `-` adds to the end of a list.
 */
export function patched(value: unknown, patch: Patch): unknown {
  return patch.reduce<unknown>((before, step) => (before === null ? null : patchedOnce(before, step)), value)
}

function patchedOnce(value: unknown, step: Step): unknown {
  const tokens = step.path.split('/').slice(1).map(unescaped)
  return tokens.length === 0 ? null : changedAt(value, tokens, step)
}

function unescaped(token: string): string {
  return token.replaceAll('~1', '/').replaceAll('~0', '~')
}

function changedAt(value: unknown, [token, ...rest]: readonly string[], step: Step): unknown {
  if (typeof value !== 'object' || value === null || token === undefined) return null
  if (rest.length > 0) {
    const inside = changedAt(childOf(value, token), rest, step)
    return inside === null ? null : withChild(value, token, inside)
  }
  if (step.op !== 'add' && childOf(value, token) === undefined) return null
  if (Array.isArray(value)) {
    const at = token === '-' ? value.length : indexOf(token)
    if (at === null || at > value.length) return null
    if (step.op === 'add') return value.toSpliced(at, 0, step.value)
    return step.op === 'remove' ? value.toSpliced(at, 1) : value.toSpliced(at, 1, step.value)
  }
  if (step.op === 'remove') return Object.fromEntries(Object.entries(value).filter(([key]) => key !== token))
  return withChild(value, token, step.value)
}

function indexOf(token: string): number | null {
  return /^(0|[1-9]\d*)$/.test(token) ? Number(token) : null
}

function childOf(value: object, token: string): unknown {
  if (Array.isArray(value)) {
    const at = indexOf(token)
    return at === null ? undefined : value[at]
  }
  return Object.hasOwn(value, token) ? (value as Record<string, unknown>)[token] : undefined
}

function withChild(value: object, token: string, child: unknown): unknown {
  if (Array.isArray(value)) return value.with(indexOf(token)!, child)
  return Object.fromEntries([...Object.entries(value).filter(([key]) => key !== token), [token, child]])
}
