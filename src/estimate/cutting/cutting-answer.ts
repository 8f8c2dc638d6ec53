import { type BentStretch, bendMarks, bentStretches } from '../../laying/bend-marks.ts'
import type { BestCutPlan } from '../../laying/cutting/best-cut-plan.ts'
import type { CutPlan } from '../../laying/cutting/cut-plan.ts'
import { SIDES, type Side } from '../../laying/joints.ts'
import { moneyOf, placesOf } from '../../measure/money.ts'
import type { RailLine } from '../../track/rails.ts'
import type { Cutting } from '../answer.ts'
import type { BuiltRail } from '../track/built-rails.ts'
import type { LaidTrack } from '../track/laid-track.ts'

interface RailToCut {
  readonly track: string
  readonly side: Side
  readonly rail: RailLine
  readonly stretches: readonly BentStretch[]
  /** Of a rail of a turnout that is built by hand. */
  readonly turnout?: { readonly name: string; readonly rail: number }
}

/**
 * The cut plan with each piece's track, rail, trim and bend marks. Its runs are whole rails: left, right, track by track, then those of turnouts built by hand.
 *
 * @param withSticks false: only the figures of the whole
 */
export function cuttingAnswer(
  plan: CutPlan,
  laid: readonly LaidTrack[],
  { cost, provenOptimal }: Pick<BestCutPlan, 'cost' | 'provenOptimal'>,
  currency: string,
  { withSticks = true, built = [] }: { readonly withSticks?: boolean; readonly built?: readonly BuiltRail[] } = {},
): Cutting {
  const places = placesOf(currency)
  const ofTracks = (withSticks ? laid : []).flatMap(({ name, placed, rails }) =>
    SIDES.map((side) => ({ track: name, side, rail: rails[side], stretches: bentStretches(placed, rails[side]) })),
  )
  const ofTurnouts = (withSticks ? built : []).map(({ track, turnout, index, rail, placed, line }) => ({
    ...{ track: laid[track]!.name, side: rail.side, rail: line, stretches: bentStretches(placed, line) },
    turnout: { name: turnout.name, rail: index },
  }))
  const rails: readonly RailToCut[] = [...ofTracks, ...ofTurnouts]
  return {
    sticks: (withSticks ? plan.sticks : []).map(({ lengthMm, fromStock, kerfMm, trimMm, offcutMm, pieces }) => ({
      lengthMm,
      fromStock,
      kerfMm,
      trimMm,
      offcutMm,
      pieces: pieces.map((piece) => {
        const { track, side, rail, stretches, turnout } = rails[piece.run]!
        return {
          track,
          rail: side,
          ...(turnout && { turnout }),
          fromMm: piece.fromMm,
          sawLengthMm: piece.trimStartMm + piece.lengthMm + piece.trimEndMm,
          lengthMm: piece.lengthMm,
          trimStartMm: piece.trimStartMm,
          trimEndMm: piece.trimEndMm,
          trimMm: piece.trimStartMm + piece.trimEndMm,
          bends: bendMarks(rail, stretches, piece),
        }
      }),
    })),
    sticksUsed: plan.sticks.length,
    sticksLowerBound: plan.sticksLowerBound,
    wasteMm: plan.wasteMm,
    reusableMm: plan.reusableMm,
    cost: cost && moneyOf(cost.cents, places),
    costLowerBound: cost && moneyOf(cost.leastCents, places),
    provenOptimal,
  }
}
