import { bendMarks, bentStretches } from '../../laying/bend-marks.ts'
import type { BestCutPlan } from '../../laying/cutting/best-cut-plan.ts'
import type { CutPlan } from '../../laying/cutting/cut-plan.ts'
import { moneyOf, placesOf } from '../../measure/money.ts'
import type { Cutting } from '../answer.ts'
import type { LaidTrack } from '../track/laid-track.ts'

/**
 * The cut plan with each piece's track, rail, trim and bend marks. Its runs are whole rails: left, right, track by track.
 *
 * @param withSticks false: only the figures of the whole
 */
export function cuttingAnswer(
  plan: CutPlan,
  laid: readonly LaidTrack[],
  { cost, provenOptimal }: Pick<BestCutPlan, 'cost' | 'provenOptimal'>,
  currency: string,
  withSticks = true,
): Cutting {
  const places = placesOf(currency)
  const rails = (withSticks ? laid : []).flatMap(({ name, placed, rails }) =>
    (['left', 'right'] as const).map((side) => ({
      track: name,
      side,
      rail: rails[side],
      stretches: bentStretches(placed, rails[side]),
    })),
  )
  return {
    sticks: (withSticks ? plan.sticks : []).map(({ lengthMm, fromStock, kerfMm, trimMm, offcutMm, pieces }) => ({
      lengthMm,
      fromStock,
      kerfMm,
      trimMm,
      offcutMm,
      pieces: pieces.map((piece) => {
        const { track, side, rail, stretches } = rails[piece.run]!
        return {
          track,
          rail: side,
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
