import type { Fault } from '../../measure/fault.ts'
import { faultsOf } from '../../plan/reading/issues.ts'
import { schemaOf } from '../../plan/reading/schema.ts'
import { tooMany } from '../../plan/reading/size.ts'
import { listAt, valueAt } from '../../plan/reading/value-at.ts'
import { FIELDS_OF_FIGURE, FIGURE, FIGURE_WORDS, type FigureAsked, type FigureName } from '../../plan/rows/figures.ts'
import { LIMITS } from '../../plan/rows/limits.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { ElementInput } from '../../plan/rows/track.ts'
import { mergedFaults, readPlan } from '../read-plan.ts'

/** A figure that is asked for, and the plan that it is checked in, without its tracks. */
export interface FigureQuestion {
  readonly asked: Omit<FigureAsked, 'elements'> & { readonly elements?: readonly ElementInput[] | undefined }
  readonly plan: Omit<PlanInput, 'tracks'>
  readonly railGiven: boolean
}

type ReadFigure =
  | { readonly ok: true; readonly question: FigureQuestion }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** What a figure says as a plan says it. */
const OF_PLAN = ['gauge', 'rail', 'turnoutTypes', 'standards', 'power'] as const

/** For the checks alone, where a figure has no rail of its own. */
export const USUAL_RAIL = { section: '250', material: 'brass' } as const

/** Reads a figure, with every fault of it and of its kinds of turnout at once. */
export function readFigure(raw: unknown): ReadFigure {
  const tooLong = tooMany(['elements'], listAt(raw, ['elements']).length, LIMITS.figureElements, 'elements')
  if (tooLong.length > 0) return { ok: false, faults: tooLong }
  const parsed = schemaOf(FIGURE).safeParse(raw)
  const found = parsed.success ? [] : faultsOf(parsed.error.issues, raw)
  const railGiven = valueAt(raw, ['rail']) !== undefined
  const written = valueAt(raw, ['elements'])
  const plan = readPlan({
    rail: USUAL_RAIL,
    ...Object.fromEntries(
      OF_PLAN.flatMap((name) => (valueAt(raw, [name]) === undefined ? [] : [[name, valueAt(raw, [name])]])),
    ),
    tracks: [{ name: 'main', elements: written ?? [{ kind: 'tangent', length: 1000 }] }],
  })
  const ofPlan = plan.ok ? [] : plan.faults.map(inRequest)
  const faults = mergedFaults(found, [...ofPlan, ...fieldFaults(raw)])
  if (!parsed.success || !plan.ok || faults.length > 0) return { ok: false, faults }
  const { tracks, ...rest } = plan.plan
  const { elements, ...asked } = parsed.data
  const whole = elements && { elements: tracks[0]!.elements }
  return { ok: true, question: { asked: { ...asked, ...whole }, plan: rest, railGiven } }
}

function inRequest(fault: Fault): Fault {
  const [first, , third] = fault.path
  if (first !== 'tracks') return fault
  return { ...fault, path: third === 'elements' ? fault.path.slice(2) : ['elements'] }
}

/** What every figure may say. */
const OF_ALL: readonly string[] = ['figure', ...OF_PLAN, 'start', 'prefix', 'side']

/** Fields without an effect on the figure, and those that it cannot do without. */
function fieldFaults(raw: unknown): Fault[] {
  const figure = valueAt(raw, ['figure'])
  if (!isFigure(figure)) return []
  const called = FIGURE_WORDS[figure].toLowerCase()
  const known: readonly string[] = [...OF_ALL, ...FIELDS_OF_FIGURE[figure]]
  const idle = Object.keys(FIGURE.fields).filter((name) => !known.includes(name) && valueAt(raw, [name]) !== undefined)
  const missing = (name: string, what: string): Fault[] =>
    valueAt(raw, [name]) !== undefined
      ? []
      : [{ path: [name], code: 'missing', detail: `a ${called} needs ${what}`, hint: `give ${name}` }]
  return [
    ...idle.map((name) => ({
      path: [name],
      code: 'contradictory',
      detail: `it has no effect on a ${called}`,
      hint: `leave it out; a ${called} has ${FIELDS_OF_FIGURE[figure].join(', ')}`,
    })),
    ...(figure === 'passing-loop' ? missing('clear', 'its clear length') : []),
    ...(figure === 'ladder' && valueAt(raw, ['clears']) === undefined
      ? [
          ...missing('clear', 'the clear length of its tracks, or a list of clear lengths'),
          ...missing('count', 'the number of its tracks'),
        ]
      : []),
    ...(figure === 'parallel' ? [...missing('elements', 'the track to be doubled'), ...specialFaults(raw)] : []),
  ]
}

function isFigure(value: unknown): value is FigureName {
  return typeof value === 'string' && Object.hasOwn(FIGURE_WORDS, value)
}

function specialFaults(raw: unknown): Fault[] {
  return listAt(raw, ['elements']).flatMap((element, index) => {
    const kind = valueAt(element, ['kind'])
    if (kind !== 'turnout' && kind !== 'crossing') return []
    return [
      {
        path: ['elements', index, 'kind'],
        code: 'contradictory',
        detail: `nothing is parallel to a ${kind}`,
        hint: 'double the track before it and the track behind it',
      },
    ]
  })
}
