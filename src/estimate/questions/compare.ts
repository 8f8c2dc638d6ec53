import { BEND } from '../../bending/bends.ts'
import { BEND_FORMING } from '../../bending/forming/types.ts'
import { MATERIAL_SPELLINGS } from '../../catalogue/materials.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { compareMoney } from '../../measure/money.ts'
import {
  type Answer,
  component,
  count,
  length,
  list,
  money,
  nullable,
  number,
  object,
  part,
  text,
} from '../../plan/fields/answer.ts'
import { ASSUMPTION, type Assumption } from '../../plan/fields/assumption.ts'
import type { PlanDraft, RailDraft } from '../../plan/reading/draft.ts'
import type { PlanInput } from '../../plan/rows/plan.ts'
import type { MaterialChoice } from '../../plan/rows/questions.ts'
import type { StickInput } from '../../plan/rows/supplies.ts'
import type { Bend, Estimate } from '../answer.ts'
import { estimate } from '../estimate.ts'
import { planFaults } from '../faults/faults.ts'
import { assumptionsIn } from '../sentences.ts'
import { salvageOfPlan } from '../track/lifted.ts'

/** A choice of material with null for a stick that could not be read. */
export type MaterialChoiceDraft = Omit<MaterialChoice, 'sticks'> & {
  readonly sticks?: readonly (StickInput | null)[] | undefined
}

/** A plan without faults (see `planFaults`), and choices without faults in it (see `choiceFaults`). */
export interface ComparisonInput {
  readonly plan: PlanInput
  readonly choices: readonly MaterialChoice[]
}

const TIGHTEST_BEND = component('TightestBend', 'The sharpest bend of the plan, and how to bend it.', {
  track: BEND.fields.track,
  element: BEND.fields.element,
  rail: BEND.fields.rail,
  radiusMm: BEND.fields.radiusMm,
  formingRadiusMm: BEND_FORMING.fields.formingRadiusMm,
  band: BEND_FORMING.fields.band,
  overbendRatio: BEND_FORMING.fields.overbendRatio,
  method: BEND_FORMING.fields.method,
  reason: BEND_FORMING.fields.reason,
})

type TightestBend = Answer<typeof TIGHTEST_BEND>

const COMPARED_MATERIAL = component('ComparedMaterial', 'The plan in one material.', {
  material: text(),
  temper: nullable(text()),
  cost: nullable(money('The total of the bill without tax; null if something to buy has no price.')),
  total: money('Sum of the lines that have a price, as on the bill.'),
  unpricedLines: count('Number of lines without a price, as on the bill, including lines with nothing to buy.'),
  unpriced: list(text(), 'The items to buy that have no price.'),
  railMassKg: nullable(number('Mass of all rail laid, kg; null for a metal given without its density.')),
  billMassKg: number('Mass of what is to buy, kg, as far as it is known.'),
  linesWithoutMass: count('Number of lines with something to buy whose mass is unknown.'),
  sticksUsed: count(),
  forming: nullable(TIGHTEST_BEND, 'Null if the plan has no arcs to bend.'),
  expansionPerMetreMm: nullable(
    length(
      'Expansion of each metre of free rail from coldest to hottest, mm; null if the plan has no climate or the expansion of the metal is unknown.',
    ),
  ),
  dropV: nullable(
    number(
      'The largest voltage drop at a far end, fed at the start only, V; null if the plan has no power or the resistivity of the metal is unknown.',
    ),
  ),
  findings: object({
    stop: count(),
    warn: count(),
    note: count(),
    rules: list(text(), 'The rules of all findings, each once.'),
  }),
})

export type ComparedMaterial = Answer<typeof COMPARED_MATERIAL>

export const COMPARISON_ANSWER = component('Comparison', 'One plan in several materials.', {
  currency: text(),
  materials: list(COMPARED_MATERIAL, 'In the order of the request.'),
  least: part(
    object({ cost: nullable(count()), mass: nullable(count('Mass of all rail laid.')), drop: nullable(count()) }),
    'For each figure, the index of the material with the lowest one; the first if several are equal. Materials whose figure is null do not count.',
  ),
  assumptions: list(ASSUMPTION, 'Each field is a JSON Pointer into the request.'),
})

export type Comparison = Answer<typeof COMPARISON_ANSWER>

/**
 * Estimates a plan in several materials. Where a choice is the plan's own rail, its temper and test bends apply.
 * The plan's sticks and prices are for its own metal: for another metal without sticks of its own only the
 * lengths apply, it has no ready-made track, and only ties and joiners of lifted track are laid again.
 *
 * @returns the comparison, or why one of them cannot be estimated, with places in `{ plan, materials }`
 */
export function compareMaterials({
  plan,
  choices,
}: ComparisonInput): { ok: true; comparison: Comparison } | { ok: false; faults: Fault[] } {
  const materials: ComparedMaterial[] = []
  const assumptions: Assumption[] = []
  const faults: Fault[] = []
  let currency = ''
  for (const [index, choice] of choices.entries()) {
    const chosen = withRailInPlace(planWithChoice(plan, choice), isOfMetal(plan.rail, choice))
    const worked = estimate(chosen.plan)
    if (!worked.ok) {
      faults.push(...worked.faults.map((fault) => ({ ...fault, path: placeOf(fault.path, plan, choice, index) })))
      continue
    }
    currency = worked.estimate.bill.currency
    materials.push(compared(worked.estimate))
    assumptions.push(
      ...assumptionsIn(ownAssumptions(plan, choice, index), plan),
      ...worked.estimate.assumptions.map((assumption) => {
        const path = inFullPlan(assumption.field.slice(1).split('/'), chosen.tracks)
        return { ...assumption, field: `/${placeOfAssumption(path, plan, choice, index).join('/')}` }
      }),
    )
  }
  if (faults.length > 0) return { ok: false, faults: distinct(faults) }
  const least = {
    cost: leastOf(materials, ({ cost }) => cost, compareMoney),
    mass: leastOf(materials, ({ railMassKg }) => railMassKg, ascending),
    drop: leastOf(materials, ({ dropV }) => dropV, ascending),
  }
  return { ok: true, comparison: { currency, materials, least, assumptions: distinct(assumptions) } }
}

/**
 * Faults of choices in a plan, besides those of the plan itself; places are in `{ plan, materials }`.
 *
 * @param choices null where one could not be read and has been reported
 */
export function choiceFaults(plan: PlanDraft, choices: readonly (MaterialChoiceDraft | null)[]): Fault[] {
  const ofPlan = new Set(planFaults(plan).map(({ path, detail }) => JSON.stringify([path, detail])))
  // What suspends the rules about the plan's longest stick also suspends them for choices.
  const unread = plan.supplies?.sticks?.includes(null) ? [null] : []
  return choices.flatMap((choice, index) => {
    if (!choice) return []
    const sticks = choice.sticks && [...choice.sticks, ...unread]
    return planFaults(planWithChoice(plan, { ...choice, sticks })).flatMap((fault): Fault[] => {
      const path = placeOf(fault.path, plan, choice, index)
      if (path[0] === 'materials') return [{ ...fault, path }]
      if (ofPlan.has(JSON.stringify([fault.path, fault.detail]))) return []
      return [{ ...fault, path: ['materials', index, ...(choice.sticks ? ['sticks'] : [])] }]
    })
  })
}

/** The plan with the rail and the sticks of a choice. */
export function planWithChoice<P extends PlanDraft>(plan: P, choice: MaterialChoiceDraft): P {
  const rail = isOwnRail(plan.rail, choice)
    ? plan.rail
    : { section: plan.rail?.section, material: choice.material, temper: choice.temper }
  const sticks = choice.sticks ?? (isOfMetal(plan.rail, choice) ? plan.supplies?.sticks : lengthsOf(plan))
  const panels = isOfMetal(plan.rail, choice) ? plan.supplies?.panels : undefined
  return { ...plan, rail, supplies: { ...plan.supplies, sticks, panels } }
}

function isOfMetal(rail: RailDraft | undefined, { material }: MaterialChoiceDraft): boolean {
  return JSON.stringify(named(rail?.material)) === JSON.stringify(named(material))
}

function named(material: RailDraft['material']) {
  return typeof material === 'string' ? (MATERIAL_SPELLINGS[material] ?? material) : material
}

function isOwnRail(rail: RailDraft | undefined, choice: MaterialChoiceDraft): boolean {
  return isOfMetal(rail, choice) && (choice.temper === undefined || choice.temper === rail?.temper)
}

/** The lengths on sale, without what is not known in another metal; undefined where there are none. */
function lengthsOf({ supplies }: PlanDraft): readonly (StickInput | null)[] | undefined {
  const onSale = supplies?.sticks?.filter((stick) => stick?.buyable !== false)
  if (!onSale || onSale.length === 0) return undefined
  return onSale.map((stick) => stick && { length: stick.length, packSize: 1, onHand: 0, buyable: true })
}

/**
 * Lifted rail is of the plan's own metal. In another metal its tracks are left out, and what comes up with them
 * besides rail is on hand.
 *
 * @returns `tracks` are the indices of the tracks that are left, in the whole plan
 */
function withRailInPlace(plan: PlanInput, ofMetal: boolean): { plan: PlanInput; tracks: number[] } {
  const all = [...plan.tracks.keys()]
  const tracks = ofMetal ? all : all.filter((index) => plan.tracks[index]!.state !== 'lifted')
  if (tracks.length === all.length) return { plan, tracks }
  const { supplies = {} } = plan
  const { joiners, ties } = salvageOfPlan(plan)
  return {
    plan: {
      ...plan,
      tracks: tracks.map((index) => plan.tracks[index]!),
      supplies: {
        ...supplies,
        joiners: { ...supplies.joiners, onHand: (supplies.joiners?.onHand ?? 0) + joiners },
        ties: { ...supplies.ties, onHand: (supplies.ties?.onHand ?? 0) + ties },
      },
    },
    tracks,
  }
}

type Place = readonly (string | number)[]

function inFullPlan(path: Place, tracks: readonly number[]): Place {
  return path[0] === 'tracks' ? ['tracks', tracks[Number(path[1])]!, ...path.slice(2)] : path
}

/** From a place in the plan of a choice to where it was given. */
function placeOf(path: Place, plan: PlanDraft, choice: MaterialChoiceDraft, index: number): Place {
  const [part, field] = path
  const ofChoice =
    (part === 'rail' && (field === 'material' || field === 'temper') && givesRail(plan, choice)) ||
    (part === 'supplies' && field === 'sticks' && givesSticks(plan, choice))
  return ofChoice ? ['materials', index, ...path.slice(1)] : ['plan', ...path]
}

/** For power only the resistivity of an unknown temper is assumed, which belongs to the rail. */
function placeOfAssumption(path: Place, plan: PlanDraft, choice: MaterialChoiceDraft, index: number): Place {
  const ofRail = path[0] === 'power' && path.length === 1 && givesRail(plan, choice)
  return ofRail ? ['materials', index, 'temper'] : placeOf(path, plan, choice, index)
}

function givesRail(plan: PlanDraft, choice: MaterialChoiceDraft): boolean {
  return choice.temper !== undefined || !isOwnRail(plan.rail, choice)
}

/** Without sticks in the plan the usual ones apply to all. */
function givesSticks(plan: PlanDraft, choice: MaterialChoiceDraft): boolean {
  return choice.sticks !== undefined || (plan.supplies?.sticks !== undefined && !isOfMetal(plan.rail, choice))
}

/** What is assumed because a choice is not the plan's own rail. */
function ownAssumptions(plan: PlanInput, choice: MaterialChoice, index: number): Assumption[] {
  const at = `/materials/${index}`
  const assumptions: Assumption[] = []
  const ofMetal = isOfMetal(plan.rail, choice)
  const lengths = choice.sticks || ofMetal ? undefined : lengthsOf(plan)
  if (lengths)
    assumptions.push({
      field: `${at}/sticks`,
      value: `${lengths.map((stick) => formatMm(stick!.length)).join(', ')}; none on hand, unpriced`,
      reason: 'not given; the lengths of the plan, whose prices and stock are for its own metal',
    })
  if (!ofMetal && plan.supplies?.panels?.length)
    assumptions.push({
      field: at,
      value: 'no ready-made track',
      reason: 'the ready-made track in the plan is of its own metal',
    })
  if (plan.rail.calibration && !isOwnRail(plan.rail, choice))
    assumptions.push({ field: at, value: 'no test bends', reason: "the plan's test bends are of its own rail" })
  if (!ofMetal && plan.tracks.some(({ state }) => state === 'lifted'))
    assumptions.push({
      field: at,
      value: 'only joiners and ties of lifted track are on hand',
      reason: "its rail is of the plan's own metal",
    })
  return assumptions
}

function compared({ rail, cutting, bill, bends, expansion, power, findings }: Estimate): ComparedMaterial {
  const unpriced = bill.lines.filter(({ packs, amount }) => packs > 0 && amount === null)
  const sharpest = bends
    .filter(({ readyMade }) => !readyMade)
    .reduce<Bend | null>((least, bend) => (least && least.radiusMm <= bend.radiusMm ? least : bend), null)
  const drops = power?.blocks.map(({ farEndDropV }) => farEndDropV) ?? []
  const of = (wanted: string) => findings.filter(({ severity }) => severity === wanted).length
  return {
    material: rail.material,
    temper: rail.temper,
    cost: unpriced.length === 0 ? bill.total : null,
    total: bill.total,
    unpricedLines: bill.unpricedLines,
    unpriced: unpriced.map(({ description }) => description),
    railMassKg: rail.massKg,
    billMassKg: bill.massKg,
    linesWithoutMass: bill.linesWithoutMass,
    sticksUsed: cutting.sticksUsed,
    forming: sharpest && tightest(sharpest),
    expansionPerMetreMm: expansion?.growthPerMetreMm ?? null,
    dropV: drops.length === 0 ? null : Math.max(...drops),
    findings: {
      stop: of('stop'),
      warn: of('warn'),
      note: of('note'),
      rules: [...new Set(findings.map(({ rule }) => rule))],
    },
  }
}

function tightest({ track, element, rail, radiusMm, forming }: Bend): TightestBend {
  const { formingRadiusMm, band, overbendRatio, method, reason } = forming
  return { track, element, rail, radiusMm, formingRadiusMm, band, overbendRatio, method, reason }
}

function leastOf<T>(
  materials: readonly ComparedMaterial[],
  figure: (material: ComparedMaterial) => T | null,
  compare: (a: T, b: T) => number,
): number | null {
  const known = materials.flatMap((material, index) => {
    const value = figure(material)
    return value === null ? [] : [{ index, value }]
  })
  return known.toSorted((a, b) => compare(a.value, b.value))[0]?.index ?? null
}

function ascending(a: number, b: number): number {
  return a - b
}

/** Several choices share the assumptions of the plan itself. */
function distinct<T>(values: readonly T[]): T[] {
  return [...new Map(values.map((value) => [JSON.stringify(value), value])).values()]
}
