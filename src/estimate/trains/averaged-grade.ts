import type { AveragedGrade } from '../../checking/averaged-grade.ts'
import { evenTrain, haulOn } from '../../hauling/train.ts'
import { frontAt, type StoodOn, standsOn } from '../../network/train-ways.ts'
import { elementAt } from '../../track/place.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import { waysOfTrains } from './hauls.ts'
import { longestTrainMm } from './trains-of-plan.ts'

/** The steepest place of the longest train, and what it stands on there. */
export interface AveragedPlace extends AveragedGrade {
  readonly under: readonly StoodOn[]
}

/** A grade within a billionth of the limit passes. */
const SLACK = 1e-9

/**
 * Where the grade under the longest train is more on average than the plan allows, the steepest first and nowhere twice.
 * Asked only where short grades may be steeper (`standards.shortGradeLength`): elsewhere no grade may. A track with a limit
 * of its own there may average as much.
 */
export function averagedTooSteep(drawn: readonly LaidTrack[], plan: Plan): AveragedPlace[] {
  const { shortGradeLength, maximumGradePct } = plan.standards
  const longestMm = longestTrainMm(plan)
  if (shortGradeLength === null || longestMm === 0) return []
  const ways = waysOfTrains(drawn, plan)
  const steep = drawn.flatMap((track, index): AveragedPlace[] => {
    if (track.state === 'lifted') return []
    const { climbing } = haulOn(ways.ofTrack(index, longestMm), [evenTrain(longestMm, 0)])
    const under = standsOn(climbing.on, climbing.frontMm, longestMm)
    const limitPct = Math.max(maximumGradePct, ...under.flatMap((each) => ownLimits(drawn[each.track]!, each)))
    const pct = 100 * climbing.grade
    if (pct <= limitPct * (1 + SLACK)) return []
    const { atMm } = frontAt(climbing.on, climbing.frontMm)
    const { name, placed } = track
    return [{ track: name, element: elementAt(placed, atMm).index, atMm, pct, limitPct, overMm: longestMm, under }]
  })
  const taken = new Set<number>()
  return steep
    .toSorted((a, b) => b.pct - a.pct)
    .filter(({ under }) => {
      if (under.some(({ track }) => taken.has(track))) return false
      for (const { track } of under) taken.add(track)
      return true
    })
}

function ownLimits({ gradeLimits }: LaidTrack, { fromMm, toMm }: StoodOn): number[] {
  return gradeLimits.filter(({ from, to }) => from < toMm && to > fromMm).map((limit) => limit.maximumGradePct)
}
