import { radiusOfDegree } from '../../measure/degree-of-curve.ts'
import { formatMm } from '../../measure/length.ts'
import { type Money, parseMoney } from '../../measure/money.ts'
import {
  formatCelsius,
  formatKelvins,
  type ParsedTemperature,
  parseTemperature,
  parseTemperatureDifference,
} from '../../measure/temperature.ts'
import {
  type Bounds,
  COORDINATE,
  DIAMETER,
  LENGTH,
  LENGTH_OR_ZERO,
  LENGTH_TEXT,
  rangeKeywords,
  readLength,
  within,
} from './bounds.ts'
import type {
  Alias,
  Choice,
  Fields,
  Item,
  JsonSchema,
  Labels,
  ListField,
  PartField,
  Presence,
  Rule,
  Shape,
  Usual,
  ValueField,
  ValueKind,
  Variants,
} from './field.ts'
import { accepted, notA, type Read, refused, shown } from './read.ts'
import { readChoice, readText } from './words.ts'

/** What is said of a field besides its kind. */
interface Spec<T> extends Labels {
  readonly required?: true
  readonly usual?: T
  /** Why that is the usual value. */
  readonly because?: string
  /** Without a usual value: what leaving it out leaves unknown, for the list of assumptions. */
  readonly unknown?: string
  /** What it follows from, as the form says of a blank cell. */
  readonly follows?: string
  readonly mayFollow?: string
  readonly component?: string
  /** Of the component, in the OpenAPI document; no full stop at its end. */
  readonly says?: string
  /** Of this field alone, in the OpenAPI document. */
  readonly note?: string
  /** How an assumption shows its usual value. */
  readonly shown?: string
}

type PresenceOf<S> = S extends { readonly required: true }
  ? 'required'
  : S extends { readonly usual: unknown }
    ? 'usual'
    : S extends { readonly follows: string }
      ? 'follows'
      : S extends { readonly mayFollow: string }
        ? 'mayFollow'
        : 'optional'

function presenceOf(spec: Spec<unknown>): Presence {
  if (spec.required) return 'required'
  if (spec.usual !== undefined) return 'usual'
  if (spec.follows !== undefined) return 'follows'
  return spec.mayFollow === undefined ? 'optional' : 'mayFollow'
}

function labelsOf({ label, hint, blank, called, follows, mayFollow }: Spec<unknown>): Labels {
  return { label, hint, blank: blank ?? follows ?? mayFollow, called }
}

interface ValueParts<T> {
  readonly kind: ValueKind
  readonly component: string
  readonly read: (value: unknown) => Read<T>
  readonly show: (value: T) => string
  /** Without its description. */
  readonly document: JsonSchema
  /** Follows the description. */
  readonly grammar?: string
  readonly choices?: readonly Choice[]
}

function valueField<T, S extends Spec<T>>(spec: S, parts: ValueParts<T>): ValueField<T, PresenceOf<S>> {
  const { usual: value, because, says, note, shown: shownAs, component } = spec
  const usual: Usual<T> | null = value === undefined ? null : { value, because: because ?? null, shown: shownAs }
  const isSaid = says === undefined || says.includes('when left out')
  const whenOpen =
    usual && component !== undefined && !isSaid ? `; ${inDocument(usual.value, parts)} when left out` : ''
  const description = [says && `${says}${whenOpen}.`, parts.grammar].filter(Boolean).join(' ')
  return {
    is: 'value',
    kind: parts.kind,
    presence: presenceOf(spec) as PresenceOf<S>,
    read: parts.read,
    show: parts.show,
    usual,
    component: component ?? parts.component,
    document: description === '' ? parts.document : { ...parts.document, description },
    choices: parts.choices,
    unknown: spec.unknown,
    note,
    ...labelsOf(spec),
  }
}

/** A plain number as it is written in JSON, what has a unit in its text as people write it. */
function inDocument<T>(value: T, { kind, show }: ValueParts<T>): string {
  return kind === 'number' ? String(value) : show(value)
}

const LENGTH_GRAMMAR =
  'A number is millimetres; a text has its unit: "8 ft", "7 ft 6 in", "7\' 6-1/2\\"", "6 1/2 in", "2.4 m", "45mm", "30 cm".'

const LENGTH_KINDS = {
  length: { component: 'Length', bounds: LENGTH, says: 'A length above zero' },
  'zero or more': { component: 'LengthOrZero', bounds: LENGTH_OR_ZERO, says: 'A length of zero or more' },
  'of either sign': { component: 'Coordinate', bounds: COORDINATE, says: 'A length, positive or negative' },
} as const

/** A length, mm. `may`: zero or less are allowed too. */
export function length<const S extends Spec<number> & { readonly may?: 'zero or more' | 'of either sign' }>(
  spec: S,
): ValueField<number, PresenceOf<S>> {
  const { component, bounds, says } = LENGTH_KINDS[spec.may ?? 'length']
  return lengthWithin({ ...spec, says: spec.component === undefined ? says : spec.says }, component, bounds)
}

function lengthWithin<S extends Spec<number>>(spec: S, component: string, bounds: Bounds) {
  return valueField<number, S>(spec, {
    kind: 'length',
    component,
    read: (value) => readLength(value, bounds),
    show: (mm) => formatMm(mm, 4),
    document: {
      type: ['number', 'string'],
      ...rangeKeywords(bounds),
      maxLength: LENGTH_TEXT,
      example: '7 ft 6-1/2 in',
    },
    grammar: LENGTH_GRAMMAR,
  })
}

/** The size of a curve of the centre line: its radius, mm, or the diameter that the trade quotes. */
export function radiusOrDiameter<const S extends Spec<number>>(spec: S): ValueField<number, PresenceOf<S>> {
  return { ...length(spec), aliases: { diameter: { field: diameter, value: (mm) => mm / 2 } } }
}

/** The size of a curve that may also be given by its degree with the chord that it is of. */
export function orDegree<V, P extends Presence>(size: ValueField<V, P>): ValueField<V, P> {
  return { ...size, aliases: { ...size.aliases, degree: { field: degree, beside: CHORD, value: radiusOfDegree } } }
}

const degree = number({
  component: 'DegreeOfCurve',
  least: 1e-6,
  most: 180,
  outside: 'the degree is the angle at the centre over its chord, at most 180°, where the chord is the diameter',
  unit: 'in degrees',
  says: 'Degree of curve by the chord definition of railways: the angle at the centre over the chord that is given with it, degrees; the radius is chord / (2·sin(degree/2))',
})

const CHORD = {
  name: 'chord',
  field: length({
    component: 'ChordOfDegree',
    says: 'The chord over which the degree of a curve is given. There is no usual one: the 100 ft of railways do not fit into curves of a garden',
    label: 'Chord of the degree',
    called: 'chord of the degree',
  }),
}

const diameter = lengthWithin({ says: 'Diameter of a curve' } as Spec<number>, 'Diameter', DIAMETER)

/** The same value under another name. */
export function alsoCalled(field: ValueField<number>, times = 1): Alias {
  return { field, value: (given) => given * times }
}

interface NumberSpec extends Spec<number> {
  readonly least: number
  readonly most: number
  /** What to do about a value out of bounds. */
  readonly outside?: string
  /** How a person would say it, such as "in degrees". */
  readonly unit: string
  /** How the value is shown: "%", " V", "°". */
  readonly sign?: string
}

export function number<const S extends NumberSpec>(spec: S): ValueField<number, PresenceOf<S>> {
  const { least, most, unit, outside, sign = '' } = spec
  const bounds = { least, most, ...(outside !== undefined && { hint: outside }) }
  return valueField<number, S>(spec, {
    kind: 'number',
    component: 'Number',
    read: (value) => {
      if (typeof value === 'number') return within(value, bounds, String)
      const hint = typeof value === 'string' ? `write the number alone, ${unit}, without quotes` : undefined
      return notA('a number', value, hint)
    },
    show: (value) => `${value}${sign}`,
    document: { type: 'number', ...rangeKeywords(bounds) },
  })
}

/** What stands for a number that is to be worked out. */
export const FIT = 'fit'

/** A number, or the word that leaves it to be worked out. `component`: the name of both together. */
export function orFit<P extends Presence>(
  field: ValueField<number, P>,
  component: string,
): ValueField<number | typeof FIT, P> {
  const { document, aliases } = field
  const isText = Array.isArray(document.type)
  return {
    ...field,
    component,
    ...(aliases && { aliases: aliasesOrFit(aliases) }),
    read: (value) => (value === FIT ? accepted(FIT) : field.read(value)),
    show: (value) => (value === FIT ? FIT : field.show(value)),
    usual: null,
    document: {
      ...document,
      ...(!isText && { type: ['number', 'string'], pattern: `^${FIT}$` }),
      description: `${String(document.description)} "${FIT}" leaves it to be worked out, so that the track comes to where it must end.`,
    },
  }
}

/** The same under other names; to those who ask an alias for its number the word is none. */
function aliasesOrFit(aliases: Readonly<Record<string, Alias>>): Record<string, Alias> {
  const entries = Object.entries(aliases).map(([name, alias]): [string, Alias] => {
    const either: unknown = orFit(alias.field, `${alias.field.component}OrFit`)
    return [name, { ...alias, field: either as Alias['field'] }]
  })
  return Object.fromEntries(entries)
}

interface CountSpec extends Spec<number> {
  readonly least: number
  readonly most: number
}

/** A whole number in bounds. */
export function count<const S extends CountSpec>(spec: S): ValueField<number, PresenceOf<S>> {
  const bounds = { least: spec.least, most: spec.most }
  return valueField<number, S>(spec, {
    kind: 'count',
    component: 'Count',
    read: (value) => {
      if (typeof value !== 'number') return notA('a whole number', value)
      if (!Number.isInteger(value)) return refused('wrong-type', `${value} is not a whole number`)
      return within(value, bounds, String)
    },
    show: String,
    document: { type: 'integer', ...rangeKeywords(bounds) },
  })
}

interface TextSpec extends Spec<string> {
  readonly longest: number
}

export function text<const S extends TextSpec>(spec: S): ValueField<string, PresenceOf<S>> {
  const { longest } = spec
  return valueField<string, S>(spec, {
    kind: 'text',
    component: 'Text',
    read: (value) => readText(value, 'a text', longest),
    show: String,
    document: { type: 'string', maxLength: longest },
  })
}

/** A text with something to read in it. */
export function name<const S extends TextSpec>(spec: S): ValueField<string, PresenceOf<S>> {
  const { longest } = spec
  return valueField<string, S>(spec, {
    kind: 'text',
    component: 'Name',
    read: (value) => {
      const read = readText(value, 'a name', longest)
      if (read.ok && read.value.trim() === '') return refused('missing', 'the name is empty', 'give it a name')
      return read
    },
    show: String,
    document: { type: 'string', minLength: 1, maxLength: longest, pattern: String.raw`\S` },
  })
}

export function flag<const S extends Spec<boolean>>(spec: S): ValueField<boolean, PresenceOf<S>> {
  return valueField<boolean, S>(
    { ...spec, says: 'Yes or no' },
    {
      kind: 'flag',
      component: 'Flag',
      read: (value) => (typeof value === 'boolean' ? accepted(value) : notA('true or false', value)),
      show: String,
      document: { type: 'boolean' },
    },
  )
}

interface ChoiceSpec<T extends string> extends Spec<T> {
  /** Each word with what the form calls it; as a list where words are numbers, whose order an object would not keep. */
  readonly words: Readonly<Record<T, string>> | readonly (readonly [T, string])[]
  /** What a word of it is: "an effort". */
  readonly what: string
  /** The same word spelt otherwise. */
  readonly spellings?: Readonly<Record<string, T>>
}

type WordOf<W> = W extends readonly (readonly [infer T extends string, string])[] ? T : keyof W & string

/** One of a few words. */
export function choice<T extends string, const S extends ChoiceSpec<T>>(
  spec: S & ChoiceSpec<T>,
): ValueField<WordOf<S['words']>, PresenceOf<S>> {
  type Word = WordOf<S['words']>
  const words = (Array.isArray(spec.words) ? spec.words : Object.entries(spec.words)) as [Word, string][]
  const spellings: Readonly<Record<string, string>> = spec.spellings ?? {}
  const known = [...words.map(([word]) => word), ...Object.keys(spellings)]
  return valueField<Word, Spec<Word> & S>(spec as unknown as Spec<Word> & S, {
    kind: 'choice',
    component: 'Choice',
    read: (value) => {
      const read = readChoice(value, known, spec.what)
      return read.ok ? accepted((spellings[read.value] ?? read.value) as Word) : read
    },
    show: String,
    document: { type: 'string', enum: known },
    choices: words.map(([value, label]) => ({ value, label })),
  }) as ValueField<Word, PresenceOf<S>>
}

/** Money, as a decimal text or a number. */
export function price<const S extends Spec<Money>>(spec: S): ValueField<Money, PresenceOf<S>> {
  const { component = 'Price', says = 'The price of one pack' } = spec
  return valueField<Money, S>(
    { ...spec, component: undefined, says: `${says}, a decimal with at most the places of its currency, two for most` },
    {
      kind: 'price',
      component,
      read: (value) => {
        if (typeof value !== 'string' && typeof value !== 'number') return notA('a price', value, 'write it as "14.50"')
        const parsed = parseMoney(value)
        return parsed.ok ? accepted(parsed.money) : refused('bad-price', parsed.reason, parsed.hint)
      },
      show: String,
      document: {
        type: ['string', 'number'],
        minimum: 0,
        maximum: 1_000_000_000,
        pattern: String.raw`^\s*\d+(\.\d+)?\s*$`,
        example: '14.50',
      },
    },
  )
}

/** Three capital letters, ISO 4217. */
export function currency<const S extends Spec<string>>(spec: S): ValueField<string, PresenceOf<S>> {
  return valueField<string, S>(spec, {
    kind: 'text',
    component: 'Currency',
    read: (value) => {
      const hint = 'write its three capital letters (ISO 4217), such as "USD"'
      if (typeof value !== 'string') return notA('a currency', value, hint)
      return /^[A-Z]{3}$/.test(value)
        ? accepted(value)
        : refused('unknown-value', `${shown(value)} is not a currency code`, hint)
    },
    show: String,
    document: { type: 'string', pattern: '^[A-Z]{3}$', example: 'EUR' },
  })
}

const TEMPERATURE_TEXT = 30

/** Of places where somebody gardens, with room; °C. */
export function temperature<const S extends Spec<number>>(spec: S): ValueField<number, PresenceOf<S>> {
  return degrees(
    {
      ...spec,
      says: 'A temperature. A number is °C; a text has its unit: "85 F", "30 C"',
    },
    {
      kind: 'temperature',
      component: 'Temperature',
      what: 'a temperature',
      bounds: { least: -90, most: 150, hint: 'a number is °C; write "85 F" for Fahrenheit' },
      parse: parseTemperature,
      show: formatCelsius,
      example: '85 F',
    },
  )
}

/** A difference of temperatures, kelvins. */
export function temperatureDifference<const S extends Spec<number>>(spec: S): ValueField<number, PresenceOf<S>> {
  return degrees(spec, {
    kind: 'difference',
    component: 'TemperatureDifference',
    what: 'a difference of temperatures',
    bounds: { least: 0, most: 100, hint: 'a number is kelvins; write "36 F" for degrees Fahrenheit' },
    parse: parseTemperatureDifference,
    show: formatKelvins,
    example: '36 F',
    grammar: 'A number is kelvins; a text has its unit: "20 K", "36 F".',
  })
}

function degrees<S extends Spec<number>>(
  spec: S,
  {
    kind,
    component,
    what,
    bounds,
    parse,
    show,
    example,
    grammar,
  }: {
    readonly kind: ValueKind
    readonly component: string
    readonly what: string
    readonly bounds: Bounds
    readonly parse: (text: string) => ParsedTemperature
    readonly show: (value: number) => string
    readonly example: string
    readonly grammar?: string
  },
) {
  return valueField<number, S>(spec, {
    kind,
    component,
    read: (value) => {
      if (typeof value === 'number') return within(value, bounds, show)
      if (typeof value !== 'string') return notA(what, value, bounds.hint)
      if (value.length > TEMPERATURE_TEXT)
        return refused('too-long', `${what} of ${value.length} characters`, 'write for example "85 F"')
      const parsed = parse(value)
      return parsed.ok ? within(parsed.value, bounds, show) : refused('bad-temperature', parsed.reason, parsed.hint)
    },
    show,
    document: { type: ['number', 'string'], ...rangeKeywords(bounds), maxLength: TEMPERATURE_TEXT, example },
    ...(grammar !== undefined && { grammar }),
  })
}

/** Null, or left out: what an answer says where there is none, so that an answer can be sent back. */
export const nothing: ValueField<null, 'optional'> = {
  is: 'value',
  kind: 'text',
  presence: 'optional',
  component: null,
  read: (value) =>
    value === null ? accepted(null) : refused('wrong-type', `found ${shown(value)} where null is expected`),
  show: () => 'none',
  usual: null,
  document: { type: 'null' },
}

/** A value that may be null, which stands for none. */
export function nullable<T, P extends Presence>(
  field: ValueField<T, P>,
  { component, document }: { readonly component: string; readonly document: JsonSchema },
): ValueField<T | null, P> {
  return {
    ...field,
    component,
    document,
    read: (value) => (value === null ? accepted(null) : field.read(value)),
    show: (value) => (value === null ? 'none' : field.show(value)),
    usual: null,
  }
}

/** An object with these fields and no others. */
export function shape<const F extends Fields>(
  component: string | null,
  says: string | undefined,
  fields: F,
  ...rules: readonly Rule[]
): Shape<F> {
  return { is: 'shape', component, says, fields, rules }
}

/** Of these names for the same thing exactly one is given. */
export function exactlyOneOf(...names: readonly string[]): Rule {
  return { rule: 'exactly-one', names }
}

export function atMostOneOf(...names: readonly string[]): Rule {
  return { rule: 'at-most-one', names }
}

/** Two fields that mean something only together. */
export function bothOrNeither(first: string, second: string): Rule {
  return { rule: 'both-or-neither', names: [first, second] }
}

/** A value of several shapes, told apart before it is read. */
export function variants<const O extends readonly Item[]>(
  component: string,
  options: O,
  pick: (value: unknown) => number,
  says?: string,
): Variants<O> {
  return { is: 'variants', component, options, pick, says }
}

/** Objects told apart by a word in one of their fields, each option's only choice there. */
export function byWord<const O extends readonly Shape[]>(
  component: string,
  field: string,
  options: O,
  says?: string,
): Variants<O> {
  return { is: 'variants', component, options, pick: () => 0, byWord: field, says }
}

/** The field that `byWord` tells an object by: its one word, and what the form calls the word and the field. */
export function only<const W extends string>(word: W, called: string, label: string): ValueField<W, 'required'> {
  const field = choice({ required: true, words: [[word, called]], what: 'a kind', label })
  return field as unknown as ValueField<W, 'required'>
}

interface PartSpec extends Spec<never> {
  /** Completed also where the plan leaves all of it out. */
  readonly always?: true
}

type PartPresence<S> = S extends { readonly always: true } ? 'follows' : PresenceOf<S>

/** An object, or a value of several shapes, as a field of another. */
export function part<const I extends Item, const S extends PartSpec>(item: I, spec: S): PartField<I, PartPresence<S>> {
  const presence = spec.always ? 'follows' : presenceOf(spec)
  return {
    is: 'part',
    item,
    presence: presence as PartPresence<S>,
    always: spec.always ?? false,
    note: spec.note,
    ...labelsOf(spec),
  }
}

interface ListSpec extends Spec<readonly unknown[]> {
  readonly least?: number
  readonly most: number
  readonly entry?: string
}

export function list<const I extends Item, const S extends ListSpec>(item: I, spec: S): ListField<I, PresenceOf<S>> {
  const { usual: value, because = null, shown: shownAs, least = 0, most, entry, note } = spec
  return {
    is: 'list',
    item,
    presence: presenceOf(spec) as PresenceOf<S>,
    least,
    most,
    usual: value === undefined ? null : { value, because, shown: shownAs },
    entry,
    note,
    ...labelsOf(spec),
  }
}
