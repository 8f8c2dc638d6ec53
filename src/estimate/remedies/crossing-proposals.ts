import type { Finding } from '../../checking/finding.ts'
import type { Patch } from '../../fitting/json-patch.ts'
import { lengthLike } from '../../measure/as-written.ts'
import { crossingsOf, LEVEL_CLEARANCE_MM, type PlanCrossing } from '../../network/crossings.ts'
import { valueAt } from '../../plan/reading/value-at.ts'
import { type Line, sentElements, unitOf } from './line.ts'

/** What rounding the places and heights of a grade line may take away. */
const MARGIN_MM = 2

/** A point of a new grade line: its station, and how much higher than the start of the track it is. */
interface Point {
  readonly atMm: number
  readonly riseMm: number
}

/**
 * A track that crosses itself or another on the level: one is led over the other, at a grade that the plan allows, or
 * lifted as a whole, or one curve of a track that crosses itself turns the other way. Only tracks without heights of
 * their own are led over another.
 */
export function crossingProposals(finding: Finding, line: Line): Patch[] {
  const drawn = line.tracks
    .filter(({ state }) => state !== 'lifted')
    .map((track) => ({ ...track, gaugeMm: line.plan.gauge }))
  return crossingsOf(drawn)
    .level.filter(
      ({ first, apartMm }) =>
        first.track.name === finding.track && first.element.index === finding.element && apartMm === finding.measured,
    )
    .flatMap((crossing) => {
      const [first, second] = [trackOf(crossing.first, line), trackOf(crossing.second, line)]
      if (first === second) return [...overItself(crossing, line, first), ...turnedOtherwise(crossing, line, first)]
      return [second, first].flatMap((upper) => overOther(crossing, line, upper, upper === second ? first : second))
    })
}

function trackOf({ track: { name } }: PlanCrossing['first'], { tracks }: Line): number {
  return tracks.findIndex((track) => track.name === name)
}

/** From the first passing to the second the track climbs; a closed one comes down on the way back. */
function overItself({ firstMm, secondMm, apartMm }: PlanCrossing, line: Line, track: number): Patch[] {
  const { closed, lengthMm } = line.tracks[track]!
  const height = LEVEL_CLEARANCE_MM + MARGIN_MM
  if (apartMm !== 0) return []
  const points = (riseMm: number): Point[] => {
    if (!closed)
      return [
        { atMm: 0, riseMm: 0 },
        { atMm: firstMm, riseMm: 0 },
        { atMm: secondMm, riseMm },
      ]
    const fallsMm = (riseMm * firstMm) / (lengthMm - (secondMm - firstMm))
    return [
      { atMm: 0, riseMm: 0 },
      { atMm: firstMm, riseMm: -fallsMm },
      { atMm: secondMm, riseMm: riseMm - fallsMm },
      { atMm: lengthMm, riseMm: 0 },
    ]
  }
  return [height, -height].flatMap((riseMm) => gradeLine(points(riseMm), line, track))
}

/** The upper track is led over the other and down again, or lifted as a whole. */
function overOther(crossing: PlanCrossing, line: Line, upper: number, lower: number): Patch[] {
  const { lengthMm, closed, startElevationMm } = line.tracks[upper]!
  const atMm = trackOf(crossing.first, line) === upper ? crossing.firstMm : crossing.secondMm
  const lowerMm = line.tracks[lower]!.startElevationMm
  if (line.tracks[lower]!.grades.some(({ grade }) => grade !== 0)) return []
  const riseMm = lowerMm + LEVEL_CLEARANCE_MM + MARGIN_MM - startElevationMm
  const humpMm = Math.min(atMm, lengthMm - atMm)
  const hump: Point[] = [
    ...(humpMm < atMm ? [{ atMm: 0, riseMm: 0 }] : []),
    { atMm: atMm - humpMm, riseMm: 0 },
    { atMm, riseMm },
    { atMm: atMm + humpMm, riseMm: 0 },
    ...(closed && atMm + humpMm < lengthMm ? [{ atMm: lengthMm, riseMm: 0 }] : []),
  ]
  return [...lifted(line, upper, startElevationMm + riseMm), ...gradeLine(hump, line, upper)]
}

/** The height of a start that is given by its coordinates, or not at all. */
function lifted(line: Line, track: number, elevationMm: number): Patch[] {
  const start = valueAt(line.sent, ['tracks', track, 'start'])
  const { given, rounded } = asWritten(line, track)
  const value = rounded(given, elevationMm)
  if (hasHeights(line, track)) return []
  if (start === undefined) return [[{ op: 'add', path: `/tracks/${track}/start`, value: { elevation: value } }]]
  if (valueAt(start, ['after']) !== undefined || valueAt(start, ['from']) !== undefined) return []
  const op = valueAt(start, ['elevation']) === undefined ? 'add' : 'replace'
  return [[{ op, path: `/tracks/${track}/start/elevation`, value }]]
}

/** A new grade line, if it is nowhere too steep. */
function gradeLine(points: readonly Point[], line: Line, track: number): Patch[] {
  const most = line.plan.standards.maximumGradePct / 100
  const isTooSteep = points.some(({ atMm, riseMm }, n) => {
    const before = points[n - 1]
    return before !== undefined && Math.abs(riseMm - before.riseMm) > most * (atMm - before.atMm)
  })
  if (isTooSteep || hasHeights(line, track)) return []
  const { startElevationMm } = line.tracks[track]!
  const { given, rounded } = asWritten(line, track)
  const path = `/tracks/${track}/gradeLine`
  const steps = points
    .filter(({ atMm }, n) => n === 0 || atMm - points[n - 1]!.atMm >= 1)
    .map(({ atMm, riseMm }): Patch[number] => ({
      op: 'add',
      path: `${path}/-`,
      value: {
        at: rounded(given, atMm),
        elevation: riseMm === 0 ? startElevationMm : rounded(given, startElevationMm + riseMm),
      },
    }))
  return [[{ op: 'add', path, value: [] }, ...steps]]
}

function hasHeights({ sent }: Line, track: number): boolean {
  return valueAt(sent, ['tracks', track, 'gradeLine']) !== undefined
}

/** In the unit of the track's other lengths; the station where a closed track ends must not be beyond it. */
function asWritten(line: Line, track: number) {
  const given = unitOf(sentElements(line, track))
  return { given, rounded: (like: unknown, mm: number) => lengthLike(like, mm, 1, mm < 0 ? 'down' : 'nearest') }
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
