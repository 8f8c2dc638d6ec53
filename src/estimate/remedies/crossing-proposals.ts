import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { lengthLike } from '../../measure/as-written.ts'
import { LEVEL_CLEARANCE_MM, type PlanCrossing } from '../../network/crossings.ts'
import { valueAt } from '../../plan/reading/value-at.ts'
import { elevationOn } from '../../track/grade.ts'
import { bridgeMm, clearanceMm, crossingsOfPlan } from '../track/crossings-of-plan.ts'
import { type Line, sentElements, unitOf } from './line.ts'
import { MARGIN_MM, newGradeLine, type Point, ramped } from './ramps.ts'

/** From the lower rails to the upper ones, for the cars to pass under the bridge. */
function neededMm({ plan }: Line): number {
  return Math.max(LEVEL_CLEARANCE_MM, clearanceMm(plan) + bridgeMm(plan))
}

/**
 * A track that crosses itself or another on the level: one is led over or under the other, with room for the cars and the
 * bridge between them, at a grade that the plan allows, or lifted as a whole, or one curve of a track that crosses itself
 * turns the other way.
 */
export function crossingProposals(finding: Finding, line: Line): Patch[] {
  return crossingsOfPlan(line.tracks, line.plan)
    .level.filter(
      ({ first, apartMm }) =>
        first.track.name === finding.track && first.element.index === finding.element && apartMm === finding.measured,
    )
    .flatMap((crossing) => {
      const [first, second] = [crossing.first.trackIndex, crossing.second.trackIndex]
      if (first === second) return [...overItself(crossing, line, first), ...turnedOtherwise(crossing, line, first)]
      return [second, first].flatMap((upper) => overOther(crossing, line, upper, upper === second ? first : second))
    })
}

/** A bridge that is too low: the track on it is raised, or the one below lowered. */
export function overCrossingProposals(finding: Finding, line: Line): Patch[] {
  return crossingsOfPlan(line.tracks, line.plan)
    .bridges.filter(
      ({ upper, clearMm }) =>
        line.tracks[upper.track]!.name === finding.track &&
        upper.element === finding.element &&
        clearMm === finding.measured,
    )
    .flatMap(({ upper, lower, apartMm }) => {
      const byMm = neededMm(line) - apartMm
      const { startElevationMm } = line.tracks[upper.track]!
      return [
        ...ramped(line, upper.track, upper.atMm, byMm),
        ...ramped(line, lower.track, lower.atMm, -byMm),
        ...lifted(line, upper.track, startElevationMm + byMm + MARGIN_MM),
      ]
    })
}

/** From the first passing to the second the track climbs; a closed one comes down on the way back. */
function overItself({ firstMm, secondMm, apartMm }: PlanCrossing, line: Line, track: number): Patch[] {
  const { closed, lengthMm, startElevationMm, profile } = line.tracks[track]!
  if (hasHeights(line, track)) {
    const isHigher = elevationOn(profile, secondMm) >= elevationOn(profile, firstMm)
    const byMm = neededMm(line) - apartMm
    const [upperMm, lowerMm] = isHigher ? [secondMm, firstMm] : [firstMm, secondMm]
    return [...ramped(line, track, upperMm, byMm), ...ramped(line, track, lowerMm, -byMm)]
  }
  const height = neededMm(line) + MARGIN_MM
  const at = (atMm: number, riseMm: number): Point => ({ atMm, elevationMm: startElevationMm + riseMm })
  const points = (riseMm: number): Point[] => {
    if (!closed) return [at(0, 0), at(firstMm, 0), at(secondMm, riseMm)]
    const fallsMm = (riseMm * firstMm) / (lengthMm - (secondMm - firstMm))
    return [at(0, 0), at(firstMm, -fallsMm), at(secondMm, riseMm - fallsMm), at(lengthMm, 0)]
  }
  return [height, -height].flatMap((riseMm) => gradeLine(points(riseMm), line, track))
}

/** The upper track is lifted as a whole, or led over the other and down again. */
function overOther(crossing: PlanCrossing, line: Line, upper: number, lower: number): Patch[] {
  const [atMm, lowerMm] =
    crossing.first.trackIndex === upper ? [crossing.firstMm, crossing.secondMm] : [crossing.secondMm, crossing.firstMm]
  const { startElevationMm, profile } = line.tracks[upper]!
  const byMm = elevationOn(line.tracks[lower]!.profile, lowerMm) + neededMm(line) - elevationOn(profile, atMm)
  return [
    ...lifted(line, upper, startElevationMm + byMm + MARGIN_MM),
    ...ramped(line, upper, atMm, byMm),
    ...ramped(line, lower, lowerMm, -byMm),
  ]
}

/** The height of a start that is given by its coordinates, or not at all. */
function lifted(line: Line, track: number, elevationMm: number): Patch[] {
  if (line.tracks[track]!.state !== 'new') return []
  const start = valueAt(line.sent, ['tracks', track, 'start'])
  const value = lengthLike(unitOf(sentElements(line, track)), elevationMm, 1)
  if (hasHeights(line, track)) return []
  if (start === undefined) return [[{ op: 'add', path: `/tracks/${track}/start`, value: { elevation: value } }]]
  if (valueAt(start, ['after']) !== undefined || valueAt(start, ['from']) !== undefined) return []
  const op = valueAt(start, ['elevation']) === undefined ? 'add' : 'replace'
  return [[{ op, path: `/tracks/${track}/start/elevation`, value }]]
}

/** A new grade line, if it is nowhere too steep. */
function gradeLine(points: readonly Point[], line: Line, track: number): Patch[] {
  const most = line.plan.standards.maximumGradePct / 100
  const isTooSteep = points.some(({ atMm, elevationMm }, n) => {
    const before = points[n - 1]
    return before !== undefined && Math.abs(elevationMm - before.elevationMm) > most * (atMm - before.atMm)
  })
  return isTooSteep ? [] : [newGradeLine(points, line, track)]
}

function hasHeights({ sent }: Line, track: number): boolean {
  return valueAt(sent, ['tracks', track, 'gradeLine']) !== undefined
}

/** Each curve on the way from the first passing to the second, turning the other way. */
function turnedOtherwise({ first, second }: PlanCrossing, line: Line, track: number): Patch[] {
  return sentElements(line, track).flatMap(({ turn }, index): Patch[] => {
    const isBetween = index >= first.element.index && index <= second.element.index
    if (!isBetween || (turn !== 'left' && turn !== 'right')) return []
    const path = `/tracks/${track}/elements/${index}/turn`
    return [[{ op: 'replace', path, value: turn === 'left' ? 'right' : 'left' }]]
  })
}
