import { toDegrees, toRadians } from '../measure/angle.ts'
import { placeShapes } from './place.ts'
import type { PlacedElement, Pose, Shape } from './types.ts'

/** How far a heading may be under a full (or half) turn and still count as one: a rounding error, not track. */
const TURN_SLACK_DEG = 1e-9

/** A heading in [0, 360) degrees. A rounding error under a full turn gives 0, not 359.999…. */
export function headingDeg(headingRad: number): number {
  return withinTurnDeg(toDegrees(headingRad))
}

/** The heading after turning from one given in degrees; exactly as given where nothing has turned. */
export function headingAfterDeg(startDeg: number, turnedRad: number): number {
  return withinTurnDeg((startDeg % 360) + toDegrees(turnedRad))
}

function withinTurnDeg(degrees: number): number {
  const within = degrees % 360
  const positive = within < 0 ? within + 360 : within
  return positive >= 360 - TURN_SLACK_DEG ? 0 : positive + 0
}

/** A difference of headings in (−180, 180] degrees; a rounding error over −180 gives 180. */
export function signedHeadingErrorDeg(differenceRad: number): number {
  const within = toDegrees(differenceRad) % 360
  if (within > 180 + TURN_SLACK_DEG) return within - 360
  if (within > 180) return 180
  if (within < -180 - TURN_SLACK_DEG) return within + 360
  return within <= -180 + TURN_SLACK_DEG ? 180 : within + 0
}

/** Where the end of a track must be. */
export interface HeldEnd {
  /** Its heading is that of the track's own end where none is required. */
  readonly pose: Pose
  readonly hasHeading: boolean
  /** Null: any elevation. */
  readonly elevationMm: number | null
  /** In sentences: "the start". */
  readonly called: string
  /** Whether it is a leg of a turnout. */
  readonly atLeg?: boolean | undefined
}

/** How far the end of a closed track misses its start, or another end the place where it must be. */
export interface Closure {
  readonly gapMm: number
  /** The gap on the sheet: end − target. */
  readonly gapXMm: number
  readonly gapYMm: number
  /** Heading of the end − heading required, in (−180, 180]: positive where the track turned too far to the left. */
  readonly headingDeg: number
}

/** Compares the end of a track with where it must be: its start, for a closed track. */
export function closureOf(target: Pose, end: Pose): Closure {
  const gapXMm = end.xMm - target.xMm
  const gapYMm = end.yMm - target.yMm
  return {
    gapMm: Math.hypot(gapXMm, gapYMm),
    gapXMm,
    gapYMm,
    headingDeg: signedHeadingErrorDeg(end.headingRad - target.headingRad),
  }
}

interface AngleChange {
  readonly element: number
  /** Added to the arc's own angle (> 0 whichever way it turns). */
  readonly changeRad: number
}

interface LengthChange {
  readonly element: number
  readonly changeMm: number
}

/** What to change so that the end of a track is where it must be: first the angles, then the lengths. */
export interface ClosureCure {
  /** Empty when the headings agree; otherwise one arc, or every arc when no single one can take the whole error. */
  readonly angleChanges: readonly AngleChange[]
  /**
   * At most two tangents; they close the gap that remains after the angles are changed. Empty when no gap remains,
   * null when no two tangents can close it.
   */
  readonly lengthChanges: readonly LengthChange[] | null
}

/** Smaller changes count as none: the slack of every comparison of lengths. */
const NO_CHANGE_MM = 1e-6

/**
 * The cure of a track whose end misses `target` (a closed track: its start), or null when the headings do not agree and there is no arc.
 *
 * Heading errors over `headingToleranceDeg` are corrected on the longest arc that can take the error, otherwise on
 * all arcs in proportion to their angles, and where even those are not enough, by extending the longest to
 * the full circle. The gap is then closed on one tangent that lies along it or on two that are not
 * parallel: of these the choice whose larger change is smallest while the tangents keep a length above zero, the
 * longest tangents where choices are equal. Easements, radii and turns do not change.
 * Beyond `MOST_DIRECTIONS` differently headed tangents only the longest are tried, so the search stays short.
 */
export function closureCure(
  placed: readonly PlacedElement[],
  headingToleranceDeg: number,
  target: Pose = startOf(placed),
): ClosureCure | null {
  const errorDeg = missOf(placed, target).headingDeg
  if (Math.abs(errorDeg) <= headingToleranceDeg)
    return { angleChanges: [], lengthChanges: lengthChangesFor(placed, target) }
  const angleChanges = angleChangesFor(placed, toRadians(errorDeg))
  if (angleChanges.length === 0) return null
  return { angleChanges, lengthChanges: lengthChangesFor(placedAgain(placed, angleChanges), target) }
}

/** Throws a RangeError on a track without elements. */
function startOf(placed: readonly PlacedElement[]): Pose {
  const first = placed[0]
  if (!first) throw new RangeError('a track without elements cannot close')
  return first.start
}

function missOf(placed: readonly PlacedElement[], target: Pose): Closure {
  return closureOf(target, placed.at(-1)!.end)
}

/** How the arcs correct a heading error; empty when there are none. */
function angleChangesFor(placed: readonly PlacedElement[], errorRad: number): AngleChange[] {
  const arcs = placed
    .filter(({ kind }) => kind === 'arc')
    .map(({ index, lengthMm, turnedRad }) => ({
      element: index,
      lengthMm,
      angleRad: Math.abs(turnedRad),
      sign: Math.sign(turnedRad),
    }))
    .sort((a, b) => b.lengthMm - a.lengthMm)
  const able = arcs.find(({ sign, angleRad }) => angleRad - sign * errorRad > 0)
  if (able) return [{ element: able.element, changeRad: -able.sign * errorRad }]
  // All arcs now turn in the direction of the error, and none is as large.
  const total = arcs.reduce((sum, { angleRad }) => sum + angleRad, 0)
  if (total > Math.abs(errorRad)) {
    return arcs.map(({ element, angleRad }) => ({ element, changeRad: (-Math.abs(errorRad) * angleRad) / total }))
  }
  return arcs.slice(0, 1).map(({ element }) => ({ element, changeRad: 2 * Math.PI - Math.abs(errorRad) }))
}

/** The track with the new angles of its arcs. */
function placedAgain(placed: readonly PlacedElement[], changes: readonly AngleChange[]): PlacedElement[] {
  const changed = new Map(changes.map(({ element, changeRad }) => [element, changeRad]))
  const shapes = placed.map((element): Shape => {
    if (element.kind !== 'arc') return element
    const angleRad = Math.abs(element.turnedRad) + (changed.get(element.index) ?? 0)
    const turnedRad = element.turnedRad < 0 ? -angleRad : angleRad
    return { ...element, lengthMm: angleRad / Math.abs(element.startCurvature), turnedRad }
  })
  return placeShapes(placed[0]!.start, shapes)
}

const MOST_DIRECTIONS = 200

/** Sine of the angle below which two tangents count as parallel. */
const PARALLEL = 1e-6

/**
 * Two tangents u, v and their changes a, b with a·u + b·v = −gap, by Cramer's rule: a change of a tangent's length only
 * moves everything after it along its direction. A tangent parallel to the gap closes it alone.
 */
function lengthChangesFor(placed: readonly PlacedElement[], target: Pose): LengthChange[] | null {
  const { gapMm, gapXMm, gapYMm } = missOf(placed, target)
  if (gapMm < NO_CHANGE_MM) return []
  const tangents = differentlyHeadedTangents(placed)
  let best: LengthChange[] | null = null
  let smallest = Number.POSITIVE_INFINITY
  for (const [index, u] of tangents.entries()) {
    const alone = -(gapXMm * u.x + gapYMm * u.y)
    const beside = gapXMm * u.y - gapYMm * u.x
    if (Math.abs(beside) < NO_CHANGE_MM && Math.abs(alone) < smallest - NO_CHANGE_MM && keepsLength(u, alone)) {
      smallest = Math.abs(alone)
      best = [{ element: u.element, changeMm: alone }]
    }
    for (let other = index + 1; other < tangents.length; other++) {
      const v = tangents[other]!
      const sine = u.x * v.y - u.y * v.x
      if (Math.abs(sine) < PARALLEL) continue
      const a = (gapYMm * v.x - gapXMm * v.y) / sine
      const b = beside / sine
      const larger = Math.max(Math.abs(a), Math.abs(b))
      if (larger >= smallest - NO_CHANGE_MM || !keepsLength(u, a) || !keepsLength(v, b)) continue
      smallest = larger
      best = [
        { element: u.element, changeMm: a },
        { element: v.element, changeMm: b },
      ]
    }
  }
  return best?.filter(({ changeMm }) => Math.abs(changeMm) >= NO_CHANGE_MM) ?? null
}

interface Direction {
  readonly element: number
  readonly lengthMm: number
  readonly x: number
  readonly y: number
}

/** Whether something is left of a tangent; what rounding leaves of it is nothing. */
function keepsLength({ lengthMm }: Direction, changeMm: number): boolean {
  return lengthMm + changeMm > NO_CHANGE_MM
}

/** The longest tangent of each heading (of equal headings it can take every change the others can), longest first. */
function differentlyHeadedTangents(placed: readonly PlacedElement[]): Direction[] {
  const longest = new Map<number, PlacedElement>()
  for (const element of placed) {
    if (element.kind !== 'tangent') continue
    const heading = Math.round(headingDeg(element.start.headingRad) / TURN_SLACK_DEG)
    if (element.lengthMm > (longest.get(heading)?.lengthMm ?? 0)) longest.set(heading, element)
  }
  return [...longest.values()]
    .sort((a, b) => b.lengthMm - a.lengthMm || a.index - b.index)
    .slice(0, MOST_DIRECTIONS)
    .map(({ index, lengthMm, start }) => ({
      element: index,
      lengthMm,
      x: Math.cos(start.headingRad),
      y: Math.sin(start.headingRad),
    }))
}
