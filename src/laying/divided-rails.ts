import { exceeds } from '../measure/counting.ts'
import type { CutPlan } from './cutting/cut-plan.ts'
import type { Run } from './cutting/problem.ts'
import { trimBetween } from './cutting/trim.ts'

/** A run between two breaks of a rail. */
export interface RunOfRail extends Run {
  /** The number of the rail: left and right of the first track, of the second, and so on. */
  readonly rail: number
  /** Where the run begins, along its rail. */
  readonly startMm: number
  /** The place on the run of a place on its cut rail; the same place when left out (see `bareRun`). */
  readonly runAt?: ((mm: number) => number) | undefined
}

/**
 * A rail as one run for each stretch between its breaks. Breaks at the ends of the rail divide nothing. A closed
 * track always has a joint at its own start, wherever its breaks are.
 *
 * @param breaksMm places along the rail, ascending
 */
export function dividedRail(rail: number, whole: Run, breaksMm: readonly number[]): RunOfRail[] {
  const inside = breaksMm.filter((atMm) => exceeds(atMm, 0) && exceeds(whole.lengthMm, atMm))
  const places = [0, ...inside, whole.lengthMm]
  const { trim } = whole
  return places.slice(1).map((toMm, index) => {
    const startMm = places[index]!
    const own = trim && trimBetween(trim, startMm, toMm)
    return { rail, startMm, lengthMm: toMm - startMm, ...(own && { trim: own }) }
  })
}

/**
 * A cut plan of divided rails by rail: `run` is the rail, and places are from the rail's own start. Pieces of bare
 * runs reach from joint to joint, so they still include the gaps (see `withGaps`).
 */
export function alongRails<P extends CutPlan>(plan: P, runs: readonly RunOfRail[], rails: number): P {
  const piecesPerRail = Array.from({ length: rails }, () => 0)
  for (const [run, { rail }] of runs.entries()) piecesPerRail[rail]! += plan.piecesPerRun[run]!
  return {
    ...plan,
    piecesPerRun: piecesPerRail,
    sticks: plan.sticks.map((stick) => ({
      ...stick,
      pieces: stick.pieces.map((piece) => {
        const { rail, startMm, runAt } = runs[piece.run]!
        if (!runAt) return { ...piece, run: rail, fromMm: startMm + piece.fromMm }
        const fromMm = runAt(piece.fromMm)
        const lengthMm = runAt(piece.fromMm + piece.lengthMm) - fromMm
        return { ...piece, run: rail, fromMm: startMm + fromMm, lengthMm }
      }),
    })),
    shortPieces: plan.shortPieces.map((piece) => ({ ...piece, run: runs[piece.run]!.rail })),
  }
}
