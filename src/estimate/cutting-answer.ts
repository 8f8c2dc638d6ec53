import { bendMarks, bentStretches } from '../laying/bend-marks.ts'
import type { CutPlan, Run } from '../laying/cut-plan.ts'
import type { Cutting } from './answer.ts'
import type { LaidTrack } from './laid-track.ts'

/** The cut plan with each piece's track, rail, trim and bend marks. Runs are counted left, right, track by track. */
export function cuttingAnswer(plan: CutPlan, laid: readonly LaidTrack[], runs: readonly Run[]): Cutting {
  const rails = laid.flatMap(({ name, placed, rails }) =>
    (['left', 'right'] as const).map((side) => ({
      track: name,
      side,
      rail: rails[side],
      stretches: bentStretches(placed, rails[side]),
    })),
  )
  return {
    sticks: plan.sticks.map(({ lengthMm, fromStock, kerfMm, trimMm, offcutMm, pieces }) => ({
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
          lengthMm: piece.lengthMm,
          trimMm: runs[piece.run]!.trimMm?.(piece.fromMm, piece.fromMm + piece.lengthMm) ?? 0,
          bends: bendMarks(rail, stretches, piece),
        }
      }),
    })),
    sticksUsed: plan.sticks.length,
    sticksLowerBound: plan.sticksLowerBound,
    wasteMm: plan.wasteMm,
    reusableMm: plan.reusableMm,
  }
}
