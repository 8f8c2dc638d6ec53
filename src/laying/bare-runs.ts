import { LENGTH_SLACK_MM } from '../measure/counting.ts'
import { RunTrim } from './cutting/trim.ts'
import type { RunOfRail } from './divided-rails.ts'

/** The gaps left along a run when it is laid. */
export interface OpenedRun {
  /** a: the gap that every piece leaves per millimetre of its length, half at each end (see `openPerMm`). */
  readonly openPerMm: number
  /** The permanent gap at each end of the run, as far as it is taken off this run. */
  readonly keptMm: Readonly<Record<'start' | 'end', number>>
  /** Ends of the run without a joint, and so without a gap. */
  readonly free: Readonly<Record<'start' | 'end', boolean>>
  /** ℓ: no piece is longer. */
  readonly longestMm: number
}

/**
 * A run as rail alone, without the gaps in it, so that the cut plan can lay whole sticks with gaps between them instead
 * of cutting every gap off a stick.
 *
 * A piece L takes up L·(1 + a) from joint to joint, since half of a·L stays open at each end of it, and L·(1 + a/2) at
 * a free end, where there is no gap. So a run of length R holds
 *
 * P = (R − kept)/(1 + a) + b for each free end, b = a/2·min(R, ℓ)/(1 + a)
 *
 * of rail, and a place p along the rail is at (p − b at a free start)·(1 + a) + kept at the start along the run. A
 * stick at a free end stays whole; a shorter piece there is cut shorter than planned, by up to a/2·ℓ.
 *
 * Checked in tests/laying/bare-runs.test.ts.
 *
 * @returns the run itself where there are no gaps, or almost nothing would remain of it
 */
export function bareRun(run: RunOfRail, { openPerMm, keptMm, free, longestMm }: OpenedRun): RunOfRail {
  const { lengthMm, jointBy, beside, trim } = run
  const scale = 1 + openPerMm
  const atFreeEndMm = ((openPerMm / 2) * Math.min(lengthMm, longestMm)) / scale
  const gainedMm = { start: free.start ? atFreeEndMm : 0, end: free.end ? atFreeEndMm : 0 }
  const bareMm = (lengthMm - keptMm.start - keptMm.end) / scale + gainedMm.start + gainedMm.end
  if (bareMm === lengthMm || !(bareMm > lengthMm / 2)) return run
  const runAt = (mm: number) => {
    if (mm <= LENGTH_SLACK_MM) return 0
    return mm >= bareMm - LENGTH_SLACK_MM
      ? lengthMm
      : Math.min(lengthMm, Math.max(0, (mm - gainedMm.start) * scale + keptMm.start))
  }
  const bareAt = (mm: number) => {
    if (mm <= 0) return mm
    return mm >= lengthMm - LENGTH_SLACK_MM
      ? bareMm
      : Math.min(bareMm, Math.max(0, (mm - keptMm.start) / scale + gainedMm.start))
  }
  return {
    ...run,
    lengthMm: bareMm,
    runAt,
    ...(jointBy && {
      jointBy: (mm: number, fromMm: number) => Math.min(mm, bareAt(jointBy(runAt(mm), runAt(fromMm)))),
    }),
    ...(beside && {
      beside: {
        run: beside.run,
        stationAt: (mm: number) => beside.stationAt(runAt(mm)),
        placeAt: (stationMm: number) => bareAt(beside.placeAt(stationMm)),
      },
    }),
    ...(trim && {
      trim: new RunTrim({
        ...trim.spec,
        bends: trim.spec.bends.map(({ fromMm, toMm }) => ({ fromMm: bareAt(fromMm), toMm: bareAt(toMm) })),
        creepMm: trim.spec.creepMm && ((mm) => trim.creepMm(runAt(mm))),
      }),
    }),
  }
}
