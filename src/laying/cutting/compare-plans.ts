import { roundedUp } from '../../measure/counting.ts'
import { type Money, minorUnitsOf } from '../../measure/money.ts'
import type { Pack, Stick } from '../../plan/rows/supplies.ts'
import { sparesFor } from '../bill.ts'
import type { CutPlan } from './cut-plan.ts'

/** What a cut plan is made of: rail, and joiners counted singly. */
export interface CutSupplies {
  readonly sticks: readonly Stick[]
  readonly joiners: Pack
}

/** What has to be bought for a cut plan. */
interface Outlay {
  /** Sticks and joiners in whole packs, in the smallest unit of the currency; null where something to buy has no price. */
  readonly cents: number | null
  readonly boughtMm: number
  readonly joints: number
  readonly wasteMm: number
}

/**
 * Orders cut plans: less money first (less rail to buy where a price is missing), then fewer joints, then less waste.
 *
 * @param otherJoints joiners that are needed however the runs are divided: closings, joins to other track, ends of bridges
 */
export function cheaperFor(supplies: CutSupplies, otherJoints: number): (a: CutPlan, b: CutPlan) => number {
  const outlays = new WeakMap<CutPlan, Outlay>()
  const outlay = (plan: CutPlan) => {
    const known = outlays.get(plan) ?? outlayOf(plan, supplies, otherJoints)
    outlays.set(plan, known)
    return known
  }
  return (planA, planB) => {
    const [a, b] = [outlay(planA), outlay(planB)]
    const money = a.cents !== null && b.cents !== null ? a.cents - b.cents : a.boughtMm - b.boughtMm
    return money || a.joints - b.joints || a.wasteMm - b.wasteMm
  }
}

function outlayOf(plan: CutPlan, supplies: CutSupplies, otherJoints: number): Outlay {
  const joints = otherJoints + plan.piecesPerRun.reduce((sum, pieces) => sum + pieces - 1, 0)
  const { joiners, sticks } = supplies
  const joinersToHave = joints + sparesFor(joints, joiners.sparePct)
  let cents = centsFor(joinersToHave, joiners.onHand, joiners.packSize, joiners.pricePerPack)
  let boughtMm = 0
  for (const { length, onHand, packSize, price } of sticks) {
    let used = 0
    for (const { lengthMm } of plan.sticks) if (lengthMm === length) used++
    const more = centsFor(used, onHand, packSize, price)
    cents = cents === null || more === null ? null : cents + more
    boughtMm += packsToBuy(used, onHand, packSize) * packSize * length
  }
  return { cents, boughtMm, joints, wasteMm: plan.wasteMm }
}

/** Null where something has to be bought that has no price. */
function centsFor(required: number, onHand: number, packSize: number, price: Money | null): number | null {
  const packs = packsToBuy(required, onHand, packSize)
  if (packs === 0) return 0
  return price === null ? null : packs * minorUnitsOf(price)
}

/** Whole packs for what is required beyond what is on hand. */
export function packsToBuy(required: number, onHand: number, packSize: number): number {
  return roundedUp(Math.max(0, required - onHand) / packSize)
}
