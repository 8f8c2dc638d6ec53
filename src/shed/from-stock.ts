import { MATERIAL_SPELLINGS } from '../catalogue/materials.ts'
import type { BillLine, Estimate } from '../estimate/answer.ts'
import { type EstimateWanted, estimate } from '../estimate/estimate.ts'
import { assumptionsIn } from '../estimate/sentences.ts'
import { type Salvage, salvageOfPlan } from '../estimate/track/lifted.ts'
import { sameLength } from '../measure/counting.ts'
import type { Fault } from '../measure/fault.ts'
import { formatMm } from '../measure/length.ts'
import type { Assumption } from '../plan/fields/complete.ts'
import { breakOf, ofRailParts, RAIL_PART_NAMES, RAIL_PARTS, type RailPartName } from '../plan/rows/parts.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { RailInput } from '../plan/rows/rail.ts'
import type { StickInput, SuppliesInput } from '../plan/rows/supplies.ts'
import type { BreakKind } from '../plan/rows/track.ts'
import { USUAL } from '../plan/usual.ts'
import { type DrawnPanel, panelsFromStock, panelsTaken } from './panels-from-stock.ts'
import { NOTHING, type RailKind, type Stock, sameRail, tidy } from './stock.ts'

/** A plan whose open `onHand` fields are filled in with what the shed has for it. */
export interface Stocked {
  readonly plan: PlanInput
  /** What was filled in, and from where. */
  readonly assumptions: readonly Assumption[]
  /** Which lines of its bill use the shed; the others use what the plan itself has on hand. */
  readonly drawn: Drawn
}

interface Drawn {
  /** As the plan has them now. */
  readonly stickLengthsMm: readonly number[]
  readonly panels: readonly DrawnPanel[]
  readonly items: readonly Counted[]
}

/** What is counted by rail, and what is counted for any rail. */
const COUNTED = [...RAIL_PART_NAMES, 'ties', 'tieStrips', 'fasteners'] as const
type Counted = (typeof COUNTED)[number]

const ITEM: Readonly<Record<Counted, BillLine['item']>> = {
  ...ofRailParts((name) => RAIL_PARTS[name].item),
  ties: 'tie',
  tieStrips: 'tie-strip',
  fasteners: 'fastener',
}

/** Stock is distinguished by section and material of the catalogue; null for a rail with custom ones. */
export function railKindOf({ section, material }: RailInput): RailKind | null {
  if (typeof section !== 'string' || typeof material !== 'string') return null
  return { section, material: MATERIAL_SPELLINGS[material] ?? material }
}

/**
 * Fills in what is on hand from the shed. What the plan states is kept: an `onHand` of its own, even 0, is a what-if
 * for that length or thing. Lengths that are only in the shed are added as not to be bought, ready-made pieces where
 * the plan uses such (`usesReadyMade`). Of the parts for a rail only those of the plan's own section and material are
 * considered, whatever its temper.
 */
export function stockFor(plan: PlanInput, stock: Stock): Stocked {
  const rail = railKindOf(plan.rail)
  const assumptions: Assumption[] = []
  const fill = (field: string, value: string) =>
    assumptions.push({ field: `/supplies/${field}`, value, reason: IN_THE_SHED })

  const ofRail = <Row extends RailKind & { readonly count: number }>(rows: readonly Row[]) =>
    rows.filter((row) => rail && row.count > 0 && sameRail(row, rail))
  const ours = ofRail(stock.sticks)
  const given = plan.supplies?.sticks
  const sticks: StickInput[] = given ? [...given] : [{ length: USUAL.stick.length }]
  const stickLengthsMm: number[] = []
  for (const { lengthMm, count } of ours) {
    const index = sticks.findIndex((stick) => sameLength(stick.length, lengthMm))
    const there = sticks[index]
    if (!there) {
      fill(`sticks/${sticks.length}/onHand`, `${count} of ${formatMm(lengthMm, 3)}, none to be bought`)
      sticks.push({ length: lengthMm, packSize: 1, onHand: count, buyable: false })
      stickLengthsMm.push(lengthMm)
    } else if (there.onHand === undefined) {
      fill(`sticks/${index}/onHand`, String(count))
      sticks[index] = { ...there, onHand: count }
      stickLengthsMm.push(there.length)
    }
  }
  if (!given && ours.length > 0)
    assumptions.push({
      field: '/supplies/sticks',
      value: `one length of 5 ft (${formatMm(USUAL.stick.length)}) to be bought`,
      reason: 'no sticks given',
    })

  const { panels, drawn: panelsDrawn, ...ofPanels } = panelsFromStock(plan, ofRail(stock.panels), IN_THE_SHED)
  assumptions.push(...ofPanels.assumptions)

  const counts = countsFor(plan, stock, ofRail)
  const items = COUNTED.filter((name) => counts[name] > 0)
  const packs: { -readonly [Name in keyof SuppliesInput]?: SuppliesInput[Name] } = {}
  for (const name of items) {
    const onHand = counts[name]
    fill(name === 'tieStrips' ? 'ties/strip/onHand' : `${name}/onHand`, String(onHand))
    if (name === 'tieStrips') packs.ties = { ...plan.supplies?.ties, strip: { ...plan.supplies!.ties!.strip!, onHand } }
    else packs[name] = { ...plan.supplies?.[name], onHand }
  }
  const supplies: SuppliesInput = {
    ...plan.supplies,
    ...packs,
    ...((given || ours.length > 0) && { sticks }),
    ...(panels.length > 0 && { panels }),
  }
  return { plan: { ...plan, supplies }, assumptions, drawn: { stickLengthsMm, panels: panelsDrawn, items } }
}

const IN_THE_SHED = 'in the shed and not reserved for another project'

/** Whether an estimate counts something from the shed as on hand. */
export function countsOnShed({ assumptions }: Pick<Estimate, 'assumptions'>): boolean {
  return assumptions.some(({ reason }) => reason === IN_THE_SHED)
}

/** How many of each counted thing the shed has that the plan may need and does not state. */
function countsFor(
  { rail, tracks, supplies }: PlanInput,
  stock: Stock,
  ofRail: <Row extends RailKind & { readonly count: number }>(rows: readonly Row[]) => Row[],
): Readonly<Record<Counted, number>> {
  const hasBreak = (kind: BreakKind) => tracks.some(({ breaks = [] }) => breaks.some((each) => each.kind === kind))
  const meetsOther = tracks.some(
    ({ state = 'new', joinsExisting: { start, end } = {} }) =>
      state === 'new' && [start, end].some((beyond) => typeof beyond === 'object' && beyond.section !== rail.section),
  )
  const wanted = (name: RailPartName) => {
    const kind = breakOf(name)
    return kind ? hasBreak(kind) : name !== 'transitionJoiners' || meetsOther
  }
  const byRail = (name: RailPartName) =>
    wanted(name) && supplies?.[name]?.onHand === undefined ? (ofRail(stock[name])[0]?.count ?? 0) : 0
  const strip = supplies?.ties?.strip
  const inStrips = stock.tieStrips.find(({ ties }) => ties === strip?.ties)?.count ?? 0
  return {
    ...ofRailParts((name) => byRail(name)),
    ties: strip || supplies?.ties?.onHand !== undefined ? 0 : stock.ties,
    tieStrips: strip?.onHand === undefined ? inStrips : 0,
    fasteners: supplies?.fasteners?.onHand === undefined ? stock.fasteners : 0,
  }
}

/**
 * The estimate of a plan that may use this stock, what it takes of the stock, and the plan as filled in.
 *
 * @param plan a plan without faults
 */
export function estimateFromStock(
  plan: PlanInput,
  stock: Stock,
  wanted: EstimateWanted = {},
): { ok: true; stocked: PlanInput; estimate: Estimate; taken: Stock } | { ok: false; faults: Fault[] } {
  const stocked = stockFor(plan, stock)
  const result = estimate(stocked.plan, wanted)
  if (!result.ok) return result
  const worked = {
    ...result.estimate,
    assumptions: [...result.estimate.assumptions, ...assumptionsIn(stocked.assumptions, plan)],
  }
  return { ok: true, stocked: stocked.plan, estimate: worked, taken: tidy(takenFromShed(worked, stocked)) }
}

/** Lifted track is used first, then what the shed has. */
function takenFromShed({ bill: { lines }, readyMade }: Estimate, { drawn, plan }: Stocked): Stock {
  const kind = railKindOf(plan.rail)
  const lifted = salvageOfPlan(plan)
  const beyond = (line: BillLine, liftedCount: number) =>
    Math.max(0, Math.min(line.required, line.onHand) - liftedCount)
  const count = (name: Counted, liftedCount = 0) => {
    const line = drawn.items.includes(name) ? lines.find(({ item }) => item === ITEM[name]) : undefined
    return line ? beyond(line, liftedCount) : 0
  }
  const strip = plan.supplies?.ties?.strip
  const ofRail = kind && {
    sticks: lines.flatMap((line) =>
      line.item === 'rail-stick' && drawn.stickLengthsMm.includes(line.lengthMm!)
        ? [{ ...kind, lengthMm: line.lengthMm!, count: beyond(line, liftedOf(lifted, line.lengthMm!)) }]
        : [],
    ),
    panels: panelsTaken(drawn.panels, readyMade),
    ...ofRailParts((name) => [{ ...kind, count: count(name, name === 'joiners' ? lifted.joiners : 0) }]),
  }
  return {
    ...NOTHING,
    ...ofRail,
    ties: count('ties', lifted.ties),
    tieStrips: strip ? [{ ties: strip.ties, count: count('tieStrips') }] : [],
    fasteners: count('fasteners'),
  }
}

function liftedOf({ sticks }: Salvage, lengthMm: number): number {
  return sticks.find((stick) => sameLength(stick.lengthMm, lengthMm))?.count ?? 0
}
