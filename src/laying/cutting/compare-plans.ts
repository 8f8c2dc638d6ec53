import { roundedUp } from '../../measure/counting.ts'
import { compareMoney, type Money, priceOf, sumOf } from '../../measure/money.ts'
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
  /** Sticks and joiners in whole packs; null where something to buy has no price. */
  readonly money: Money | null
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
    const money = a.money !== null && b.money !== null ? compareMoney(a.money, b.money) : a.boughtMm - b.boughtMm
    return money || a.joints - b.joints || a.wasteMm - b.wasteMm
  }
}

function outlayOf(plan: CutPlan, supplies: CutSupplies, otherJoints: number): Outlay {
  const joints = otherJoints + plan.piecesPerRun.reduce((sum, pieces) => sum + pieces - 1, 0)
  const { joiners, sticks } = supplies
  const joinersToHave = joints + sparesFor(joints, joiners.sparePct)
  const amounts: (Money | null)[] = [amount(joinersToHave, joiners.onHand, joiners.packSize, joiners.pricePerPack)]
  let boughtMm = 0
  for (const stick of sticks) {
    const used = plan.sticks.filter(({ lengthMm }) => lengthMm === stick.length).length
    amounts.push(amount(used, stick.onHand, stick.packSize, stick.price))
    boughtMm += packsToBuy(used, stick.onHand, stick.packSize) * stick.packSize * stick.length
  }
  const priced = amounts.filter((money) => money !== null)
  const money = priced.length === amounts.length ? sumOf(priced) : null
  return { money, boughtMm, joints, wasteMm: plan.wasteMm }
}

function amount(required: number, onHand: number, packSize: number, price: Money | null): Money | null {
  const packs = packsToBuy(required, onHand, packSize)
  if (packs === 0) return '0.00'
  return price === null ? null : priceOf(packs, price)
}

/** Whole packs for what is required beyond what is on hand. */
export function packsToBuy(required: number, onHand: number, packSize: number): number {
  return roundedUp(Math.max(0, required - onHand) / packSize)
}
