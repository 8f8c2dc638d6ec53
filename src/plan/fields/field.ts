import type { Read } from './read.ts'

/*
 * What a field is, written down once. Every field of a plan, of the shed, of a question, of a query is a row made by one
 * of the functions of kinds.ts; from the row follow the zod schema and its OpenAPI text (reading/schema.ts), the types of
 * the plan with everything open and with nothing open (below), completing and its assumptions (complete.ts), and the
 * form's cell with its label and hint (page/form).
 */

/** Keywords of JSON Schema for one value, as they stand in the OpenAPI document. */
export type JsonSchema = Readonly<Record<string, unknown>>

/**
 * Whether a plan has to say it, and what stands where it does not:
 * - `required`: it has to
 * - `usual`: a usual value, which is then an assumption
 * - `follows`: a value that follows from the rest of the plan (worked out in completing/)
 * - `mayFollow`: the same, or nothing
 * - `optional`: nothing
 */
export type Presence = 'required' | 'usual' | 'follows' | 'mayFollow' | 'optional'

export interface Usual<T> {
  readonly value: T
  /** Why this one, for the list of assumptions; null where leaving it out simply means this. */
  readonly because: string | null
  /** As the assumption shows it, where that is not as `show` has it. */
  readonly shown?: string | undefined
}

/** How a field stands in the form. */
export interface Labels {
  /** Of its cell in the form; without one the form carries the field along untouched. */
  readonly label?: string | undefined
  /** How to fill it in. What a blank cell means is added from the usual value. */
  readonly hint?: string | undefined
  /** What a blank cell means, where no usual value says so. */
  readonly blank?: string | undefined
  /** As it is called in sentences, where that is not the label. */
  readonly called?: string | undefined
}

/** What a cell of the form is like. */
export type ValueKind =
  | 'length'
  | 'number'
  | 'count'
  | 'temperature'
  | 'difference'
  | 'price'
  | 'text'
  | 'flag'
  | 'choice'

/** One value: neither list nor object. */
export interface ValueField<T = unknown, P extends Presence = Presence> extends Labels {
  readonly is: 'value'
  readonly kind: ValueKind
  readonly presence: P
  readonly read: (value: unknown) => Read<T>
  /** As people write it. */
  readonly show: (value: T) => string
  readonly usual: Usual<T> | null
  /** What leaving it out leaves unknown, for the list of assumptions. */
  readonly unknown?: string | undefined
  /**
   * The component of the OpenAPI document this value is; fields of the same component read and say the same. Null: it has
   * none of its own.
   */
  readonly component: string | null
  readonly document: JsonSchema
  /** What this field means beyond its component, in the OpenAPI document. */
  readonly note?: string | undefined
  /** The words of a choice, and how the form calls each. */
  readonly choices?: readonly Choice[] | undefined
  /** Other names under which the same value may be given, and what each is worth: a diameter is two radii. */
  readonly aliases?: Readonly<Record<string, Alias>> | undefined
}

export interface Choice {
  readonly value: string
  readonly label: string
}

export interface Alias {
  readonly field: ValueField<number>
  /** What has to be given with it, under a name of its own, such as the chord of a degree. */
  readonly beside?: { readonly name: string; readonly field: ValueField<number> }
  /** The value that follows from a number given under the other name, and from what is given beside it; a word is the value itself. */
  readonly value: (given: number, beside: number) => number
}

/** An object with these fields and no others. */
export interface Shape<F extends Fields = Fields> {
  readonly is: 'shape'
  /** Null: it has no component of its own in the OpenAPI document. */
  readonly component: string | null
  readonly says?: string | undefined
  readonly fields: F
  readonly rules: readonly Rule[]
}

/** Which names of an object go together. */
export type Rule =
  | { readonly rule: 'exactly-one' | 'at-most-one'; readonly names: readonly string[] }
  | { readonly rule: 'both-or-neither'; readonly names: readonly [string, string] }

/**
 * A value that may have several shapes, told apart by a look at it before it is read, so that its faults are those of the
 * shape it was meant to have.
 */
export interface Variants<O extends readonly Item[] = readonly Item[]> {
  readonly is: 'variants'
  readonly component: string
  readonly says?: string | undefined
  /** Which option a value is meant to be. */
  readonly pick: (value: unknown) => number
  readonly options: O
  /** The field that tells them apart by a word of its own, where there is one. */
  readonly byWord?: string | undefined
}

/** A value without a place in an object: its presence and labels are those of the field that holds it. */
export type Item = AnyValue | Shape | Variants

// biome-ignore lint/suspicious/noExplicitAny: reading gives what showing takes, so a field of any value is no field of unknown ones
export type AnyValue = ValueField<any>

/** An object or a value of several shapes as a field. */
export interface PartField<I extends Item = Item, P extends Presence = Presence> extends Labels {
  readonly is: 'part'
  readonly item: I
  readonly presence: P
  /** Completed also where the plan leaves all of it out. */
  readonly always: boolean
  readonly note?: string | undefined
}

export interface ListField<I extends Item = Item, P extends Presence = Presence> extends Labels {
  readonly is: 'list'
  readonly item: I
  readonly presence: P
  readonly least: number
  readonly most: number
  readonly usual: Usual<readonly unknown[]> | null
  readonly note?: string | undefined
  /** What one entry is called. */
  readonly entry?: string | undefined
}

export type Field = AnyValue | PartField | ListField
export type Fields = Readonly<Record<string, Field>>

/*
 * The types that follow. They look at `is` and `presence` alone, which is quick to check, rather than at whole fields.
 */

type OpenOf<X> = X extends { readonly is: 'value'; readonly show: (value: infer T) => string }
  ? T
  : X extends { readonly is: 'part'; readonly item: infer I }
    ? OpenItem<I>
    : X extends { readonly is: 'list'; readonly item: infer I }
      ? readonly OpenItem<I>[]
      : never

/** An item as it was sent, in the program's units, with everything optional still open. */
export type OpenItem<I> = I extends { readonly is: 'value'; readonly show: (value: infer T) => string }
  ? T
  : I extends { readonly is: 'shape'; readonly fields: infer F }
    ? Open<F>
    : I extends { readonly is: 'variants'; readonly options: infer O extends readonly unknown[] }
      ? OpenItem<O[number]>
      : never

type Required = { readonly presence: 'required' }

/** An object as it was sent, in the program's units, with everything optional still open. */
export type Open<F> = {
  readonly [K in keyof F as F[K] extends Required ? K : never]: OpenOf<F[K]>
} & {
  readonly [K in keyof F as F[K] extends Required ? never : K]?: OpenOf<F[K]> | undefined
}

type OrNothing = { readonly presence: 'optional' | 'mayFollow' }

type WholeOf<X> = X extends { readonly is: 'list'; readonly item: infer I }
  ? readonly WholeItem<I>[]
  : X extends { readonly is: 'value'; readonly show: (value: infer T) => string }
    ? X extends OrNothing
      ? T | null
      : T
    : X extends { readonly is: 'part'; readonly item: infer I }
      ? X extends OrNothing
        ? WholeItem<I> | null
        : WholeItem<I>
      : never

/** An item with nothing left open. */
export type WholeItem<I> = I extends { readonly is: 'value'; readonly show: (value: infer T) => string }
  ? T
  : I extends { readonly is: 'shape'; readonly fields: infer F }
    ? Whole<F>
    : I extends { readonly is: 'variants'; readonly options: infer O extends readonly unknown[] }
      ? WholeItem<O[number]>
      : never

/** An object with nothing left open: what it did not say is its usual value, follows from the rest, or is null. */
export type Whole<F> = { readonly [K in keyof F]: WholeOf<F[K]> }
