import { exceeds } from '../measure/counting.ts'
import { formatMm } from '../measure/length.ts'
import type { GradeLimit } from '../plan/rows/track.ts'
import { type GradeStretch, gradeWithin } from '../track/grade.ts'
import { elementAt } from '../track/place.ts'
import type { CheckedTrack, Rule } from './checked-track.ts'
import type { Finding } from './finding.ts'

/** A grade within a billionth of the limit passes: it was computed from two elevations. */
const SLACK = 1e-9

/** A part of a stretch under one limit. */
interface Part {
  readonly fromMm: number
  readonly toMm: number
  readonly gradePct: number
  readonly isCurve: boolean
  readonly limitPct: number
  /** Why the limit is not that of the standards. */
  readonly own: { readonly reason: string | null } | null
}

/**
 * A grade steeper than the standards allow, or than the track itself does there, up or down: one warning for each stretch
 * of constant grade under one limit. A vertical curve counts where no straight grade beside it does. A stretch no longer
 * than a short grade may be as steep as one, unless the track has a limit of its own there.
 */
export const maximumGrade: Rule = (track, { maximumGradePct, shortGradeLength, maximumShortGradePct }) => {
  const parts = partsOf(track.grades, track.gradeLimits, maximumGradePct)
  const tooSteep = (part: Part | undefined) => part !== undefined && part.gradePct > part.limitPct * (1 + SLACK)
  return parts.flatMap((part, index): Finding[] => {
    if (!tooSteep(part)) return []
    const beside = [parts[index - 1], parts[index + 1]]
    if (part.isCurve && beside.some((other) => !other?.isCurve && tooSteep(other))) return []
    const isShort =
      shortGradeLength !== null &&
      part.own === null &&
      part.gradePct <= maximumShortGradePct * (1 + SLACK) &&
      !exceeds(steepLengthMm(parts, index, tooSteep), shortGradeLength)
    return isShort ? [] : [findingOf(part, track)]
  })
}

/** Length of the neighbouring parts that are too steep. */
function steepLengthMm(parts: readonly Part[], index: number, tooSteep: (part: Part | undefined) => boolean): number {
  let [first, last] = [index, index]
  while (tooSteep(parts[first - 1])) first--
  while (tooSteep(parts[last + 1])) last++
  return parts[last]!.toMm - parts[first]!.fromMm
}

function partsOf(grades: readonly GradeStretch[], limits: readonly GradeLimit[], usualPct: number): Part[] {
  const bounds = limits.flatMap(({ from, to }) => [from, to]).sort((a, b) => a - b)
  return grades.flatMap((stretch) => {
    const { fromMm, toMm, endGrade } = stretch
    const inside = bounds.filter((mm, index) => mm > fromMm && mm < toMm && mm !== bounds[index - 1])
    const stations = [fromMm, ...inside, toMm]
    return stations.slice(1).map((to, index): Part => {
      const from = stations[index]!
      const own = limits.find((limit) => limit.from <= from && limit.to >= to) ?? null
      return {
        fromMm: from,
        toMm: to,
        gradePct: 100 * Math.max(Math.abs(gradeWithin(stretch, from)), Math.abs(gradeWithin(stretch, to))),
        isCurve: endGrade !== undefined,
        limitPct: own?.maximumGradePct ?? usualPct,
        own,
      }
    })
  })
}

function findingOf({ fromMm, toMm, gradePct, isCurve, limitPct, own }: Part, { name, placed }: CheckedTrack): Finding {
  const riseMm = (gradePct / 100) * (toMm - fromMm)
  const reason = own && `${own.reason ? ` (${own.reason})` : ''} there`
  return {
    rule: 'maximum-grade',
    severity: 'warn',
    track: name,
    element: elementAt(placed, fromMm).index,
    message: `From ${formatMm(fromMm)} to ${formatMm(toMm)} the grade ${isCurve ? 'reaches' : 'is'} ${gradePct.toFixed(2)} %; the limit${reason ?? ''} is ${limitPct} %.`,
    measured: gradePct,
    limit: limitPct,
    unit: '%',
    cure: isCurve
      ? 'Make the grades beside this vertical curve less steep.'
      : limitPct > 0
        ? `Spread the height difference of ${formatMm(riseMm)} over ${formatMm((riseMm / limitPct) * 100)}, or reduce it by ${formatMm(riseMm - ((toMm - fromMm) * limitPct) / 100)}.`
        : 'Lay this stretch level.',
  }
}
