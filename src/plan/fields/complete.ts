import type { Field, Fields, Item, Open, Shape, Usual, Whole } from './field.ts'

export type { Assumption } from './assumption.ts'

export type Assume = (field: string, value: string, reason: string) => void

/** For defaults that are not worth an assumption. */
export const SILENT: Assume = () => {}

/**
 * How some fields of an object are completed otherwise than their rows say:
 * - `silent`: the usual value, which has no effect here and so is no assumption
 * - a usual value of this plan
 * - a function that completes the field altogether
 */
export type How<F extends Fields> = {
  readonly [K in keyof F]?:
    | 'silent'
    | Usual<Whole<F>[K]>
    | ((given: Open<F>[K & keyof Open<F>], at: string) => Whole<F>[K])
}

/** The same without types: what the functions below work on. */
type Completion = 'silent' | Usual<unknown> | ((given: never, at: string) => unknown) | undefined

/**
 * Fills in whatever an object leaves open, and says so: a field's usual value is an assumption where its row gives a
 * reason, and what it means anyway where it gives none.
 *
 * @param at the object's place in the plan, a JSON Pointer
 */
export function completed<F extends Fields>(
  shape: Shape<F>,
  given: Open<F>,
  at: string,
  assume: Assume,
  how: How<F> = {},
): Whole<F> {
  return objectCompleted(shape.fields as Fields, given as object, at, assume, how as never) as never
}

/**
 * The same field by field, where the assumptions are listed in another order than the rows: `field` completes one,
 * `whole` those that are left, and gives the object.
 */
export function completing<F extends Fields>(shape: Shape<F>, given: Open<F>, at: string, assume: Assume) {
  const fields: Fields = shape.fields
  const done: Record<string, unknown> = {}
  const complete = <K extends keyof F & string>(name: K, how?: How<F>[K]): Whole<F>[K] => {
    done[name] = namedCompleted(fields, name, given as object, at, assume, how as never)
    return done[name] as never
  }
  return {
    field: complete,
    whole: (): Whole<F> => {
      for (const name of Object.keys(fields)) if (!(name in done)) complete(name)
      return done as never
    },
  }
}

function objectCompleted(
  fields: Fields,
  given: object,
  at: string,
  assume: Assume,
  how: Readonly<Record<string, Completion>> = {},
): object {
  const whole: Record<string, unknown> = {}
  for (const name of Object.keys(fields)) whole[name] = namedCompleted(fields, name, given, at, assume, how[name])
  return whole
}

function namedCompleted(
  fields: Fields,
  name: string,
  given: object,
  at: string,
  assume: Assume,
  how: Completion,
): unknown {
  const field = fields[name]!
  const value = (given as Readonly<Record<string, unknown>>)[name]
  if (typeof how === 'function') return how(value as never, `${at}/${name}`)
  // Most fields are given: nothing is written for them.
  if (value !== undefined && field.is === 'value') return value
  return fieldCompleted(field, value, `${at}/${name}`, how === 'silent' ? SILENT : assume, how)
}

/** What `namedCompleted` leaves: parts, lists, and values that are not given. */
function fieldCompleted(
  field: Field,
  value: unknown,
  at: string,
  assume: Assume,
  own: 'silent' | Usual<unknown> | undefined,
): unknown {
  if (field.is === 'part') {
    if (value !== undefined) return itemCompleted(field.item, value, at, assume)
    return field.always ? objectCompleted((field.item as Shape).fields, {}, at, assume) : null
  }
  if (value !== undefined && field.is === 'list')
    return (value as readonly unknown[]).map((each, index) => itemCompleted(field.item, each, `${at}/${index}`, assume))
  const usual: Usual<unknown> | null = typeof own === 'object' ? own : field.usual
  if (usual === null && field.is === 'value' && field.unknown !== undefined) assume(at, 'unknown', field.unknown)
  if (usual === null) return field.is === 'list' ? [] : null
  if (usual.because !== null)
    assume(at, usual.shown ?? (field.is === 'value' ? field.show(usual.value) : ''), usual.because)
  return usual.value
}

function itemCompleted(item: Item, value: unknown, at: string, assume: Assume): unknown {
  switch (item.is) {
    case 'value':
      return value
    case 'shape':
      return objectCompleted(item.fields, value as object, at, assume)
    case 'variants':
      return itemCompleted(optionOf(item, value), value, at, assume)
  }
}

type Variants = Extract<Item, { is: 'variants' }>

/** The option a value that was read belongs to. */
export function optionOf(item: Variants, value: unknown): Item {
  const { byWord, options, pick } = item
  if (byWord === undefined) return options[pick(value)]!
  let byEach = OPTIONS_BY_WORD.get(item)
  if (!byEach) {
    byEach = new Map(options.map((option) => [wordOf(option, byWord), option]))
    OPTIONS_BY_WORD.set(item, byEach)
  }
  return byEach.get((value as Record<string, unknown>)[byWord])!
}

const OPTIONS_BY_WORD = new WeakMap<Variants, Map<unknown, Item>>()

/** The word of an option: the only value that its field allows. */
function wordOf(option: Item, byWord: string): unknown {
  const field = (option as Shape).fields[byWord]
  return field?.is === 'value' ? field.choices?.[0]?.value : undefined
}
