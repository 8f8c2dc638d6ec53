import type { Fault } from '../../measure/fault.ts'
import { accepted, type Read, refused } from '../../plan/fields/read.ts'
import { leaf } from '../../plan/reading/schema.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import type { FaultCode } from '../fault-catalogue.ts'
import type { ParameterFault } from '../problem.ts'
import { choiceParameter } from './query.ts'

/*
 * Rail, supplies and rules of a plan as query parameters, for tracks that are sent without a plan. Each stands for one
 * field of a plan and is checked as that field is, so that there is one set of rules.
 */

type Place = readonly (string | number)[]

/** `text`: unchanged; `measure`: a number without a unit is millimetres; `count`: a number. */
interface Meaning {
  readonly place: Place
  readonly as: 'text' | 'measure' | 'count'
  readonly description: string
}

const ONE_OF_A_KIND = {
  gauge: {
    place: ['gauge'],
    as: 'measure',
    description: 'Distance between the inner faces of the rail heads; 45 mm when left out.',
  },
  section: { place: ['rail', 'section'], as: 'text', description: 'Rail section, by its code.' },
  material: { place: ['rail', 'material'], as: 'text', description: 'Material of the rail.' },
  temper: { place: ['rail', 'temper'], as: 'text', description: 'Temper of the material.' },
  kerf: { place: ['supplies', 'kerf'], as: 'measure', description: 'Width of a saw cut; 1 mm when left out.' },
  minimumPiece: {
    place: ['supplies', 'minimumPiece'],
    as: 'measure',
    description: 'Length of the shortest piece of rail to lay; 150 mm when left out.',
  },
  joinerPack: {
    place: ['supplies', 'joiners', 'packSize'],
    as: 'count',
    description: 'Rail joiners in a pack; 1 when left out.',
  },
  joinerPrice: {
    place: ['supplies', 'joiners', 'pricePerPack'],
    as: 'text',
    description: 'Price of a pack of joiners.',
  },
  tieSpacing: {
    place: ['supplies', 'ties', 'spacing'],
    as: 'measure',
    description: 'Tie spacing, centre to centre; 45 mm when left out.',
  },
  tiePack: { place: ['supplies', 'ties', 'packSize'], as: 'count', description: 'Ties in a pack; 1 when left out.' },
  tiePrice: { place: ['supplies', 'ties', 'pricePerPack'], as: 'text', description: 'Price of a pack of ties.' },
  fastenersPerTie: {
    place: ['supplies', 'ties', 'fastenersPerTie'],
    as: 'count',
    description: 'Fasteners in each tie; 4 when left out.',
  },
  fastenerPack: {
    place: ['supplies', 'fasteners', 'packSize'],
    as: 'count',
    description: 'Fasteners in a pack; 1 when left out.',
  },
  fastenerPrice: {
    place: ['supplies', 'fasteners', 'pricePerPack'],
    as: 'text',
    description: 'Price of a pack of fasteners.',
  },
  currency: {
    place: ['supplies', 'currency'],
    as: 'text',
    description: 'Currency of all prices, a code of three letters (ISO 4217); USD when left out.',
  },
  longestCar: {
    place: ['standards', 'longestCar'],
    as: 'measure',
    description:
      'Length of the longest car, on which the rules for curves depend. They are not checked against it when left out.',
  },
  minimumRadius: {
    place: ['standards', 'minimumRadius'],
    as: 'measure',
    description: 'Smallest radius allowed; three times the longest car when left out.',
  },
  name: { place: ['tracks', 0, 'name'], as: 'text', description: 'Name of the track; "track" when left out.' },
} as const satisfies Record<string, Meaning>

const OF_STICKS = {
  stick: {
    place: ['length'],
    as: 'measure',
    description:
      'Length of a stick that can be bought; may be repeated. One stick of 5 ft without a price when left out.',
  },
  stickPrice: {
    place: ['price'],
    as: 'text',
    description: 'Price of a stick, or of a pack where stickPack is given; one for each stick, in the same order.',
  },
  stickPack: {
    place: ['packSize'],
    as: 'count',
    description: 'Sticks in a pack; one for each stick, in the same order. 1 when left out.',
  },
} as const satisfies Record<string, Meaning>

const LONGEST = 100

const once = (value: unknown): Read<string> => {
  if (Array.isArray(value)) return refused('repeated-parameter', `it is given ${value.length} times`, 'give it once')
  const text = String(value)
  return text.length > LONGEST
    ? refused('too-long', `it has ${text.length} characters; at most ${LONGEST} are allowed`)
    : accepted(text)
}

const repeated = (value: unknown): Read<string[]> => {
  const texts = (Array.isArray(value) ? value : [value]).map(String)
  return texts.length > LIMITS.stickLengths
    ? refused('too-many', `it is given ${texts.length} times; at most ${LIMITS.stickLengths} times is allowed`)
    : accepted(texts)
}

const described = ({ description }: Meaning) => ({ param: { description } })

const single = (name: keyof typeof ONE_OF_A_KIND) =>
  leaf(`${name}Text`, once, { type: 'string', maxLength: LONGEST }).optional().openapi(described(ONE_OF_A_KIND[name]))
const list = (name: keyof typeof OF_STICKS) =>
  leaf(`${name}Texts`, repeated, { type: 'array', items: { type: 'string' }, maxItems: LIMITS.stickLengths })
    .optional()
    .openapi(described(OF_STICKS[name]))

/** The query parameters, for `query({ …, ...PLAN_QUERY })`. */
export const PLAN_QUERY = {
  gauge: single('gauge'),
  section: single('section'),
  material: single('material'),
  temper: single('temper'),
  stick: list('stick'),
  stickPrice: list('stickPrice'),
  stickPack: list('stickPack'),
  kerf: single('kerf'),
  minimumPiece: single('minimumPiece'),
  joinerPack: single('joinerPack'),
  joinerPrice: single('joinerPrice'),
  tieSpacing: single('tieSpacing'),
  tiePack: single('tiePack'),
  tiePrice: single('tiePrice'),
  fastenersPerTie: single('fastenersPerTie'),
  fastenerPack: single('fastenerPack'),
  fastenerPrice: single('fastenerPrice'),
  currency: single('currency'),
  longestCar: single('longestCar'),
  minimumRadius: single('minimumRadius'),
  name: single('name'),
  closed: choiceParameter('ClosedParameter', ['yes', 'no'], 'a choice')
    .optional()
    .openapi({ param: { description: 'yes: the track is a closed loop, its end joins its start. no when left out.' } }),
  start: choiceParameter('StartParameter', ['joined', 'free'], 'a choice')
    .optional()
    .openapi({ param: { description: 'joined: the track starts at track that is already laid. free when left out.' } }),
  end: choiceParameter('EndParameter', ['joined', 'free'], 'a choice')
    .optional()
    .openapi({ param: { description: 'joined: the track ends at track that is already laid. free when left out.' } }),
}

type Single = keyof typeof ONE_OF_A_KIND
type OfSticks = keyof typeof OF_STICKS

/** The values of such a query. */
export type PlanQuery = { readonly [K in Single]?: string | undefined } & {
  readonly [K in OfSticks]?: readonly string[] | undefined
} & {
  readonly closed?: 'yes' | 'no' | undefined
  readonly start?: 'joined' | 'free' | undefined
  readonly end?: 'joined' | 'free' | undefined
}

/**
 * A plan of one track made from a query, as a client would send it, for `readPlan`.
 *
 * @param elements as in a plan
 */
export function planFromQuery(query: PlanQuery, elements: readonly unknown[]): Record<string, unknown> {
  const plan: Record<string, unknown> = {}
  put(plan, ['rail'], {})
  put(plan, ['tracks', 0], { name: 'track' })
  for (const [name, { place, as }] of Object.entries(ONE_OF_A_KIND) as [Single, Meaning][]) {
    const text = query[name]
    if (text !== undefined) put(plan, place, written(text, as))
  }
  for (const [name, { place, as }] of Object.entries(OF_STICKS) as [OfSticks, Meaning][])
    for (const [index, text] of (query[name] ?? []).entries())
      put(plan, ['supplies', 'sticks', index, ...place], written(text, as))
  if (query.closed !== undefined) put(plan, ['tracks', 0, 'closed'], query.closed === 'yes')
  for (const end of ['start', 'end'] as const)
    if (query[end] !== undefined) put(plan, ['tracks', 0, 'joinsExisting', end], query[end] === 'joined')
  put(plan, ['tracks', 0, 'elements'], elements)
  return plan
}

/** The parameter that stands for this place of the plan; null if there is none, as for the elements. */
export function parameterAt(path: Place): keyof PlanQuery | null {
  for (const [name, { place }] of Object.entries(ONE_OF_A_KIND))
    if (place.length === path.length && place.every((step, n) => step === path[n])) return name as Single
  const [part, field, , last] = path
  if (part === 'supplies' && field === 'sticks') return STICK_FIELDS[String(last)] ?? 'stick'
  if (part === 'tracks' && path[2] === 'closed') return 'closed'
  if (part === 'tracks' && path[2] === 'joinsExisting') return path[3] === 'end' ? 'end' : 'start'
  return part === 'rail' ? 'material' : null
}

const STICK_FIELDS: Readonly<Record<string, OfSticks>> = { length: 'stick', price: 'stickPrice', packSize: 'stickPack' }

/** Faults of the plan as faults of the query; `elsewhere` converts those at places without a parameter. */
export function asParameterFaults(
  faults: readonly Fault[],
  elsewhere: (fault: Fault) => ParameterFault,
): ParameterFault[] {
  return faults.map((fault) => {
    const parameter = parameterAt(fault.path)
    const { detail, hint } = fault
    return parameter === null ? elsewhere(fault) : { parameter, code: fault.code as FaultCode, detail, hint }
  })
}

const PLAIN_NUMBER = /^(?:\d+(?:\.\d+)?|\.\d+)$/

function written(text: string, as: Meaning['as']): string | number {
  return as !== 'text' && PLAIN_NUMBER.test(text) ? Number(text) : text
}

function put(into: Record<string, unknown>, place: Place, value: unknown): void {
  let at: Record<string | number, unknown> = into
  for (const [n, step] of place.slice(0, -1).entries()) {
    at[step] ??= typeof place[n + 1] === 'number' ? [] : {}
    at = at[step] as Record<string | number, unknown>
  }
  at[place.at(-1)!] = value
}
