import { z } from '@hono/zod-openapi'
import type {
  Alias,
  AnyValue,
  Field,
  Fields,
  Item,
  JsonSchema,
  OpenItem,
  Rule,
  Shape,
  Variants,
} from '../fields/field.ts'
import type { Read } from '../fields/read.ts'

/*
 * The zod schema of a row, with its OpenAPI description. A schema is made once for each row, and values of
 * the same component share one.
 */

/** Carries a fault's code and hint from a schema to `faultsOf`. */
export interface FaultParams {
  readonly fault: string
  readonly hint?: string | undefined
  /** For a `missing` fault: the names of which one is needed. */
  readonly oneOf?: readonly string[] | undefined
}

type Document = NonNullable<Parameters<z.ZodType['openapi']>[1]>

/**
 * A schema for one value that is neither list nor object. It reads, checks and translates in one step, so that the
 * refusal can say in plain words what was found and what was expected.
 *
 * @param component the component's name in the OpenAPI document
 */
export function leaf<T>(component: string | null, read: (value: unknown) => Read<T>, document: JsonSchema) {
  const schema = z.unknown().transform((value, context): T => {
    const result = read(value)
    if (result.ok) return result.value
    const params: FaultParams = { fault: result.code, hint: result.hint }
    context.issues.push({ code: 'custom', message: result.detail, params, input: value })
    return z.NEVER
  })
  return component === null ? schema.openapi(document as Document) : schema.openapi(component, document as Document)
}

/**
 * An object with these fields and no others. An issue about unknown fields forgets which schema it came from, so its
 * message is the list of the known ones; `faultsOf` turns that into a hint.
 */
export function fields<S extends z.core.$ZodLooseShape>(shape: S) {
  const known = Object.keys(shape).join(' ')
  return z.strictObject(shape, { error: (issue) => (issue.code === 'unrecognized_keys' ? known : undefined) })
}

/** The schema of an item; in its output everything optional is still open. */
export function schemaOf<I extends Item>(item: I): z.ZodType<OpenItem<I>> {
  return schemaFor(item) as z.ZodType<never>
}

/** The parsed value; null where it cannot be read. */
export function readable<I extends Item>(item: I, raw: unknown): OpenItem<I> | null {
  const parsed = schemaFor(item).safeParse(raw)
  return parsed.success ? (parsed.data as never) : null
}

/** The schema of an object whose `opaque` fields are read separately, with more checks: they pass unchanged. */
export function envelopeOf<F extends Fields, K extends keyof F & string>(
  shape: Shape<F>,
  ...opaque: readonly K[]
): z.ZodType<Omit<OpenItem<Shape<F>>, K>> {
  return objectSchema(shape.fields, shape.rules, { opaque }) as z.ZodType<never>
}

function schemaFor(item: Item): z.ZodType {
  const made = schemas.get(item) ?? schemaMade(item)
  schemas.set(item, made)
  return made
}

/** Components that are used only by a `$ref`, by name: the options of values of several shapes. */
export function componentsOf(...items: readonly Item[]): Map<string, z.ZodType> {
  const found = new Map<string, z.ZodType>()
  const look = (item: Item): void => {
    if (item.is === 'variants') {
      for (const option of item.options) {
        // Options distinguished by a word belong to their union's schema.
        if (option.component !== null && item.byWord === undefined) found.set(option.component, schemaFor(option))
        look(option)
      }
    }
    if (item.is === 'shape') for (const row of Object.values(item.fields)) look(row.is === 'value' ? row : row.item)
  }
  for (const item of items) look(item)
  return found
}

const schemas = new WeakMap<object, z.ZodType>()
const leaves = new Map<string, { readonly schema: z.ZodType; readonly says: string }>()

function schemaMade(item: Item): z.ZodType {
  switch (item.is) {
    case 'value':
      return valueSchema(item)
    case 'shape':
      return shapeSchema(item)
    case 'variants':
      return item.byWord === undefined ? variantsSchema(item) : wordsSchema(item, item.byWord)
  }
}

/** Values of one component are read and described in the same way: two that differ cannot share its name. */
function valueSchema({ component, read, document }: AnyValue): z.ZodType {
  if (component === null) return leaf(component, read, document)
  const says = JSON.stringify(document)
  const there = leaves.get(component)
  if (there && there.says !== says) throw new Error(`two values are called ${component} and say different things`)
  if (there) return there.schema
  const schema = leaf(component, read, document)
  leaves.set(component, { schema, says })
  return schema
}

interface ShapeOptions {
  /** The field that is a fixed word, as in `byWord`. */
  readonly literal?: string
  readonly opaque?: readonly string[]
}

function shapeSchema({ component, says, fields: rows, rules }: Shape, options: ShapeOptions = {}): z.ZodType {
  return documented(objectSchema(rows, rules, options), component, says, allRules(rows, rules))
}

function objectSchema(rows: Fields, rules: readonly Rule[], { literal, opaque = [] }: ShapeOptions): z.ZodType {
  const entries = Object.entries(rows).flatMap(([name, row]): [string, z.ZodType][] => {
    if (opaque.includes(name)) return [[name, z.unknown()]]
    if (name === literal) return [[name, z.literal((row as AnyValue).choices![0]!.value)]]
    const aliases = aliasesOf(row)
    const own: [string, z.ZodType] = [name, aliases.length > 0 ? fieldSchema(row).optional() : presentSchema(row)]
    const others = aliases.flatMap(([alias, { field, beside }]) => [
      [alias, field] as const,
      ...(beside ? [[beside.name, beside.field] as const] : []),
    ])
    return [own, ...others.map(([other, field]): [string, z.ZodType] => [other, schemaFor(field).optional()])]
  })
  const object = fields(Object.fromEntries(entries)).check(...allRules(rows, rules).map(check), ...valueChecks(rows))
  return Object.values(rows).some((row) => aliasesOf(row).length > 0) ? object.overwrite(ownNames(rows)) : object
}

function aliasesOf(row: Field): [string, Alias][] {
  return row.is === 'value' ? Object.entries<Alias>(row.aliases ?? {}) : []
}

/** The rules of an object, those of values with several names first. */
function allRules(rows: Fields, rules: readonly Rule[]): readonly Rule[] {
  const named = Object.entries(rows).flatMap(([name, row]): Rule[] => {
    const aliases = aliasesOf(row)
    if (aliases.length === 0) return []
    const names = [name, ...aliases.map(([alias]) => alias)]
    return [
      { rule: row.presence === 'required' ? 'exactly-one' : 'at-most-one', names },
      ...aliases.flatMap(([alias, { beside }]): Rule[] =>
        beside ? [{ rule: 'both-or-neither', names: [alias, beside.name] }] : [],
      ),
    ]
  })
  return [...named, ...rules]
}

function documented(schema: z.ZodType, component: string | null, says: string | undefined, rules: readonly Rule[]) {
  const choices = rules
    .filter(({ rule }) => rule === 'exactly-one')
    .map(({ names }) => ({ oneOf: names.map(requiring) }))
  const document = {
    ...(says !== undefined && { description: says }),
    ...(choices.length === 1 ? choices[0] : choices.length > 1 && { allOf: choices }),
  } as Document
  return component === null ? schema.openapi(document) : schema.openapi(component, document)
}

/** JSON Schema of an object that has this field. */
function requiring(name: string) {
  return { properties: { [name]: {} }, required: [name] }
}

/** Moves values given under another name to the field's own name. */
function ownNames(rows: Fields) {
  const aliased = Object.entries(rows).flatMap(([name, row]) =>
    aliasesOf(row).map(([alias, { beside, value }]) => ({ name, alias, besides: beside?.name ?? '', value })),
  )
  return (value: Record<string, unknown>) => {
    const own = { ...value }
    for (const { name, alias, besides, value: worth } of aliased) {
      const given = own[alias]
      if (given !== undefined) own[name] = typeof given === 'number' ? worth(given, own[besides] as number) : given
      delete own[alias]
      delete own[besides]
    }
    return own
  }
}

/** What follows from two values, each within its own bounds, has to be within those of the field as well. */
function valueChecks(rows: Fields) {
  return Object.values(rows).flatMap((row) =>
    aliasesOf(row).flatMap(([alias, { beside, value }]) => {
      if (!beside) return []
      const check = z.superRefine((object: unknown, context) => {
        const { [alias]: given, [beside.name]: with_ } = object as Record<string, unknown>
        if (typeof given !== 'number' || typeof with_ !== 'number') return
        const read = (row as AnyValue).read(value(given, with_))
        if (read.ok) return
        const params: FaultParams = { fault: read.code, hint: read.hint }
        context.addIssue({ code: 'custom', path: [alias], message: read.detail, params: { ...params } })
      })
      return [check]
    }),
  )
}

/** A field in its object: with its own note, and optional unless it is required. */
function presentSchema(row: Field): z.ZodType {
  const schema = fieldSchema(row)
  const present = row.presence === 'required' ? schema : schema.optional()
  return row.note === undefined ? present : present.openapi({ description: row.note })
}

function fieldSchema(row: Field): z.ZodType {
  switch (row.is) {
    case 'value':
      return schemaFor(row)
    case 'part':
      return schemaFor(row.item)
    case 'list': {
      const list = z.array(schemaFor(row.item)).max(row.most)
      return row.least > 0 ? list.min(row.least) : list
    }
  }
}

/** A plain union would only say that no option fits; here the faults are those of the intended option. */
function variantsSchema({ component, says, pick, options }: Variants): z.ZodType {
  const document = { oneOf: options.map(refTo), ...(says !== undefined && { description: says }) }
  return z
    .unknown()
    .transform((value, context): unknown => {
      const parsed = schemaFor(options[pick(value)]!).safeParse(value)
      if (parsed.success) return parsed.data
      for (const issue of parsed.error.issues)
        context.issues.push({ ...issue, path: [...issue.path], input: value } as never)
      return z.NEVER
    })
    .openapi(component, document as Document)
}

function refTo(option: Item) {
  return { $ref: `#/components/schemas/${option.component}` }
}

function wordsSchema({ component, says, options }: Variants, word: string): z.ZodType {
  const [first, ...rest] = options.map((option) => shapeSchema(option as Shape, { literal: word })) as never[]
  return z.discriminatedUnion(word, [first!, ...rest]).openapi(component, { description: says })
}

function check({ rule, names }: Rule) {
  return rule === 'both-or-neither' ? bothOrNeither(...names) : oneOf(names, rule === 'at-most-one')
}

/** Reported also when the same object has other faults. */
function oneOf(names: readonly string[], optional: boolean) {
  return z.superRefine(
    (value: unknown, context) => {
      if (typeof value !== 'object' || value === null) return
      const given = names.filter((name) => (value as Record<string, unknown>)[name] !== undefined)
      if (given.length === 1 || (given.length === 0 && optional)) return
      const params: FaultParams =
        given.length === 0
          ? { fault: 'missing', hint: `give ${names.join(' or ')}`, oneOf: names }
          : { fault: 'contradictory', hint: 'keep one of them' }
      const message =
        given.length === 0
          ? `neither ${names.join(' nor ')} is given`
          : `${given.length === 2 ? 'both ' : ''}${given.join(' and ')} are given`
      context.addIssue({ code: 'custom', path: [given[0] ?? names[0]!], message, params: { ...params } })
    },
    { when: () => true },
  )
}

/** Two fields that must be given together. */
function bothOrNeither(first: string, second: string) {
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
