import { firstIndexWhere } from '../measure/search.ts'
import { constantCurvature, type DrawnElement, sizeOfArc } from '../plan/elements.ts'
import { poseAlong, turnedAlong } from './clothoid.ts'
import { RunningSum } from './running-sum.ts'
import { crossingLengthMm, NO_SPECIAL_TRACK, type SpecialTrack, turnoutShape } from './turnout/special-track.ts'
import type { PlacedElement, Pose, Shape } from './types.ts'

/**
 * The curvatures between which the easement at `index` runs: those of its neighbours. Where there is none (the end of
 * an open track, an easement alone on a closed one) it runs from or to straight; a closed track wraps round. A
 * neighbouring easement, which a plan must not have, counts as straight.
 */
export function easementEnds(
  elements: readonly DrawnElement[],
  index: number,
  closed: boolean,
  special: SpecialTrack = NO_SPECIAL_TRACK,
): { startCurvature: number; endCurvature: number } {
  const last = elements.length - 1
  return {
    startCurvature: curvatureBeside(elements[index === 0 && closed ? last : index - 1], 'endCurvature', special),
    endCurvature: curvatureBeside(elements[index === last && closed ? 0 : index + 1], 'startCurvature', special),
  }
}

function curvatureBeside(
  element: DrawnElement | undefined,
  end: 'startCurvature' | 'endCurvature',
  { turnouts }: SpecialTrack,
): number {
  return element?.kind === 'turnout'
    ? turnoutShape(turnouts.get(element.type)!, element)[end]
    : constantCurvature(element)
}

/**
 * Places the elements of a track end to end from `start`. Each begins exactly where, and at the station at
 * which, the one before ends. Precondition (checked with the plan): lengths, radii and angles are positive.
 */
export function placeElements(
  start: Pose,
  elements: readonly DrawnElement[],
  closed: boolean,
  special: SpecialTrack = NO_SPECIAL_TRACK,
): PlacedElement[] {
  return placeShapes(
    start,
    elements.map(({ kind, label }, index) => ({ kind, label, ...shapeOf(elements, index, closed, special) })),
  )
}

/** Places shapes end to end from `start`. */
export function placeShapes(start: Pose, shapes: readonly Shape[]): PlacedElement[] {
  const station = new RunningSum()
  const placed: PlacedElement[] = []
  let pose = start
  for (const [index, shape] of shapes.entries()) {
    const fromMm = station.value
    const element = placeShape(shape, index, pose, fromMm, station.add(shape.lengthMm))
    placed.push(element)
    pose = element.end
  }
  return placed
}

function placeShape(shape: Shape, index: number, start: Pose, fromMm: number, toMm: number): PlacedElement {
  const { parts: partShapes, ...whole } = shape
  const parts = partShapes && placeParts(partShapes, index, start, fromMm, toMm)
  const { kind, label, lengthMm, startCurvature, endCurvature, turnedRad, bendRad } = whole
  const from = bendRad ? { ...start, headingRad: start.headingRad + bendRad } : start
  const end = parts?.at(-1)?.end ?? {
    ...poseAlong(from, startCurvature, endCurvature, lengthMm, lengthMm),
    headingRad: start.headingRad + turnedRad,
  }
  const placed = {
    index,
    kind,
    label,
    fromMm,
    toMm,
    lengthMm,
    startCurvature,
    endCurvature,
    turnedRad,
    start: from,
    end,
  }
  return { ...placed, ...(bendRad && { bendRad }), ...(parts && { parts }) }
}

/** The last part ends exactly where the whole element does. */
function placeParts(
  shapes: readonly Shape[],
  index: number,
  start: Pose,
  fromMm: number,
  toMm: number,
): PlacedElement[] {
  const station = new RunningSum()
  station.add(fromMm)
  const placed: PlacedElement[] = []
  for (const [part, shape] of shapes.entries()) {
    const from = station.value
    const next = station.add(shape.lengthMm)
    placed.push(placeShape(shape, index, placed.at(-1)?.end ?? start, from, part === shapes.length - 1 ? toMm : next))
  }
  return placed
}

function shapeOf(elements: readonly DrawnElement[], index: number, closed: boolean, special: SpecialTrack) {
  const element = elements[index]!
  if (element.kind === 'arc') {
    const { lengthMm, angleRad } = sizeOfArc(element)
    const curvature = constantCurvature(element)
    // The angle as given, not curvature × length: 405° stays 405°.
    const turnedRad = element.turn === 'left' ? angleRad : -angleRad
    return { lengthMm, startCurvature: curvature, endCurvature: curvature, turnedRad }
  }
  if (element.kind === 'turnout') return turnoutShape(special.turnouts.get(element.type)!, element)
  if (element.kind === 'crossing')
    return { lengthMm: crossingLengthMm(special.gaugeMm, element.angle), ...STRAIGHT, turnedRad: 0 }
  const { length: lengthMm } = element
  const ends = element.kind === 'easement' ? easementEnds(elements, index, closed, special) : STRAIGHT
  return { lengthMm, ...ends, turnedRad: turnedAlong(ends.startCurvature, ends.endCurvature, lengthMm, lengthMm) }
}

const STRAIGHT = { startCurvature: 0, endCurvature: 0 }

/**
 * The element on which a station lies; where two elements meet, the one that begins there. Stations before the start
 * and beyond the end belong to the first and the last element. O(log n). Throws a RangeError on a track without
 * elements.
 */
export function elementAt(placed: readonly PlacedElement[], atMm: number): PlacedElement {
  if (placed.length === 0) throw new RangeError('a track without elements has no stations')
  const next = firstIndexWhere(placed.length, (index) => placed[index]!.fromMm > atMm)
  return placed[Math.max(0, next - 1)]!
}

/** The part of a turnout at a station, the element itself for any other; stations outside give the nearer end. */
function partAt(element: PlacedElement, atMm: number): PlacedElement {
  return element.parts ? elementAt(element.parts, atMm) : element
}

/** Distance from the element's start to a station, held inside the element. */
function withinMm(element: PlacedElement, atMm: number): number {
  return Math.min(Math.max(atMm - element.fromMm, 0), element.lengthMm)
}

/** The pose at a station on a known element; stations outside it give the nearer end. */
export function poseOn(whole: PlacedElement, atMm: number): Pose {
  const element = partAt(whole, atMm)
  if (atMm <= element.fromMm) return element.start
  if (atMm >= element.toMm) return element.end
  const { start, startCurvature, endCurvature, lengthMm } = element
  return poseAlong(start, startCurvature, endCurvature, lengthMm, withinMm(element, atMm))
}

/** Curvature at a station on a known element, per mm, left positive; stations outside it give the nearer end. */
export function curvatureOn(whole: PlacedElement, atMm: number): number {
  const element = partAt(whole, atMm)
  const { startCurvature, endCurvature, lengthMm } = element
  if (startCurvature === endCurvature || atMm <= element.fromMm) return startCurvature
  if (atMm >= element.toMm) return endCurvature
  return startCurvature + (endCurvature - startCurvature) * (withinMm(element, atMm) / lengthMm)
}

/** Signed heading change on one element between two stations (left positive), counting only what lies on it. */
export function turnedBetween(element: PlacedElement, fromMm: number, toMm: number): number {
  if (fromMm <= element.fromMm && toMm >= element.toMm) return element.turnedRad
  if (element.parts) return element.parts.reduce((sum, part) => sum + turnedBetween(part, fromMm, toMm), 0)
  const mean = (curvatureOn(element, fromMm) + curvatureOn(element, toMm)) / 2
  return mean * (withinMm(element, toMm) - withinMm(element, fromMm))
}

/** The station at which the curvature of a reversing easement is zero; otherwise null. */
export function reversalMm(element: PlacedElement): number | null {
  const { startCurvature, endCurvature, lengthMm, fromMm } = element
  if (startCurvature * endCurvature >= 0) return null
  return fromMm + lengthMm * (startCurvature / (startCurvature - endCurvature))
}

/** The place square to the track, to its left. */
export function beside({ xMm, yMm, headingRad }: Pose, leftMm: number): Pose {
  return { xMm: xMm - leftMm * Math.sin(headingRad), yMm: yMm + leftMm * Math.cos(headingRad), headingRad }
}
