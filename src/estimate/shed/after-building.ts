import { longer } from '../../measure/counting.ts'
import type { BillLine, Estimate } from '../answer.ts'
import { DEFAULTS } from '../complete-plan.ts'
import { salvageOfPlan } from '../lifted.ts'
import type { PlanInput } from '../plan.ts'
import { railKindOf } from './from-stock.ts'
import { type Stock, sameLength, tidy } from './stock.ts'

/**
 * What comes back into the shed once a plan is built: offcuts no shorter than the shortest piece, whole sticks that a
 * pack held too many, and what is over of the packs of joiners, ties and fasteners that were bought; and what was lifted and is not laid again. Rail and joiners
 * of a section or metal of one's own are not kept: nothing could tell them apart later.
 */
export function leftOver(plan: PlanInput, { cutting, bill }: Pick<Estimate, 'cutting' | 'bill'>): Stock {
  const rail = railKindOf(plan.rail)
  const minimumPieceMm = plan.supplies?.minimumPieceMm ?? DEFAULTS.minimumPieceMm
  const lifted = salvageOfPlan(plan)
  const lineOf = (item: BillLine['item'], lengthMm: number | null) =>
    bill.lines.find((line) => line.item === item && (lengthMm === null || sameLength(line.lengthMm!, lengthMm)))
  const over = (item: BillLine['item'], liftedCount = 0) => {
    const line = lineOf(item, null)
    return line ? unused(line) + notLaidAgain(line, liftedCount) : liftedCount
  }
  return tidy({
    sticks: rail
      ? [
          ...cutting.sticks
            .filter(({ offcutMm }) => offcutMm > 0 && !longer(minimumPieceMm, offcutMm))
            .map(({ offcutMm }) => ({ ...rail, lengthMm: offcutMm, count: 1 })),
          ...bill.lines
            .filter(({ item }) => item === 'rail-stick')
            .map((line) => ({ ...rail, lengthMm: line.lengthMm!, count: unused(line) })),
          ...lifted.sticks.map(({ lengthMm, count }) => {
            const line = lineOf('rail-stick', lengthMm)
            return { ...rail, lengthMm, count: line ? notLaidAgain(line, count) : count }
          }),
        ]
      : [],
    joiners: rail ? [{ ...rail, count: over('joiner', lifted.joiners) }] : [],
    ties: over('tie', lifted.ties),
    fasteners: over('fastener'),
  })
}

/** Of whole packs, what is not needed. */
function unused({ packs, packSize, toBuy }: BillLine): number {
  return packs * packSize - toBuy
}

/** Of what was lifted; it is laid before anything else that is on hand. */
function notLaidAgain({ required, onHand }: BillLine, liftedCount: number): number {
  return Math.max(0, liftedCount - Math.min(required, onHand))
}
