import { longer } from '../../measure/counting.ts'
import type { Bill, Estimate } from '../answer.ts'
import { DEFAULTS } from '../complete-plan.ts'
import type { PlanInput } from '../plan.ts'
import { railKindOf } from './from-stock.ts'
import { type Stock, tidy } from './stock.ts'

/**
 * What comes back into the shed once a plan is built: offcuts no shorter than the shortest piece, whole sticks that a
 * pack held too many, and what is over of the packs of joiners, ties and fasteners that were bought. Rail and joiners
 * of a section or metal of one's own are not kept: nothing could tell them apart later.
 */
export function leftOver(plan: PlanInput, { cutting, bill }: Pick<Estimate, 'cutting' | 'bill'>): Stock {
  const rail = railKindOf(plan.rail)
  const minimumPieceMm = plan.supplies?.minimumPieceMm ?? DEFAULTS.minimumPieceMm
  const over = (item: Bill['lines'][number]['item']) =>
    bill.lines.filter((line) => line.item === item).reduce((sum, line) => sum + unused(line), 0)
  return tidy({
    sticks: rail
      ? [
          ...cutting.sticks
            .filter(({ offcutMm }) => offcutMm > 0 && !longer(minimumPieceMm, offcutMm))
            .map(({ offcutMm }) => ({ ...rail, lengthMm: offcutMm, count: 1 })),
          ...bill.lines
            .filter(({ item }) => item === 'rail-stick')
            .map((line) => ({ ...rail, lengthMm: line.lengthMm!, count: unused(line) })),
        ]
      : [],
    joiners: rail ? [{ ...rail, count: over('joiner') }] : [],
    ties: over('tie'),
    fasteners: over('fastener'),
  })
}

/** Of whole packs, what is not needed. */
function unused({ packs, packSize, toBuy }: Bill['lines'][number]): number {
  return packs * packSize - toBuy
}
