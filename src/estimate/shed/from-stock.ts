import { MATERIAL_SPELLINGS } from '../../catalogue/materials.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import type { Bill, BillLine, Estimate } from '../answer.ts'
import { DEFAULTS } from '../complete-plan.ts'
import { estimate } from '../estimate.ts'
import { type Salvage, salvageOfPlan } from '../lifted.ts'
import type { Assumption, PackInput, PlanInput, RailInput, StickInput, SuppliesInput } from '../plan.ts'
import { type RailKind, type Stock, sameLength, sameRail, tidy } from './stock.ts'

/** A plan whose open `onHand` fields say what the shed has for it. */
export interface Stocked {
  readonly plan: PlanInput
  /** What was filled in, and from where. */
  readonly assumptions: readonly Assumption[]
  /** Which lines of its bill draw on the shed; the others on what the plan itself says is on hand. */
  readonly drawn: Drawn
}

interface Drawn {
  /** As the plan has them now. */
  readonly stickLengthsMm: readonly number[]
  readonly items: readonly Counted[]
}

const COUNTED = ['joiners', 'ties', 'fasteners'] as const
type Counted = (typeof COUNTED)[number]

/** Stock is told apart by section and material of the catalogue; null for a rail that has its own. */
export function railKindOf({ section, material }: RailInput): RailKind | null {
  if (typeof section !== 'string' || typeof material !== 'string') return null
  return { section, material: MATERIAL_SPELLINGS[material] ?? material }
}

/**
 * Fills in what is on hand from the shed. What the plan says itself stands: an `onHand` of its own, 0 too, is a what-if
 * for that length or thing. Lengths that only lie in the shed are added as not to be bought. Of rail and joiners only
 * those of the plan's own section and material are looked at, whatever their temper.
 */
export function stockFor(plan: PlanInput, stock: Stock): Stocked {
  const rail = railKindOf(plan.rail)
  const assumptions: Assumption[] = []
  const fill = (field: string, value: string) =>
    assumptions.push({ field: `/supplies/${field}`, value, reason: 'in the shed, and no other project has it' })

  const ours = rail ? stock.sticks.filter((stick) => stick.count > 0 && sameRail(stick, rail)) : []
  const given = plan.supplies?.sticks
  const sticks: StickInput[] = given ? [...given] : [{ lengthMm: DEFAULTS.stickMm }]
  const stickLengthsMm: number[] = []
  for (const { lengthMm, count } of ours) {
    const index = sticks.findIndex((stick) => sameLength(stick.lengthMm, lengthMm))
    const there = sticks[index]
    if (!there) {
      fill(`sticks/${sticks.length}/onHand`, `${count} of ${formatMm(lengthMm, 3)}, none to be bought`)
      sticks.push({ lengthMm, packSize: 1, onHand: count, buyable: false })
      stickLengthsMm.push(lengthMm)
    } else if (there.onHand === undefined) {
      fill(`sticks/${index}/onHand`, String(count))
      sticks[index] = { ...there, onHand: count }
      stickLengthsMm.push(there.lengthMm)
    }
  }
  if (!given && ours.length > 0)
    assumptions.push({
      field: '/supplies/sticks',
      value: `one length of 5 ft (${formatMm(DEFAULTS.stickMm)}) to be bought`,
      reason: 'no sticks given',
    })

  const joiners = rail ? (stock.joiners.find((row) => sameRail(row, rail))?.count ?? 0) : 0
  const counts = { joiners, ties: stock.ties, fasteners: stock.fasteners }
  const items = COUNTED.filter((name) => counts[name] > 0 && plan.supplies?.[name]?.onHand === undefined)
  const packs: { [Name in Counted]?: PackInput } = {}
  for (const name of items) {
    fill(`${name}/onHand`, String(counts[name]))
    packs[name] = { ...plan.supplies?.[name], onHand: counts[name] }
  }
  const supplies: SuppliesInput = { ...plan.supplies, ...packs, ...(given || ours.length > 0 ? { sticks } : {}) }
  return { plan: { ...plan, supplies }, assumptions, drawn: { stickLengthsMm, items } }
}

/**
 * The estimate of a plan that may use this stock, and what of it the estimate takes.
 *
 * @param plan a plan without faults
 */
export function estimateFromStock(
  plan: PlanInput,
  stock: Stock,
): { ok: true; estimate: Estimate; taken: Stock } | { ok: false; faults: Fault[] } {
  const stocked = stockFor(plan, stock)
  const result = estimate(stocked.plan)
  if (!result.ok) return result
  const worked = { ...result.estimate, assumptions: [...result.estimate.assumptions, ...stocked.assumptions] }
  return { ok: true, estimate: worked, taken: tidy(takenBy(worked.bill, stocked)) }
}

const ITEM = { joiners: 'joiner', ties: 'tie', fasteners: 'fastener' } as const

/** Track that is lifted for it is used first, then what the shed has. */
function takenBy({ lines }: Bill, { drawn, plan }: Stocked): Stock {
  const kind = railKindOf(plan.rail)
  const lifted = salvageOfPlan(plan)
  const beyond = (line: BillLine, liftedCount: number) =>
    Math.max(0, Math.min(line.required, line.onHand) - liftedCount)
  const count = (name: Counted) => {
    const line = drawn.items.includes(name) ? lines.find(({ item }) => item === ITEM[name]) : undefined
    return line ? beyond(line, name === 'fasteners' ? 0 : lifted[name]) : 0
  }
  return {
    sticks: lines.flatMap((line) =>
      kind && line.item === 'rail-stick' && drawn.stickLengthsMm.includes(line.lengthMm!)
        ? [{ ...kind, lengthMm: line.lengthMm!, count: beyond(line, liftedOf(lifted, line.lengthMm!)) }]
        : [],
    ),
    joiners: kind ? [{ ...kind, count: count('joiners') }] : [],
    ties: count('ties'),
    fasteners: count('fasteners'),
  }
}

function liftedOf({ sticks }: Salvage, lengthMm: number): number {
  return sticks.find((stick) => sameLength(stick.lengthMm, lengthMm))?.count ?? 0
}
