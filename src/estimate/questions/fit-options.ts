import { FINDING, withoutRemedies } from '../../checking/finding.ts'
import { PATCH, type Patch, patched } from '../../fitting/json-patch.ts'
import type { Fault } from '../../measure/fault.ts'
import { faultsInUnits } from '../../measure/in-units.ts'
import { compareMoney } from '../../measure/money.ts'
import { sum } from '../../measure/sum.ts'
import { type Answer, component, extended, length, list, money, text } from '../../plan/fields/answer.ts'
import { bulkFaults } from '../../plan/reading/size.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import { ELEMENT_NUMBER } from '../../track/types.ts'
import type { Estimate } from '../answer.ts'
import { estimate } from '../estimate.ts'
import { planFaults } from '../faults/faults.ts'
import { lengthOfWay } from '../fitted/connect.ts'
import type { Connection } from '../fitted/fit-plan.ts'
import { fittedElements, fittedPatch } from '../fitted/fitted-patch.ts'
import { type PutIn, turnoutEnds } from '../fitted/turnouts/turnout-ends.ts'
import { readPlan } from '../read-plan.ts'
import { ELEMENT } from '../track/answer.ts'
import { workOf } from '../work.ts'
import { clearOneAfterOther, notClear, tightest, withWay } from './keep-clear.ts'
import { noTurnoutEnd } from './no-turnout-end.ts'

/** Estimates made for one answer, and what they may take together, in estimated milliseconds (`workOf`). */
const MOST_OPTIONS = 12
const MOST_WORK = 8_000
const LEAST_OPTIONS = 2

const FITTED_ELEMENT = extended(ELEMENT, 'FittedElement', 'An element that was worked out, with its position.', {
  track: text({ title: 'Track' }),
})

const TURNOUT_PUT_IN = component('TurnoutPutIn', 'A turnout that a way puts into a straight of another track.', {
  name: text(),
  type: text({ title: 'Kind' }),
  track: text({ title: 'Track' }),
  element: ELEMENT_NUMBER,
  atMm: length('From the start of the straight it is put into to where the turnout begins, mm.'),
})

const FIT_OPTION = component('FitOption', 'One way to work out what a plan leaves open, put through an estimate.', {
  lengthMm: length('Length of the elements that were worked out, together, mm.'),
  cost: money('The total of the bill with it.'),
  elements: list(
    FITTED_ELEMENT,
    'The elements that were worked out. Their index counts the elements of the track with all of them in it.',
  ),
  turnouts: list(TURNOUT_PUT_IN, 'With turnouts: those it puts in. The element is the straight, as the plan was sent.'),
  findings: list(FINDING, 'All findings of the plan with it.'),
  remedy: list(
    PATCH.of,
    'A JSON Patch (RFC 6902) that writes it into the plan as it was sent, to a millionth of a millimetre.',
  ),
})

export const FIT_OPTIONS = component('FitOptions', 'The ways to work out what a plan leaves open.', {
  currency: text('ISO 4217 currency of the costs.'),
  options: list(FIT_OPTION, 'The shortest first; of equal length the cheapest.'),
})

export type FitOptions = Answer<typeof FIT_OPTIONS>
type FitOption = FitOptions['options'][number]

/** A fitted plan, the ways in which its connections can be made, and the plan as it was sent. */
export interface FitsAsked {
  readonly plan: PlanInput
  readonly connections: readonly Connection[]
  readonly sent: unknown
  /** The cars with the margin on either side, where nothing must be touched. */
  readonly room: { readonly cars: NonNullable<PlanInput['cars']>; readonly margin: number } | null
  /** Whether ends on straights are to have turnouts. */
  readonly turnouts: boolean
}

export type FitsAnswer =
  | { readonly ok: true; readonly answer: FitOptions }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/**
 * The ways to work out what a plan leaves open, each put through the estimate. Lengths and angles have one answer; each
 * connection is made in each of its ways while the others stay as in the estimate; where none of that keeps clear, they are
 * made one after another. Ways that would bring a fault, such as a
 * break beyond the end of a shorter track, are left out. Of large plans fewer ways are tried, so that the work is bounded.
 */
export function fitOptions({ plan, connections, sent, room, turnouts }: FitsAsked): FitsAnswer {
  const affordable = Math.max(LEAST_OPTIONS, Math.floor(MOST_WORK / workOf(plan)))
  const most = Math.min(MOST_OPTIONS, affordable)
  const refused = (fault: Fault): FitsAnswer => ({ ok: false, faults: faultsInUnits([fault], plan.units) })
  // Where many are not clear, more are looked at than are answered.
  const looked = room ? affordable : most
  const varied = turnouts ? withTurnouts(plan, sent, looked) : variations(plan, connections, sent)
  if ('code' in varied) return refused(varied)
  const all = varied.slice(0, looked)
  const tight = room ? all.map((each) => tightness(each, room.cars)) : []
  const single = room ? all.filter((_, index) => tight[index] === null) : all
  const clear = room && single.length === 0 && !turnouts ? together(plan, connections, room.cars, looked, sent) : single
  if (room && clear.length === 0) return refused(notClear(tight, room.margin, plan, sent))
  const found = clear.slice(0, most).flatMap(optionOf)
  const answered = found.map(({ option }) => option)
  // Where others keep to the rules, a way that does not is of no use; obstacles are for keepClear.
  const fewest = Math.min(...answered.map(stopsOf))
  const options = answered.filter((option) => stopsOf(option) === fewest)
  options.sort(
    (a, b) => a.lengthMm - b.lengthMm || compareMoney(a.cost, b.cost) || a.findings.length - b.findings.length,
  )
  return { ok: true, answer: { currency: found[0]?.currency ?? '', options } }
}

function stopsOf({ findings }: FitOption): number {
  return findings.filter(({ severity, rule }) => severity === 'stop' && rule !== 'obstacle').length
}

/** A fitted plan, the plan as sent that it comes of, and what makes that of the one that was asked about. */
interface Variation {
  readonly plan: PlanInput
  readonly sent: unknown
  readonly patch: Patch
  /** What of the plan the patch puts in. */
  readonly turnouts: readonly PutIn[]
  readonly path: readonly PathElement[]
}

interface PathElement {
  readonly track: number
  readonly element: number
}

/** The plan itself, then those with one other way for one connection, the least longer first. */
function variations(plan: PlanInput, connections: readonly Connection[], sent: unknown): Variation[] {
  const others = connections.flatMap(({ track, options, chosen }) =>
    options
      .filter((option) => option !== chosen)
      .map((option) => ({ track, option, moreMm: lengthOfWay(option) - lengthOfWay(chosen) })),
  )
  others.sort((a, b) => a.moreMm - b.moreMm)
  return [plan, ...others.map(({ track, option }) => withWay(plan, track, option))].map((each) => asSent(each, sent))
}

function asSent(plan: PlanInput, sent: unknown): Variation {
  return { plan, sent, patch: [], turnouts: [], path: [] }
}

/** Where no other way for one connection is enough: other ways for several. */
function together(
  plan: PlanInput,
  connections: readonly Connection[],
  cars: PlanInput['cars'],
  looks: number,
  sent: unknown,
): Variation[] {
  if (connections.length < 2) return []
  const made = clearOneAfterOther(plan, connections, cars, looks)
  return made ? [asSent(made, sent)] : []
}

/** The plan with turnouts at the ends of a connection, in the shortest ways; what is left open else is worked out with them. */
function withTurnouts(plan: PlanInput, sent: unknown, most: number): Variation[] | Fault {
  const ends = turnoutEnds(plan, sent)
  if (!ends.ok) return noTurnoutEnd(ends)
  const varied = ends.found.slice(0, most).flatMap(({ patch, putIn, path }): Variation[] => {
    const changed = patched(sent, patch)
    const read = readPlan(changed)
    return read.ok ? [{ plan: read.plan, sent: changed, patch, turnouts: putIn, path }] : []
  })
  return varied.length > 0 ? varied : noTurnoutEnd({ at: null, why: 'no-path' })
}

function tightness({ plan, sent, path }: Variation, cars: PlanInput['cars']) {
  return tightest({ ...plan, cars }, new Set([...path, ...fittedElements(sent, plan)].map(({ track }) => track)))
}

function optionOf({ plan, sent, patch, turnouts, path }: Variation): { currency: string; option: FitOption }[] {
  if (planFaults(plan).length > 0 || bulkFaults(plan).length > 0) return []
  const result = estimate(plan, { parts: ['tracks', 'bill', 'findings'] })
  if (!result.ok) return []
  const { tracks, bill, findings } = result.estimate
  const elements = elementsOf([...path, ...fittedElements(sent, plan)], tracks)
  const option = {
    lengthMm: sum(elements.map(({ lengthMm }) => lengthMm)),
    cost: bill.total,
    elements,
    turnouts: turnouts.map(({ name, site: { type, track, element }, atMm }) => ({
      ...{ name, type, track: tracks[track]!.name, element, atMm },
    })),
    findings: withoutRemedies(findings),
    remedy: [...patch, ...fittedPatch(sent, plan)],
  }
  return [{ currency: bill.currency, option }]
}

function elementsOf(places: readonly PathElement[], tracks: Estimate['tracks']): FitOption['elements'] {
  return places.map(({ track, element }) => {
    const { name, elements } = tracks[track]!
    return { ...elements[element]!, track: name }
  })
}
