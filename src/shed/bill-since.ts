import { FINDING, type Finding } from '../checking/finding.ts'
import type { Bill, BillLine } from '../estimate/answer.ts'
import { panelName } from '../estimate/bill/needs.ts'
import { estimate } from '../estimate/estimate.ts'
import { BILL_LINE, BILL_TOTALS, withTotals } from '../laying/bill.ts'
import { packsToBuy } from '../laying/cutting/compare-plans.ts'
import { sameLength } from '../measure/counting.ts'
import type { Fault } from '../measure/fault.ts'
import { inUnits } from '../measure/in-units.ts'
import { compareMoney, priceOf } from '../measure/money.ts'
import { sum } from '../measure/sum.ts'
import { panelsOf } from '../plan/completing/supplies.ts'
import { type Answer, component, count, extended, list, number } from '../plan/fields/answer.ts'
import { RAIL_PARTS } from '../plan/rows/parts.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { RailInput } from '../plan/rows/rail.ts'
import type { StickInput, SuppliesInput } from '../plan/rows/supplies.ts'
import { USUAL } from '../plan/usual.ts'
import { stockFor } from './from-stock.ts'
import type { Stock } from './stock.ts'

/** A revision of a plan, without faults, with what the shed has for it. */
export interface PlannedRevision {
  readonly plan: PlanInput
  readonly stock: Stock
}

export const LINE_SINCE = extended(BILL_LINE, 'LineSince', 'A line of a bill, with what was bought before.', {
  boughtBefore: number({
    least: 0,
    title: 'Bought before',
    says: 'Pieces bought on the earlier bills; included in onHand.',
  }),
})

type LineSince = Answer<typeof LINE_SINCE>

export const BILL_SINCE = component('BillSince', 'What is still to buy for a revision.', {
  revision: count({ least: 1, says: 'The current revision, whose bill this is.' }),
  since: list(count({ least: 1 }), 'The revisions whose bills count as bought.'),
  lines: list(LINE_SINCE),
  ...BILL_TOTALS,
  findings: list(
    FINDING,
    'Where all purchases together exceed buying everything at once by more than one pack of a line, and why.',
  ),
})

/** What has to be bought in addition. */
export type BillSince = Omit<Answer<typeof BILL_SINCE>, 'revision' | 'since'>

/** Pieces that were bought, and the rail they were bought for. */
interface Bought {
  readonly line: BillLine
  readonly rail: RailInput
  readonly pieces: number
}

/**
 * What the last revision needs in addition, given that each earlier one was bought from its own bill, which counted on
 * those before it. What was bought is stock, whole and uncut, besides what is on hand; none of it is built in yet.
 *
 * Two ways are compared, and the cheaper returned: keeping the cut plan one would make without it, and planning again
 * around those sticks. The first never buys more in total than buying at once plus one pack per line, unless more
 * was bought before than is needed now.
 *
 * @param revisions the earlier ones that were bought, in order, and the present one last
 */
export function billSince(
  revisions: readonly PlannedRevision[],
): { ok: true; bill: BillSince } | { ok: false; faults: Fault[] } {
  let bought: readonly Bought[] = []
  let bill: BillSince | null = null
  for (const revision of revisions) {
    const fitting = bought.filter(({ line, rail }) => !RAIL_BOUND.has(line.item) || sameKind(rail, revision.plan.rail))
    const more = additionalBill(revision, fitting)
    if (!more.ok) return more
    bill = more.bill
    bought = [
      ...bought,
      ...more.bill.lines.map((line) => ({ line, rail: revision.plan.rail, pieces: line.packs * line.packSize })),
    ].filter(({ pieces }) => pieces > 0)
  }
  if (!bill) throw new RangeError('a bill is that of some revision')
  return { ok: true, bill }
}

/** What fits only the rail it was bought for. */
const RAIL_BOUND: ReadonlySet<string> = new Set([
  'rail-stick',
  'panel',
  ...Object.values(RAIL_PARTS).map(({ item }) => item),
])

function sameKind(a: RailInput, b: RailInput): boolean {
  return JSON.stringify([a.section, a.material]) === JSON.stringify([b.section, b.material])
}

function additionalBill(
  { plan, stock }: PlannedRevision,
  bought: readonly Bought[],
): { ok: true; bill: BillSince } | { ok: false; faults: Fault[] } {
  const stocked = stockFor(plan, stock).plan
  const atOnce = estimate(stocked)
  const around = bought.some(({ line }) => CUT.has(line.item)) ? estimate(withRail(stocked, bought)) : atOnce
  if (!around.ok) return around
  const planned = around === atOnce ? around.estimate.bill : withoutRail(around.estimate.bill, bought)
  const replanned = withPurchases(planned, bought)
  // What was bought may be all the rail there is: then buying at once is not possible, and there is nothing to compare with.
  if (!atOnce.ok) return { ok: true, bill: replanned }
  const kept = withPurchases(atOnce.estimate.bill, bought)
  const bill = cheaper(replanned, kept) ? replanned : kept
  return {
    ok: true,
    bill: {
      ...bill,
      findings: overbuying(bill, atOnce.estimate.bill).map((finding) => ({
        ...finding,
        message: inUnits(finding.message, plan.units),
      })),
    },
  }
}

function boughtOf(line: BillLine, bought: readonly Bought[]): number {
  return bought.filter((each) => sameThing(each.line, line)).reduce((sum, { pieces }) => sum + pieces, 0)
}

function sameThing(a: BillLine, b: BillLine): boolean {
  if (a.item !== b.item) return false
  if (a.lengthMm === null || b.lengthMm === null) return a.lengthMm === b.lengthMm && a.description === b.description
  return sameLength(a.lengthMm, b.lengthMm)
}

/** What the cut plan is made around. */
const CUT: ReadonlySet<string> = new Set(['rail-stick', 'panel'])

/** The plan with the sticks and ready-made pieces that were bought among those on hand. */
function withRail(plan: PlanInput, bought: readonly Bought[]): PlanInput {
  const sticks: StickInput[] = [...(plan.supplies?.sticks ?? [{ length: USUAL.stick.length }])]
  for (const { line, pieces } of bought) {
    if (line.item !== 'rail-stick') continue
    const index = sticks.findIndex(({ length: lengthMm }) => sameLength(lengthMm, line.lengthMm!))
    const there = sticks[index]
    if (there) sticks[index] = { ...there, onHand: (there.onHand ?? USUAL.onHand) + pieces }
    else sticks.push({ length: line.lengthMm!, packSize: line.packSize, onHand: pieces, buyable: false })
  }
  return { ...plan, supplies: { ...plan.supplies, sticks, panels: panelsWith(plan.supplies, bought) } }
}

function panelsWith(supplies: SuppliesInput | undefined, bought: readonly Bought[]): SuppliesInput['panels'] {
  const called = panelsOf(supplies).map(panelName)
  return supplies?.panels?.map((panel, index) => {
    const pieces = bought.filter(({ line }) => line.item === 'panel' && line.description === called[index])
    return { ...panel, onHand: (panel.onHand ?? USUAL.onHand) + sum(pieces.map((each) => each.pieces)) }
  })
}

/** A bill without what was bought as on hand: `withPurchases` counts that. */
function withoutRail({ lines, ...bill }: Bill, bought: readonly Bought[]): Bill {
  return {
    ...bill,
    lines: lines.map((line) => (CUT.has(line.item) ? { ...line, onHand: line.onHand - boughtOf(line, bought) } : line)),
  }
}

/** A bill that counts what was bought, including what is no longer needed. */
function withPurchases({ lines, ...terms }: Bill, bought: readonly Bought[]): BillSince {
  const all = [...lines]
  for (const { line } of bought)
    if (!all.some((each) => sameThing(each, line)))
      all.push({ ...line, required: 0, onHand: 0, reasons: [], spares: 0, packs: 0, massKg: 0 })
  const more = all.map((line): LineSince => {
    const { required, packSize, unitPrice } = line
    const boughtBefore = boughtOf(line, bought)
    const onHand = line.onHand + boughtBefore
    const toBuy = Math.max(0, required - onHand)
    const packs = packsToBuy(required, onHand, packSize)
    const amount = unitPrice === null ? null : priceOf(packs, unitPrice)
    const massKg = packs === 0 ? 0 : line.massKg === null ? null : (line.massKg * packs) / line.packs
    return { ...line, onHand, boughtBefore, toBuy, packs, amount, massKg }
  })
  return { ...withTotals(more, terms), findings: [] }
}

/** Less money; where a price is missing, less rail, then fewer packs. */
function cheaper(a: BillSince, b: BillSince): boolean {
  const priced = ({ lines }: BillSince) => lines.every(({ packs, amount }) => packs === 0 || amount !== null)
  if (priced(a) && priced(b)) return compareMoney(a.total, b.total) < 0
  const railMm = ({ lines }: BillSince) =>
    lines.reduce((sum, { lengthMm, packs, packSize }) => sum + (lengthMm ?? 0) * packs * packSize, 0)
  const packs = ({ lines }: BillSince) => lines.reduce((sum, line) => sum + line.packs, 0)
  return railMm(a) - railMm(b) < 0 || (railMm(a) === railMm(b) && packs(a) < packs(b))
}

function overbuying(bill: BillSince, atOnce: Bill): Finding[] {
  return bill.lines.flatMap((line): Finding[] => {
    const inAll = line.boughtBefore + line.packs * line.packSize
    const direct = atOnce.lines.find((each) => sameThing(each, line))
    const directly = direct ? direct.packs * direct.packSize : 0
    if (inAll <= directly + line.packSize) return []
    const over = line.boughtBefore > line.required
    return [
      {
        rule: 'bought-before',
        severity: 'note',
        track: null,
        element: null,
        message: `${line.description}: ${inAll} are bought in total; buying everything at once would take ${directly}. ${
          over
            ? `${line.boughtBefore} were bought for earlier bills; ${line.required} are needed now.`
            : 'Using up what was bought before costs less than buying what the plan would otherwise take.'
        }`,
        measured: inAll,
        limit: directly + line.packSize,
        unit: 'each',
        cure: over ? 'Return unopened packs, or keep them in the shed.' : 'None needed.',
      },
    ]
  })
}
