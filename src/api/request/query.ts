import { z } from '@hono/zod-openapi'
import { type Bounds, LENGTH_TEXT, rangeKeywords, readLength, within } from '../../plan/fields/bounds.ts'
import type { ValueField } from '../../plan/fields/field.ts'
import { accepted, type Read, refused, shown } from '../../plan/fields/read.ts'
import { readChoice } from '../../plan/fields/words.ts'
import { fields, leaf } from '../../plan/reading/schema.ts'

/*
 * Query parameters arrive as text, and as a list of texts if one is repeated.
 */

const Refresh = z
  .unknown()
  .optional()
  .openapi({
    type: 'string',
    param: { description: 'Accepted and ignored. A spreadsheet changes it to fetch again.' },
  })

/** The query parameters of an endpoint. Others are refused, except `refresh`. */
export function query<Shape extends z.core.$ZodLooseShape>(shape: Shape) {
  const schema = fields({ ...shape, refresh: Refresh })
  // The validator calls the asynchronous method, which is several times slower; nothing here needs it.
  schema.safeParseAsync = async (value, params) => schema.safeParse(value, params)
  return schema
}

/** A parameter that is given at most once. */
function single<T>(read: (text: string) => Read<T>): (value: unknown) => Read<T> {
  return (value) => {
    if (value == null) return refused('missing', 'this parameter is required')
    if (Array.isArray(value)) return refused('repeated-parameter', `it is given ${value.length} times`, 'give it once')
    return read(String(value))
  }
}

const PLAIN_DECIMAL = /^(?:\d+(?:\.\d+)?|\.\d+)$/
const SIGNED_DECIMAL = /^-?(?:\d+(?:\.\d+)?|\.\d+)$/

/** A length in a query, mm: a number without a unit is millimetres; a space before the unit is optional. */
function readLengthText(text: string, bounds: Bounds): Read<number> {
  return readLength(SIGNED_DECIMAL.test(text) ? Number(text) : text, bounds)
}

export function lengthParameter(name: string, bounds: Bounds) {
  return leaf(
    name,
    single((text) => readLengthText(text, bounds)),
    { type: 'string', maxLength: 60 },
  )
}

/** A parameter that may be repeated. */
export function lengthsParameter(name: string, bounds: Bounds, most: number) {
  const read = (value: unknown): Read<number[]> => {
    const texts = Array.isArray(value) ? value : [value]
    if (texts.length > most)
      return refused('too-many', `it is given ${texts.length} times; at most ${most} times is allowed`)
    const lengths: number[] = []
    for (const text of texts) {
      const length = readLengthText(String(text), bounds)
      if (!length.ok) return length
      lengths.push(length.value)
    }
    return accepted(lengths)
  }
  return leaf(name, read, {
    type: 'array',
    items: { type: 'string', maxLength: 60 },
    maxItems: most,
    example: ['300', '500'],
  })
}

export function choiceParameter<T extends string>(name: string, choices: readonly T[], what: string) {
  return leaf(
    name,
    single((text) => readChoice(text, choices, what)),
    { type: 'string', enum: [...choices] },
  )
}

/** A parameter with names and commas between them, of no more characters than all of them need. */
export function namesParameter<T extends string>(
  component: string,
  names: readonly T[],
  {
    what,
    longest,
    example,
    description,
  }: {
    readonly what: string
    readonly longest: number
    readonly example: readonly T[]
    readonly description: string
  },
) {
  return leaf(component, readNames(names, what, longest), {
    type: 'array',
    items: { type: 'string', enum: [...names] },
    example: [...example],
  })
    .optional()
    .openapi({ param: { style: 'form', explode: false, description } })
}

function readNames<T extends string>(
  names: readonly T[],
  what: string,
  longest: number,
): (value: unknown) => Read<T[]> {
  return (value) => {
    if (Array.isArray(value))
      return refused('repeated-parameter', `it is given ${value.length} times`, 'write the names with commas between')
    const text = String(value)
    if (text.length > longest)
      return refused('too-long', `it has ${text.length} characters; at most ${longest} are allowed`)
    const found: T[] = []
    for (const each of text.split(',')) {
      const name = readChoice(each.trim(), names, what)
      if (!name.ok) return name
      found.push(name.value)
    }
    return accepted(found)
  }
}

export function textParameter(name: string, longest: number) {
  const read = (text: string): Read<string> =>
    text.length > longest
      ? refused('too-long', `it has ${text.length} characters; at most ${longest} are allowed`)
      : accepted(text)
  return leaf(name, single(read), { type: 'string', maxLength: longest })
}

function readCount(text: string, bounds: Bounds): Read<number> {
  return /^\d+$/.test(text)
    ? within(Number(text), bounds, String)
    : refused('bad-number', `${shown(text)} is not a whole number`, 'write digits only')
}

/** A count that may be repeated. */
export function countsParameter(name: string, bounds: Bounds, most: number) {
  const read = (value: unknown): Read<number[]> => {
    const texts = Array.isArray(value) ? value : [value]
    if (texts.length > most)
      return refused('too-many', `it is given ${texts.length} times; at most ${most} times is allowed`)
    const counts: number[] = []
    for (const text of texts) {
      const count = readCount(String(text), bounds)
      if (!count.ok) return count
      counts.push(count.value)
    }
    return accepted(counts)
  }
  return leaf(name, read, {
    type: 'array',
    items: { type: 'integer', ...rangeKeywords(bounds) },
    maxItems: most,
    example: [1],
  })
}

export function countParameter(name: string, bounds: Bounds) {
  return leaf(
    name,
    single((text) => readCount(text, bounds)),
    { type: 'integer', ...rangeKeywords(bounds) },
  )
}

export function numberParameter(name: string, bounds: Bounds) {
  const read = (text: string): Read<number> =>
    SIGNED_DECIMAL.test(text)
      ? within(Number(text), bounds, String)
      : refused('bad-number', `${shown(text)} is not a number`, 'write digits, with a point for decimals')
  return leaf(name, single(read), { type: 'number', ...rangeKeywords(bounds) })
}

/** A text that is read later; a number without a unit is passed on as a number. */
export function numberOrTextParameter(name: string, longest: number) {
  const read = (text: string): Read<string | number> => {
    if (SIGNED_DECIMAL.test(text)) return accepted(Number(text))
    return text.length > longest
      ? refused('too-long', `it has ${text.length} characters; at most ${longest} are allowed`)
      : accepted(text)
  }
  return leaf(name, single(read), { type: 'string', maxLength: longest })
}

/**
 * A parameter that stands for a field and is checked as that field is; for a length, a number without a unit is
 * millimetres. Optional unless the field is required.
 *
 * @param component the parameter's name in the OpenAPI document
 * @param description instead of the field's own
 */
export function parameterOf<T>(component: string, field: ValueField<T>, description?: string, example?: string) {
  const asNumber = field.kind !== 'text' && field.kind !== 'choice' && field.kind !== 'price'
  const read = (text: string) => field.read(asNumber && PLAIN_DECIMAL.test(text) ? Number(text) : text)
  const { description: own, type: _, minimum, maximum, example: __, ...keywords } = field.document
  const range = field.kind === 'length' ? { maxLength: LENGTH_TEXT } : { minimum, maximum }
  const schema = leaf<T>(component, single(read), { ...keywords, ...range, type: 'string' })
  const about = { param: { description: description ?? String(own ?? ''), example } }
  return field.presence === 'required' ? schema.openapi(about) : schema.optional().openapi(about)
}
