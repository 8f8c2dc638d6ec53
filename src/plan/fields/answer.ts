import type { Money } from '../../measure/money.ts'

/*
 * What an answer is, written down once, in the room that works it out. From the declaration follow its type (`Answer`),
 * its zod schema and what the OpenAPI document says of it (api/answers/schema.ts), and the columns of tables that show it
 * (paper/columns.ts). Names are those of the JSON answer: the unit is part of the name, nothing is rounded for show.
 */

interface About {
  /** What it means beyond its name, in the OpenAPI document. */
  readonly says?: string | undefined
  /** Heads its column in tables, without the unit of a length. */
  readonly title?: string | undefined
}

/** A sentence for the OpenAPI document, or that and more. */
type Told = string | About

/** What each kind of value is in TypeScript. */
interface ValueTypes {
  number: number
  /** In mm; its name ends in `Mm`. */
  length: number
  count: number
  text: string
  flag: boolean
  money: Money
  /** RFC 3339, UTC. */
  moment: string
  uuid: string
  /** What a client wrote, as it was written. */
  written: Record<string, unknown>
}

type ValueKind = keyof ValueTypes

/** Lists of words that are kept where they are explained. */
export type Vocabulary = 'rules'

export interface ValueAnswer<K extends ValueKind = ValueKind> extends About {
  readonly is: 'value'
  readonly kind: K
  /** Of a number. */
  readonly least?: number | undefined
  /** Of a text, as JSON Schema calls it. */
  readonly format?: string | undefined
  /** Of a text: which words it may be, by the name of their list. */
  readonly vocabulary?: Vocabulary | undefined
  /** Of what a client wrote: the component of the OpenAPI document that it was read as. */
  readonly component?: string | undefined
}

interface WordAnswer<W extends string = string> extends About {
  readonly is: 'word'
  readonly words: readonly W[]
  /** Whether the list may get longer without notice. */
  readonly extensible?: boolean | undefined
}

interface NullableAnswer<D = unknown> extends About {
  readonly is: 'nullable'
  readonly of: D
}

interface ListAnswer<D = unknown> extends About {
  readonly is: 'list'
  readonly of: D
}

/** Something declared elsewhere, with what it means in this place. */
interface PartAnswer<D = unknown> extends About {
  readonly is: 'part'
  readonly of: D
}

interface EitherAnswer<O extends readonly unknown[] = readonly unknown[]> extends About {
  readonly is: 'either'
  readonly options: O
}

export interface ObjectAnswer<F = AnswerFields> extends About {
  readonly is: 'object'
  /** Null: it has no component of its own in the OpenAPI document. */
  readonly component: string | null
  readonly fields: F
  /** The object this is one of, with more to it; its fields are among these. */
  readonly extended?: ObjectAnswer | undefined
}

export type Declared =
  | ValueAnswer
  | WordAnswer
  | NullableAnswer<Declared>
  | ListAnswer<Declared>
  | PartAnswer<Declared>
  | EitherAnswer<readonly Declared[]>
  | ObjectAnswer

/** A field that is left out where there is nothing to say. */
export interface OptionalAnswer<D = Declared> {
  readonly is: 'optional'
  readonly of: D
}

export interface AnswerFields {
  readonly [name: string]: Declared | OptionalAnswer
}

type OptionalNames<F> = { [K in keyof F]: F[K] extends OptionalAnswer<unknown> ? K : never }[keyof F]

type RequiredPart<F> = { [K in Exclude<keyof F, OptionalNames<F>>]: Answer<F[K]> }
type OptionalPart<F> = { [K in OptionalNames<F>]?: F[K] extends OptionalAnswer<infer D> ? Answer<D> : never }

type FieldsOf<F> = RequiredPart<F> & OptionalPart<F> extends infer O ? { [K in keyof O]: O[K] } : never

/** The type of what is declared. */
export type Answer<D> =
  D extends ValueAnswer<infer K>
    ? ValueTypes[K]
    : D extends WordAnswer<infer W>
      ? W
      : D extends NullableAnswer<infer I>
        ? Answer<I> | null
        : D extends ListAnswer<infer I>
          ? Answer<I>[]
          : D extends PartAnswer<infer I>
            ? Answer<I>
            : D extends EitherAnswer<infer O>
              ? Answer<O[number]>
              : D extends ObjectAnswer<infer F>
                ? FieldsOf<F>
                : never

/** The same, of what nobody writes to. */
export type Fixed<T> = T extends readonly (infer I)[]
  ? readonly Fixed<I>[]
  : T extends object
    ? { readonly [K in keyof T]: Fixed<T[K]> }
    : T

function about(told: Told | undefined): About {
  return typeof told === 'string' ? { says: told } : (told ?? {})
}

function value<K extends ValueKind>(kind: K, told: Told | undefined): ValueAnswer<K> {
  return { is: 'value', kind, ...about(told) }
}

/** What is measured, its unit at the end of its name. */
export function number(told?: string | (About & { readonly least?: number })): ValueAnswer<'number'> {
  return value('number', told)
}

/** In mm; its name ends in `Mm`. */
export function length(told?: Told): ValueAnswer<'length'> {
  return value('length', told)
}

/** A whole number; from 0 where no other least is said. */
export function count(told?: string | (About & { readonly least?: number | undefined })): ValueAnswer<'count'> {
  return { least: 0, ...value('count', told) }
}

export function text(
  told?: string | (About & { readonly format?: string; readonly vocabulary?: Vocabulary }),
): ValueAnswer<'text'> {
  return value('text', told)
}

export function flag(told?: Told): ValueAnswer<'flag'> {
  return value('flag', told)
}

/** An amount of money: decimal text with the places of its currency. */
export function money(told?: Told): ValueAnswer<'money'> {
  return value('money', told)
}

export function moment(says = 'Date and time, RFC 3339, UTC.'): ValueAnswer<'moment'> {
  return value('moment', says)
}

export function uuid(told?: Told): ValueAnswer<'uuid'> {
  return value('uuid', told)
}

/** What a client wrote, as it was written; `component`: what it was read as. */
export function written(told?: string | (About & { readonly component?: string })): ValueAnswer<'written'> {
  return value('written', told)
}

/** One of a few words. */
export function word<const L extends readonly string[]>(
  words: L,
  told?: string | (About & { readonly extensible?: boolean }),
): WordAnswer<L[number]> {
  return { is: 'word', words, ...about(told) }
}

export function nullable<D extends Declared>(of: D, told?: Told): NullableAnswer<D> {
  return { is: 'nullable', of, ...about(told) }
}

export function list<D extends Declared>(of: D, told?: Told): ListAnswer<D> {
  return { is: 'list', of, ...about(told) }
}

/** Something declared elsewhere, with what it means in this place. */
export function part<D extends Declared>(of: D, told: Told): PartAnswer<D> {
  return { is: 'part', of, ...about(told) }
}

export function either<const O extends readonly Declared[]>(...options: O): EitherAnswer<O> {
  return { is: 'either', options }
}

/** A field that is left out where there is nothing to say. */
export function optional<D extends Declared>(of: D): OptionalAnswer<D> {
  return { is: 'optional', of }
}

/** An object that is described where it stands. */
export function object<F extends AnswerFields>(fields: F): ObjectAnswer<F> {
  return { is: 'object', component: null, fields }
}

/** An object with a name and a description of its own in the OpenAPI document. */
export function component<F extends AnswerFields>(name: string, says: string, fields: F): ObjectAnswer<F> {
  return { is: 'object', component: name, says, fields }
}

/** An object with all that another has, and more. */
export function extended<B extends AnswerFields, F extends AnswerFields>(
  of: ObjectAnswer<B>,
  name: string,
  says: string,
  fields: F,
): ObjectAnswer<B & F> {
  return { is: 'object', component: name, says, fields: { ...of.fields, ...fields }, extended: of }
}
