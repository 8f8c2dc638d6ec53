import type { BillLine, Estimate } from '../estimate/answer.ts'
import { salvageOfPlan } from '../estimate/track/lifted.ts'
import { packsToBuy } from '../laying/cutting/compare-plans.ts'
import { DEG_PER_RAD } from '../measure/angle.ts'
import { exceeds, sameLength } from '../measure/counting.ts'
import { panelsOf } from '../plan/completing/supplies.ts'
import { panelCurve, panelLengthMm } from '../plan/panels.ts'
import { ofRailParts, RAIL_PARTS } from '../plan/rows/parts.ts'
import type { PlanInput } from '../plan/rows/plan.ts'
import type { Panel } from '../plan/rows/supplies.ts'
import { USUAL } from '../plan/usual.ts'
import { railKindOf } from './from-stock.ts'
import { NOTHING, type RailKind, type Stock, type StockedPanel, tidy } from './stock.ts'

/**
 * What goes back into the shed once a plan is built: offcuts no shorter than the shortest piece, of sticks and of
 * ready-made track; unused whole sticks and pieces of a pack; the rest of the packs of everything counted that was
 * bought; and what was lifted and is not laid again. Parts for a rail whose section or metal is custom are not kept:
 * they could not be told apart later.
 *
 * @param plan as it was estimated, with what the shed had for it filled in (`stockFor`)
 */
export function leftOver(
  plan: PlanInput,
  { cutting, readyMade, bill }: Pick<Estimate, 'cutting' | 'readyMade' | 'bill'>,
): Stock {
  const rail = railKindOf(plan.rail)
  const minimumPieceMm = plan.supplies?.minimumPiece ?? USUAL.minimumPiece
  const lifted = salvageOfPlan(plan)
  const lineOf = (item: BillLine['item'], lengthMm: number | null) =>
    bill.lines.find((line) => line.item === item && (lengthMm === null || sameLength(line.lengthMm!, lengthMm)))
  const over = (item: BillLine['item'], liftedCount = 0) => {
    const line = lineOf(item, null)
    return line ? unused(line) + unusedLifted(line, liftedCount) : liftedCount
  }
  const ofRail = rail && {
    sticks: [
      ...cutting.sticks
        .filter(({ offcutMm }) => offcutMm > 0 && !exceeds(minimumPieceMm, offcutMm))
        .map(({ offcutMm }) => ({ ...rail, lengthMm: offcutMm, count: 1 })),
      ...bill.lines
        .filter(({ item }) => item === 'rail-stick')
        .map((line) => ({ ...rail, lengthMm: line.lengthMm!, count: unused(line) })),
      ...lifted.sticks.map(({ lengthMm, count }) => {
        const line = lineOf('rail-stick', lengthMm)
        return { ...rail, lengthMm, count: line ? unusedLifted(line, count) : count }
      }),
    ],
    panels: panelsOf(plan.supplies).flatMap((panel, index) => {
      const used = (readyMade?.panels ?? []).filter((each) => each.panel === index)
      const { onHand, packSize } = panel
      const boughtOver = packsToBuy(used.length, onHand, packSize) * packSize - Math.max(0, used.length - onHand)
      return [
        pieceOf(panel, panelLengthMm(panel), boughtOver, rail),
        ...used
          .filter(({ offcutMm }) => offcutMm > 0 && !exceeds(minimumPieceMm, offcutMm))
          .map(({ offcutMm }) => pieceOf(panel, offcutMm, 1, rail)),
      ]
    }),
    ...ofRailParts((name) => [
      { ...rail, count: over(RAIL_PARTS[name].item, name === 'joiners' ? lifted.joiners : 0) },
    ]),
  }
  const strip = plan.supplies?.ties?.strip
  return tidy({
    ...NOTHING,
    ...ofRail,
    ties: over('tie', lifted.ties),
    tieStrips: strip ? [{ ties: strip.ties, count: over('tie-strip') }] : [],
    fasteners: over('fastener'),
  })
}

/** A length of a ready-made piece; a part of one keeps the ties that are whole on it, in proportion to its length. */
function pieceOf(panel: Panel, lengthMm: number, count: number, rail: RailKind): StockedPanel {
  const curve = panelCurve(panel)
  return {
    ...rail,
    lengthMm,
    radiusMm: curve?.radiusMm ?? null,
    angleDeg: curve && (lengthMm / curve.radiusMm) * DEG_PER_RAD,
    ties: Math.floor((panel.ties * lengthMm) / panelLengthMm(panel)),
    count,
  }
}

/** The unneeded part of whole packs. */
function unused({ packs, packSize, toBuy }: BillLine): number {
  return packs * packSize - toBuy
}

/** Lifted things are used before anything else that is on hand. */
function unusedLifted({ required, onHand }: BillLine, liftedCount: number): number {
  return Math.max(0, liftedCount - Math.min(required, onHand))
}
