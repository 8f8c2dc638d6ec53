import { FINDING } from '../../checking/finding.ts'
import { PATCH } from '../../fitting/json-patch.ts'
import type { Fault } from '../../measure/fault.ts'
import { faultsInUnits } from '../../measure/in-units.ts'
import { compareMoney } from '../../measure/money.ts'
import { sum } from '../../measure/sum.ts'
import { elementLengthMm } from '../../plan/elements.ts'
import { type Answer, component, extended, length, list, money, text } from '../../plan/fields/answer.ts'
import { bulkFaults } from '../../plan/reading/size.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { Estimate } from '../answer.ts'
import { estimate } from '../estimate.ts'
import { planFaults } from '../faults/faults.ts'
import type { ConnectOption } from '../fitted/connect.ts'
import type { Connection } from '../fitted/fit-plan.ts'
import { fittedElements, fittedPatch } from '../fitted/fitted-patch.ts'
import { ELEMENT } from '../track/answer.ts'
import { workOf } from '../work.ts'
import { notClear, tightest } from './keep-clear.ts'

/** Estimates made for one answer, and what they may take together, in estimated milliseconds (`workOf`). */
const MOST_OPTIONS = 12
const MOST_WORK = 8_000
const LEAST_OPTIONS = 2

const FITTED_ELEMENT = extended(ELEMENT, 'FittedElement', 'An element that was worked out, with its position.', {
  track: text({ title: 'Track' }),
})

const FIT_OPTION = component('FitOption', 'One way to work out what a plan leaves open, put through an estimate.', {
  lengthMm: length('Length of the elements that were worked out, together, mm.'),
  cost: money('The total of the bill with it.'),
  elements: list(
    FITTED_ELEMENT,
    'The elements that were worked out. Their index counts the elements of the track with all of them in it.',
  ),
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
}

export type FitsAnswer =
  | { readonly ok: true; readonly answer: FitOptions }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/**
 * The ways to work out what a plan leaves open, each put through the estimate. Lengths and angles have one answer; each
 * connection is made in each of its ways while the others stay as in the estimate. Ways that would bring a fault, such as a
 * break beyond the end of a shorter track, are left out. Of large plans fewer ways are tried, so that the work is bounded.
 */
export function fitOptions({ plan, connections, sent, room }: FitsAsked): FitsAnswer {
  const affordable = Math.max(LEAST_OPTIONS, Math.floor(MOST_WORK / workOf(plan)))
  const most = Math.min(MOST_OPTIONS, affordable)
  const tracks = new Set(fittedElements(sent, plan).map(({ track }) => track))
  // Where many are not clear, more are looked at than are answered.
  const looked = room ? affordable : most
  const all = variations(plan, connections).slice(0, looked)
  const tight = room ? all.map((variation) => tightest({ ...variation, cars: room.cars }, tracks)) : []
  const clear = room ? all.filter((_, index) => tight[index] === null) : all
  if (room && clear.length === 0)
    return { ok: false, faults: faultsInUnits([notClear(tight, room.margin, plan, sent)], plan.units) }
  const found = clear.slice(0, most).flatMap((variation) => optionOf(variation, sent))
  const options = found.map(({ option }) => option)
  options.sort((a, b) => a.lengthMm - b.lengthMm || compareMoney(a.cost, b.cost))
  return { ok: true, answer: { currency: found[0]?.currency ?? '', options } }
}

/** The plan itself, then those with one other way for one connection, the least longer first. */
function variations(plan: PlanInput, connections: readonly Connection[]): PlanInput[] {
  const others = connections.flatMap(({ track, options, chosen }) =>
    options
      .filter((option) => option !== chosen)
      .map((option) => ({ track, option, moreMm: lengthOf(option) - lengthOf(chosen) })),
  )
  others.sort((a, b) => a.moreMm - b.moreMm)
  return [
    plan,
    ...others.map(({ track, option: { elements } }) => ({
      ...plan,
      tracks: plan.tracks.with(track, { ...plan.tracks[track]!, elements }),
    })),
  ]
}

function lengthOf({ pieces }: ConnectOption): number {
  return sum(pieces.map(elementLengthMm))
}

function optionOf(plan: PlanInput, sent: unknown): { currency: string; option: FitOption }[] {
  if (planFaults(plan).length > 0 || bulkFaults(plan).length > 0) return []
  const result = estimate(plan, { parts: ['tracks', 'bill', 'findings'] })
  if (!result.ok) return []
  const { tracks, bill, findings } = result.estimate
  const elements = elementsOf(plan, sent, tracks)
  const option = {
    lengthMm: sum(elements.map(({ lengthMm }) => lengthMm)),
    cost: bill.total,
    elements,
    findings: findings.map(({ remedy: _, otherRemedies: __, ...finding }) => finding),
    remedy: fittedPatch(sent, plan),
  }
  return [{ currency: bill.currency, option }]
}

function elementsOf(plan: PlanInput, sent: unknown, tracks: Estimate['tracks']): FitOption['elements'] {
  return fittedElements(sent, plan).map(({ track, element }) => {
    const { name, elements } = tracks[track]!
    return { ...elements[element]!, track: name }
  })
}
