import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { calledInSentence, fieldAt } from '../../plan/fields/at.ts'
import { accepted, type Read, refused } from '../../plan/fields/read.ts'
import { leaf } from '../../plan/reading/schema.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import { PLAN } from '../../plan/rows/plan.ts'
import { USUAL } from '../../plan/usual.ts'
import type { FaultCode } from '../fault-catalogue.ts'
import type { ParameterFault } from '../problem.ts'
import { choiceParameter } from './query.ts'

/*
 * Rail, supplies and rules of a plan as query parameters, for tracks that are sent without a plan. Each stands for one
 * field of a plan and is checked as that field is, so that there is one set of rules.
 */

type Place = readonly (string | number)[]

const ONE_OF_A_KIND = {
  gauge: ['gauge'],
  section: ['rail', 'section'],
  material: ['rail', 'material'],
  temper: ['rail', 'temper'],
  kerf: ['supplies', 'kerf'],
  minimumPiece: ['supplies', 'minimumPiece'],
  joinerPack: ['supplies', 'joiners', 'packSize'],
  joinerPrice: ['supplies', 'joiners', 'pricePerPack'],
  tieSpacing: ['supplies', 'ties', 'spacing'],
  tiePack: ['supplies', 'ties', 'packSize'],
  tiePrice: ['supplies', 'ties', 'pricePerPack'],
  fastenersPerTie: ['supplies', 'ties', 'fastenersPerTie'],
  fastenerPack: ['supplies', 'fasteners', 'packSize'],
  fastenerPrice: ['supplies', 'fasteners', 'pricePerPack'],
  currency: ['supplies', 'currency'],
  longestCar: ['standards', 'longestCar'],
  minimumRadius: ['standards', 'minimumRadius'],
  name: ['tracks', 0, 'name'],
} as const satisfies Record<string, Place>

/** Once for each stick: fields of one entry of `supplies.sticks`. */
const OF_STICKS = { stick: 'length', stickPrice: 'price', stickPack: 'packSize' } as const

const LONGEST = 100

/** A query has no null; a schema that accepts one would say so in the OpenAPI document. */
const NOTHING_GIVEN = refused('missing', 'nothing is given')

const once = (value: unknown): Read<string> => {
  if (value === null) return NOTHING_GIVEN
  if (Array.isArray(value)) return refused('repeated-parameter', `it is given ${value.length} times`, 'give it once')
  const text = String(value)
  return text.length > LONGEST
    ? refused('too-long', `it has ${text.length} characters; at most ${LONGEST} are allowed`)
    : accepted(text)
}

const repeated = (value: unknown): Read<string[]> => {
  if (value === null) return NOTHING_GIVEN
  const texts = (Array.isArray(value) ? value : [value]).map(String)
  return texts.length > LIMITS.stickLengths
    ? refused('too-many', `it is given ${texts.length} times; at most ${LIMITS.stickLengths} times is allowed`)
    : accepted(texts)
}

/** What the row of the field says of it: its label, its place, and what is used where it is left out. */
function description(place: Place): string {
  const rows = place.map((_, index) => fieldAt(PLAN, place.slice(0, index + 1))!)
  const row = rows.at(-1)!
  const part = rows.slice(1, -1).find(({ is }) => is === 'part')
  const name = part ? `${part.label}, ${calledInSentence(row)}` : row.label
  const leftOut = row.is === 'value' && row.usual ? `; ${row.show(row.usual.value)} when left out` : ''
  return `${name}: ${place.filter((step) => typeof step === 'string').join('.')} of a plan${leftOut}.`
}

const single = (name: keyof typeof ONE_OF_A_KIND, note = '') =>
  leaf(`${name}Text`, once, { type: 'string', maxLength: LONGEST })
    .optional()
    .openapi({ param: { description: `${description(ONE_OF_A_KIND[name])}${note}` } })
const list = (name: keyof typeof OF_STICKS, note: string) =>
  leaf(`${name}Texts`, repeated, { type: 'array', items: { type: 'string' }, maxItems: LIMITS.stickLengths })
    .optional()
    .openapi({ param: { description: `${description(placeOfStick(0, name))}${note}` } })

function placeOfStick(index: number, name: keyof typeof OF_STICKS): Place {
  return ['supplies', 'sticks', index, OF_STICKS[name]]
}

const ONE_FOR_EACH = ' One for each stick, in the same order.'

/** What the track is called that is given no name. */
const TRACK_NAME = 'track'

/** The query parameters, for `query({ …, ...PLAN_QUERY })`. */
export const PLAN_QUERY = {
  gauge: single('gauge'),
  section: single('section'),
  material: single('material'),
  temper: single('temper'),
  stick: list('stick', ` Repeat it for more lengths. 5 ft (${formatMm(USUAL.stick.length)}) when left out.`),
  stickPrice: list('stickPrice', ONE_FOR_EACH),
  stickPack: list('stickPack', ONE_FOR_EACH),
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
  name: single('name', ` "${TRACK_NAME}" when left out.`),
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
  put(plan, ['tracks', 0], { name: TRACK_NAME })
  for (const [name, place] of Object.entries(ONE_OF_A_KIND) as [Single, Place][]) {
    const text = query[name]
    if (text !== undefined) put(plan, place, written(text, place))
  }
  for (const name of Object.keys(OF_STICKS) as OfSticks[])
    for (const [index, text] of (query[name] ?? []).entries()) {
      const place = placeOfStick(index, name)
      put(plan, place, written(text, place))
    }
  if (query.closed !== undefined) put(plan, ['tracks', 0, 'closed'], query.closed === 'yes')
  for (const end of ['start', 'end'] as const)
    if (query[end] !== undefined) put(plan, ['tracks', 0, 'joinsExisting', end], query[end] === 'joined')
  put(plan, ['tracks', 0, 'elements'], elements)
  return plan
}

/** The parameter that stands for this place of the plan; null if there is none, as for the elements. */
export function parameterAt(path: Place): keyof PlanQuery | null {
  for (const [name, place] of Object.entries(ONE_OF_A_KIND))
    if (place.length === path.length && place.every((step, n) => step === path[n])) return name as Single
  const [part, field, , last] = path
  if (part === 'supplies' && field === 'sticks')
    return (Object.keys(OF_STICKS) as OfSticks[]).find((name) => OF_STICKS[name] === last) ?? 'stick'
  if (part === 'tracks' && path[2] === 'closed') return 'closed'
  if (part === 'tracks' && path[2] === 'joinsExisting') return path[3] === 'end' ? 'end' : 'start'
  return part === 'rail' ? 'material' : null
}

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

/** A number without a unit as a number, where the field is one; else as it is. */
function written(text: string, place: Place): string | number {
  const row = fieldAt(PLAN, place)
  const measured = row?.is === 'value' && (row.kind === 'length' || row.kind === 'count')
  return measured && PLAIN_NUMBER.test(text) ? Number(text) : text
}

function put(into: Record<string, unknown>, place: Place, value: unknown): void {
  let at: Record<string | number, unknown> = into
  for (const [n, step] of place.slice(0, -1).entries()) {
    at[step] ??= typeof place[n + 1] === 'number' ? [] : {}
    at = at[step] as Record<string | number, unknown>
  }
  at[place.at(-1)!] = value
}
