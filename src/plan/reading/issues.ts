import type { z } from '@hono/zod-openapi'
import type { Fault } from '../../measure/fault.ts'
import { meantName } from '../fields/nearest.ts'
import { shown } from '../fields/read.ts'
import type { FaultParams } from './schema.ts'
import { valueAt } from './value-at.ts'

type Issue = z.core.$ZodIssue

/**
 * The issues a schema found, as faults in plain words.
 *
 * @param raw the value that was parsed: issues do not contain it
 */
export function faultsOf(issues: readonly Issue[], raw: unknown): Fault[] {
  const found = issues.flatMap((issue) => faultsOfIssue(issue, [], raw))
  return withoutMisspelt(found).map(({ fault }) => fault)
}

interface Found {
  readonly fault: Fault
  /** The known name that an unknown field was probably meant to be. */
  readonly meant?: string | null
  /** The names of which one is missing. */
  readonly missing?: readonly string[]
}

function faultsOfIssue(issue: Issue, before: Fault['path'], raw: unknown): Found[] {
  const path = [...before, ...(issue.path as (string | number)[])]
  const value = valueAt(raw, path)
  const one = (code: string, detail: string, hint?: string): Found[] => [
    { fault: { path, code, detail, hint }, ...(code === 'missing' ? { missing: [String(path.at(-1))] } : {}) },
  ]
  switch (issue.code) {
    case 'custom': {
      const { fault, hint, oneOf } = issue.params as FaultParams
      const [found] = one(fault, issue.message, hint)
      return [oneOf ? { ...found!, missing: oneOf } : found!]
    }
    case 'invalid_type': {
      const [expected, hint] =
        issue.expected === 'array'
          ? ['a list', 'write it in square brackets, with commas between its entries']
          : ['an object', 'write its fields in braces, each as "name": value']
      if (value === undefined) return one('missing', `${expected} is required here`)
      return one('wrong-type', `found ${shown(value)} where ${expected} is expected`, hint)
    }
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownField(path, key, issue.message.split(' ')))
    case 'invalid_union':
      return faultsOfUnion(issue, path, raw)
    case 'too_small':
      return one('too-few', 'the list is empty', 'put at least one entry in it')
    case 'too_big':
      return one('too-many', `${(value as unknown[]).length} entries; the limit is ${issue.maximum}`)
    default:
      throw new Error(`no words for the issue ${issue.code}`)
  }
}

/** A union either has a wrong discriminator, or is checked as the option that fits the value's type. */
function faultsOfUnion(issue: z.core.$ZodIssueInvalidUnion, path: Fault['path'], raw: unknown): Found[] {
  if (issue.errors.length === 0) {
    const value = valueAt(raw, path)
    const choices = ('options' in issue ? (issue.options ?? []) : []).map(String)
    const list = choices.join(', ')
    if (value === undefined)
      return [
        { fault: { path, code: 'missing', detail: `one of ${list} is required here` }, missing: [String(path.at(-1))] },
      ]
    const meant = typeof value === 'string' ? meantName(value, choices) : null
    const hint = meant === null ? `use one of ${list}` : `did you mean "${meant}"? Known values: ${list}`
    return [{ fault: { path, code: 'unknown-value', detail: `${shown(value)} is not known here`, hint } }]
  }
  const fitting = issue.errors.find((issues) => !issues.some(isAboutTheType)) ?? issue.errors[0]!
  return fitting.flatMap((inner) => faultsOfIssue(inner, path, raw))
}

function isAboutTheType(issue: Issue): boolean {
  if (issue.path.length > 0) return false
  if (issue.code === 'invalid_type') return true
  return issue.code === 'custom' && ['wrong-type', 'missing'].includes((issue.params as FaultParams).fault)
}

function unknownField(path: Fault['path'], key: string, known: readonly string[]): Found {
  const meant = meantName(key, known)
  const detail = `${shown(key)} is not a field here`
  const hint = meant === null ? `known fields: ${known.join(', ')}` : `did you mean "${meant}"?`
  return { fault: { path: [...path, key], code: 'unknown-field', detail, hint }, meant }
}

/** A misspelt field is not reported a second time as missing under its right name. */
function withoutMisspelt(found: readonly Found[]): readonly Found[] {
  const misspelt = new Set(
    found.flatMap(({ fault, meant }) => (meant ? [JSON.stringify([...fault.path.slice(0, -1), meant])] : [])),
  )
  if (misspelt.size === 0) return found
  return found.filter(
    ({ fault, missing }) => !missing?.some((name) => misspelt.has(JSON.stringify([...fault.path.slice(0, -1), name]))),
  )
}
