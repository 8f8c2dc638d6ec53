import { poseAlong, turnedAlong } from './clothoid.ts'
import type { PlacedElement, Pose } from './types.ts'

/* Where two elements meet on the sheet. */

/** A straight or an arc, by itself or as a part of an easement. */
interface Piece {
  /** From the start of its element. */
  readonly fromMm: number
  readonly lengthMm: number
  readonly start: Pose
  /** Per mm, left positive. */
  readonly curvature: number
  /** The direction of a straight. */
  readonly along: Vector
  /** Of an arc; of a straight it has no meaning. */
  readonly circle: Circle
}

interface Vector {
  readonly x: number
  readonly y: number
}

interface Circle extends Vector {
  readonly radiusMm: number
}

/** An element as straights and arcs, ready to be compared with others. */
export interface CutElement {
  readonly element: PlacedElement
  readonly pieces: readonly Piece[]
}

/** How far from the start of each of two elements they meet. */
export interface Meeting {
  readonly firstMm: number
  readonly secondMm: number
}

/** A meeting this far beyond the end of an element is at its end. */
const AT_END_MM = 1e-6

/** Lines or circles no further apart lie on each other. */
const ON_EACH_OTHER_MM = 1e-3

/** Sine of the angle below which two lines are parallel. */
const PARALLEL = 1e-9

/** No place on an easement is further from the arcs it is cut into. */
const EASEMENT_ERROR_MM = 0.01

const MOST_PIECES = 512

/**
 * Where two elements meet; where they lie on each other, one place in the middle of each stretch.
 *
 * Straights and arcs: intersections of lines and circles in closed form. An easement is cut into n arcs of equal length
 * h = L/n that have its ends and its turning, which are no further from it than |κ′|·h³/12, κ′ = (κ1 − κ0)/L; what is
 * found on them is improved by Newton steps on the true curves. Range: any lengths, curvatures and numbers of turns.
 * Checked by closed forms and against a fine polygon in tests/track/meeting.test.ts.
 */
export function meetingsOf(first: CutElement, second: CutElement): Meeting[] {
  const found: Meeting[] = []
  for (const one of first.pieces)
    for (const other of second.pieces)
      for (const [a, b] of meetingsOfPieces(one, other))
        found.push({ firstMm: one.fromMm + a, secondMm: other.fromMm + b })
  const eased = first.element.kind === 'easement' || second.element.kind === 'easement'
  return eased ? found.map((meeting) => improved(first.element, second.element, meeting)) : found
}

/** Cuts an element into straights and arcs. */
export function cutElement(element: PlacedElement): CutElement {
  return { element, pieces: piecesOf(element) }
}

function piece(fromMm: number, lengthMm: number, start: Pose, curvature: number): Piece {
  const along = { x: Math.cos(start.headingRad), y: Math.sin(start.headingRad) }
  const circle = {
    x: start.xMm - along.y / curvature,
    y: start.yMm + along.x / curvature,
    radiusMm: 1 / Math.abs(curvature),
  }
  return { fromMm, lengthMm, start, curvature, along, circle }
}

function pieceCount({ startCurvature, endCurvature, lengthMm }: PlacedElement): number {
  if (startCurvature === endCurvature) return 1
  const forError = Math.cbrt((Math.abs(endCurvature - startCurvature) * lengthMm ** 2) / (12 * EASEMENT_ERROR_MM))
  const forTurning = Math.max(Math.abs(startCurvature), Math.abs(endCurvature)) * lengthMm
  return Math.min(MOST_PIECES, Math.max(1, Math.ceil(Math.max(forError, forTurning))))
}

function piecesOf(element: PlacedElement): Piece[] {
  const { start, startCurvature, endCurvature, lengthMm } = element
  const count = pieceCount(element)
  if (count === 1 && startCurvature === endCurvature) return [piece(0, lengthMm, start, startCurvature)]
  return Array.from({ length: count }, (_, index) => {
    const [fromMm, toMm] = [(lengthMm * index) / count, (lengthMm * (index + 1)) / count]
    const turnedTo = (mm: number) => turnedAlong(startCurvature, endCurvature, lengthMm, mm)
    const turnedRad = turnedTo(toMm) - turnedTo(fromMm)
    const begin = poseAlong(start, startCurvature, endCurvature, lengthMm, fromMm)
    const end = poseAlong(start, startCurvature, endCurvature, lengthMm, toMm)
    // The arc through both ends of this part, with its turning.
    const chordMm = Math.hypot(end.xMm - begin.xMm, end.yMm - begin.yMm)
    const direction = Math.atan2(end.yMm - begin.yMm, end.xMm - begin.xMm)
    const half = turnedRad / 2
    const arcMm = half === 0 ? chordMm : chordMm * (half / Math.sin(half))
    return piece(fromMm, arcMm, { ...begin, headingRad: direction - half }, turnedRad / arcMm)
  })
}

function meetingsOfPieces(one: Piece, other: Piece): [number, number][] {
  if (one.curvature === 0) return other.curvature === 0 ? lineAndLine(one, other) : lineAndArc(one, other)
  if (other.curvature === 0) return lineAndArc(other, one).map(([a, b]) => [b, a])
  return arcAndArc(one, other)
}

function lineAndLine(one: Piece, other: Piece): [number, number][] {
  const u = one.along
  const v = other.along
  const between = { x: other.start.xMm - one.start.xMm, y: other.start.yMm - one.start.yMm }
  const sine = u.x * v.y - u.y * v.x
  const aside = between.x * u.y - between.y * u.x
  if (Math.abs(sine) < PARALLEL) {
    if (Math.abs(aside) > ON_EACH_OTHER_MM) return []
    const startMm = between.x * u.x + between.y * u.y
    const ahead = u.x * v.x + u.y * v.y > 0 ? 1 : -1
    const endMm = startMm + ahead * other.lengthMm
    const fromMm = Math.max(0, Math.min(startMm, endMm))
    const toMm = Math.min(one.lengthMm, Math.max(startMm, endMm))
    const middleMm = (fromMm + toMm) / 2
    return toMm - fromMm > ON_EACH_OTHER_MM ? [[middleMm, ahead * (middleMm - startMm)]] : []
  }
  const a = (between.x * v.y - between.y * v.x) / sine
  const b = aside / sine
  return isOn(one, a) && isOn(other, b) ? [[a, b]] : []
}

function isOn({ lengthMm }: Piece, atMm: number): boolean {
  return atMm >= -AT_END_MM && atMm <= lengthMm + AT_END_MM
}

function lineAndArc(line: Piece, arc: Piece): [number, number][] {
  const { circle } = arc
  const u = line.along
  const toCentre = { x: circle.x - line.start.xMm, y: circle.y - line.start.yMm }
  const nearest = toCentre.x * u.x + toCentre.y * u.y
  const aside = Math.abs(toCentre.x * u.y - toCentre.y * u.x)
  if (aside > circle.radiusMm) return []
  const half = Math.sqrt((circle.radiusMm - aside) * (circle.radiusMm + aside))
  return [nearest - half, nearest + half].flatMap((a) => {
    if (!isOn(line, a)) return []
    const point = { x: line.start.xMm + a * u.x, y: line.start.yMm + a * u.y }
    return stationsOn(arc, point).map((b): [number, number] => [a, b])
  })
}

function arcAndArc(one: Piece, other: Piece): [number, number][] {
  const c = one.circle
  const d = other.circle
  const apart = Math.hypot(d.x - c.x, d.y - c.y)
  if (apart < ON_EACH_OTHER_MM && Math.abs(c.radiusMm - d.radiusMm) < ON_EACH_OTHER_MM) return onSameCircle(one, other)
  if (apart > c.radiusMm + d.radiusMm || apart < Math.abs(c.radiusMm - d.radiusMm)) return []
  const alongMm = (apart + ((c.radiusMm - d.radiusMm) * (c.radiusMm + d.radiusMm)) / apart) / 2
  const half = Math.sqrt(Math.max(0, (c.radiusMm - alongMm) * (c.radiusMm + alongMm)))
  const u = { x: (d.x - c.x) / apart, y: (d.y - c.y) / apart }
  return [half, -half].flatMap((aside) => {
    const point = { x: c.x + alongMm * u.x - aside * u.y, y: c.y + alongMm * u.y + aside * u.x }
    const onOther = stationsOn(other, point)
    return stationsOn(one, point).flatMap((a) => onOther.map((b): [number, number] => [a, b]))
  })
}

/** Every distance along an arc at which it passes a point of its circle: one for each turn. */
function stationsOn(arc: Piece, point: Vector): number[] {
  const { circle } = arc
  const sign = Math.sign(arc.curvature)
  const angle = (at: Vector) => Math.atan2(at.y - circle.y, at.x - circle.x)
  const fromStart = sign * (angle(point) - angle({ x: arc.start.xMm, y: arc.start.yMm }))
  const turnMm = 2 * Math.PI * circle.radiusMm
  const onceMm = (((fromStart * circle.radiusMm) % turnMm) + turnMm) % turnMm
  const found: number[] = []
  for (let mm = onceMm - turnMm; mm <= arc.lengthMm + AT_END_MM; mm += turnMm) if (isOn(arc, mm)) found.push(mm)
  return found
}

/** Two arcs of one circle: the middle of each stretch they share, on the first turn of each that does. */
function onSameCircle(one: Piece, other: Piece): [number, number][] {
  const turnMm = 2 * Math.PI * one.circle.radiusMm
  const same = Math.sign(one.curvature) === Math.sign(other.curvature)
  const begin = same
    ? other.start
    : poseAlong(other.start, other.curvature, other.curvature, other.lengthMm, other.lengthMm)
  const [onceMm] = stationsOn({ ...one, lengthMm: turnMm }, { x: begin.xMm, y: begin.yMm })
  const found: [number, number][] = []
  // Where the other begins on the first arc, the turns before and after included.
  for (let mm = onceMm! - turnMm * Math.ceil((onceMm! + other.lengthMm) / turnMm); mm < one.lengthMm; mm += turnMm) {
    const fromMm = Math.max(0, mm)
    const toMm = Math.min(one.lengthMm, mm + other.lengthMm)
    if (toMm - fromMm <= ON_EACH_OTHER_MM) continue
    const middleMm = (fromMm + toMm) / 2
    found.push([middleMm, same ? middleMm - mm : other.lengthMm - (middleMm - mm)])
  }
  return found
}

const NEWTON_STEPS = 4

/** Newton steps for P(a) = Q(b) along the two tangents; a meeting stays on its elements. */
function improved(first: PlacedElement, second: PlacedElement, meeting: Meeting): Meeting {
  let { firstMm, secondMm } = meeting
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const [p, q] = [poseOf(first, firstMm), poseOf(second, secondMm)]
    const sine = Math.sin(q.headingRad - p.headingRad)
    if (Math.abs(sine) < 1e-6) return meeting
    const [x, y] = [q.xMm - p.xMm, q.yMm - p.yMm]
    firstMm += (x * Math.sin(q.headingRad) - y * Math.cos(q.headingRad)) / sine
    secondMm += (x * Math.sin(p.headingRad) - y * Math.cos(p.headingRad)) / sine
    firstMm = Math.min(Math.max(firstMm, 0), first.lengthMm)
    secondMm = Math.min(Math.max(secondMm, 0), second.lengthMm)
  }
  return { firstMm, secondMm }
}

function poseOf({ start, startCurvature, endCurvature, lengthMm }: PlacedElement, atMm: number): Pose {
  return poseAlong(start, startCurvature, endCurvature, lengthMm, atMm)
}
