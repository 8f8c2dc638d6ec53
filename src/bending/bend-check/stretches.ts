import { bodiesOf, curvedBodiesOf, levelsOf } from './layout.ts'
import type { Proposal } from './proposal.ts'
import { isStraight, radiusOfMm } from './readings.ts'
import type { Body, Run } from './types.ts'

/**
 * Where the runs and bodies of a proposal begin and end along the track. A run of two stations or more is a straight
 * line through them and ends where it meets its bodies; a run of one or none is assumed to be one spacing long.
 */
export function stretchesOf(
  { layout, unknowns }: Proposal,
  stations: number,
  spacingMm: number,
  chordMm: number,
): { bodies: Body[]; runs: Run[] } {
  const bodyCount = bodiesOf(layout)
  const levels = levelsOf(layout, unknowns).map((level) => (isStraight(level) ? 0 : level))
  const runs: Run[] = []
  let next = curvedBodiesOf(layout)
  for (let run = 0; run < layout.signs.length; run++) {
    const from = layout.cuts[2 * run]!
    const to = layout.cuts[2 * run + 1]!
    const before = run === 0 ? 0 : levels[run - 1]!
    const after = run < bodyCount ? levels[run]! : 0
    const held = Math.min(2, to - from)
    const first = unknowns[next]!
    const last = unknowns[next + held - 1]!
    next += held
    const step = held === 2 ? (last - first) / (to - from - 1) : after - before
    const begins = held === 0 ? from - 1 : from - share(first - before, step)
    const ends = held === 0 ? from : to - 1 + share(after - last, step)
    runs.push({
      fromMm: from === 0 ? null : begins * spacingMm,
      toMm: to === stations ? null : ends * spacingMm,
      fromOrdinateMm: before,
      toOrdinateMm: after,
    })
  }
  const bodies = runs.slice(1).map((run, n) => ({
    fromMm: runs[n]!.toMm,
    toMm: run.fromMm,
    ordinateMm: run.fromOrdinateMm,
    radiusMm: radiusOfMm(chordMm, run.fromOrdinateMm),
  }))
  return { bodies, runs }
}

/** The part of a step, 0 to 1; the layout keeps it in that range except for rounding. */
function share(part: number, step: number): number {
  return step === 0 ? 0 : Math.max(0, Math.min(1, part / step))
}
