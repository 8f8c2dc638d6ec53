import { type Answer, component, count, flag, length, list, object } from '../../plan/fields/answer.ts'
import { bestCutPlan } from './best-cut-plan.ts'

/** Only runs to be cut from sticks: lengths in mm, money in cents, joiners sold singly. */
export interface CutListProblem {
  readonly runs: readonly { readonly lengthMm: number }[]
  readonly sticks: readonly { readonly lengthMm: number; readonly priceCents: number; readonly onHand: number }[]
  readonly kerfMm: number
  readonly minimumPieceMm: number
  readonly joinerCents: number
  readonly effort: 'quick' | 'thorough'
}

export const PLANNED_STICK = component('PlannedStick', 'A stick and its cuts. Its length = pieces + kerf + offcut.', {
  lengthMm: length(),
  fromStock: flag(),
  kerfMm: length(),
  offcutMm: length(),
  pieces: list(
    object({
      run: count('The run that the piece is for, counted from 0.'),
      fromMm: length('Where the piece begins, from the start of its run, mm.'),
      lengthMm: length(),
    }),
  ),
})

export interface CutListPlan {
  readonly sticks: Answer<typeof PLANNED_STICK>[]
  readonly costCents: number
  /** No plan costs less. */
  readonly costLowerBoundCents: number
  readonly provenOptimal: boolean
  readonly joints: number
  readonly sticksLowerBound: number
  readonly shortestPieceMm: number
}

export type CutListResult =
  | { readonly ok: true; readonly plan: CutListPlan }
  | { readonly ok: false; readonly missingMm: number }

/** The best cut plan for some runs, see `bestCutPlan`. */
export function planCutList(problem: CutListProblem): CutListResult {
  const { runs, sticks, kerfMm, minimumPieceMm, joinerCents, effort } = problem
  const supplies = {
    sticks: sticks.map(({ lengthMm, priceCents, onHand }) => ({
      length: lengthMm,
      price: (priceCents / 100).toFixed(2),
      packSize: 1,
      onHand,
      buyable: true,
    })),
    joiners: {
      packSize: 1,
      pricePerPack: (joinerCents / 100).toFixed(2),
      onHand: 0,
      sparePct: 0,
      massEachG: null,
    },
  }
  const best = bestCutPlan(
    runs,
    supplies,
    { kerf: kerfMm, minimumPiece: minimumPieceMm },
    {
      otherJoints: 0,
      effort,
      cutting: 'even-pieces',
    },
  )
  if (!best.ok) return best
  const { plan, cost, provenOptimal } = best
  return {
    ok: true,
    plan: {
      sticks: plan.sticks.map(({ lengthMm, fromStock, kerfMm: cutMm, offcutMm, pieces }) => ({
        lengthMm,
        fromStock,
        kerfMm: cutMm,
        offcutMm,
        pieces: pieces.map(({ run, fromMm, lengthMm: pieceMm }) => ({ run, fromMm, lengthMm: pieceMm })),
      })),
      costCents: cost!.cents,
      costLowerBoundCents: cost!.leastCents,
      provenOptimal,
      joints: plan.piecesPerRun.reduce((sum, pieces) => sum + pieces - 1, 0),
      sticksLowerBound: plan.sticksLowerBound,
      shortestPieceMm: Math.min(...plan.sticks.flatMap(({ pieces }) => pieces.map(({ lengthMm }) => lengthMm))),
    },
  }
}
