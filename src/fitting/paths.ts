import type { Pose } from '../track/types.ts'
import { withinHalfTurn } from './motion.ts'
import { oneCurve } from './one-curve.ts'
import type { Turn } from './turn.ts'
import { courseOver, type Making, type Side } from './words.ts'

/** One element of a path. */
export type Piece =
  | { readonly kind: 'tangent' | 'easement'; readonly lengthMm: number }
  | { readonly kind: 'arc'; readonly radiusMm: number; readonly angleRad: number; readonly turn: 'left' | 'right' }

export interface Path {
  /** L and R for turns, S for straights. */
  readonly word: string
  readonly pieces: readonly Piece[]
  readonly lengthMm: number
}

/** What the track is like beyond an end of a path, curvatures as seen along the path. */
export interface Beyond {
  /** Of the nearest curve, per mm, left positive; 0 where there is none. */
  readonly curvature: number
  /** The straight between that curve and the path. */
  readonly straightMm: number
  /** Whether an easement touches the path: it needs a straight to run out to. */
  readonly hasEasement: boolean
}

/** What a path is to be like. */
export interface PathAsked {
  readonly minimumRadiusMm: number
  /** On either side of each arc; 0: none. */
  readonly easementMm: number
  /** The least straight between curves to different sides. */
  readonly reverseMm: number
  readonly before: Beyond
  readonly after: Beyond
}

/** The shortest straight between two easements that can be laid: common practice, no source. */
const LEAST_STRAIGHT_MM = 1

/** Elements shorter than this are no elements; a gap of that size is nothing. */
const NO_LENGTH_MM = 1e-9

const LEFT: Side = 1
const RIGHT: Side = -1
const COURSES: readonly (readonly Side[])[] = [
  [LEFT, LEFT],
  [RIGHT, RIGHT],
  [LEFT, RIGHT],
  [RIGHT, LEFT],
  [LEFT, RIGHT, LEFT],
  [RIGHT, LEFT, RIGHT],
]

/**
 * The ways from one place to another with arcs, straights and easements, the shortest first: Dubins' six words (see
 * `courseOver`) and, where two straights meet at a corner, the one curve between them that is as wide as fits. Curves
 * to different sides have a straight between them, also where the track before or behind the path curves; where an easement
 * would touch another curve or easement there is a short straight.
 * Range: any two poses; none for two that are the same. Without easements and `reverseMm` there is always one.
 * Checked in tests/fitting/paths.test.ts.
 */
export function pathsBetween(start: Pose, goal: Pose, asked: PathAsked): Path[] {
  const straight = straightAhead(start, goal)
  if (straight !== null) return straight < NO_LENGTH_MM ? [] : [pathOf('S', [{ kind: 'tangent', lengthMm: straight }])!]
  const { minimumRadiusMm: radiusMm, easementMm, reverseMm } = asked
  const betweenMm = easementMm > 0 ? LEAST_STRAIGHT_MM : 0
  const making: Making = { radiusMm, easementMm, betweenReverseMm: reverseMm, betweenMm }
  const courses = COURSES.map((sides) => courseBetween(sides, start, goal, asked, making))
  const single = ([LEFT, RIGHT] as const).map((side) => singleBetween(side, start, goal, asked))
  const paths = [...courses, ...single].filter((path) => path !== null)
  return paths.toSorted((a, b) => a.lengthMm - b.lengthMm)
}

/** The length of the straight that leads to the goal; null where it takes a turn. */
function straightAhead(start: Pose, goal: Pose): number | null {
  if (Math.abs(withinHalfTurn(goal.headingRad - start.headingRad)) > 1e-13) return null
  const [cos, sin] = [Math.cos(start.headingRad), Math.sin(start.headingRad)]
  const [x, y] = [goal.xMm - start.xMm, goal.yMm - start.yMm]
  const along = x * cos + y * sin
  return along >= -NO_LENGTH_MM && Math.abs(y * cos - x * sin) < NO_LENGTH_MM ? Math.max(0, along) : null
}

function courseBetween(sides: readonly Side[], start: Pose, goal: Pose, asked: PathAsked, making: Making): Path | null {
  const beforeMm = straightBeside(asked.before, sides[0]!, asked)
  const afterMm = straightBeside(asked.after, sides.at(-1)!, asked)
  const course = courseOver(sides, moved(start, beforeMm), moved(goal, -afterMm), making)
  if (!course) return null
  const pieces = course.turns.flatMap(({ turn, side, angleRad }, index) => [
    ...piecesOf(turn, side, angleRad),
    ...tangent(course.straightsMm[index] ?? 0),
  ])
  return pathOf(wordOf(sides), [...tangent(beforeMm), ...pieces, ...tangent(afterMm)])
}

function wordOf(sides: readonly Side[]): string {
  const letters = sides.map((side) => (side === LEFT ? 'L' : 'R'))
  return letters.join(letters.length === 2 ? 'S' : '')
}

function singleBetween(side: Side, start: Pose, goal: Pose, asked: PathAsked): Path | null {
  const least = {
    beforeMm: straightBeside(asked.before, side, asked),
    afterMm: straightBeside(asked.after, side, asked),
  }
  const curve = oneCurve(side, start, goal, asked.minimumRadiusMm, asked.easementMm, least)
  if (!curve) return null
  const pieces = piecesOf(curve.turn, side, curve.angleRad)
  return pathOf(side === LEFT ? 'SLS' : 'SRS', [...tangent(curve.beforeMm), ...pieces, ...tangent(curve.afterMm)])
}

/** The straight that has to lie between a turn of the path and the track beyond it. */
function straightBeside({ curvature, straightMm, hasEasement }: Beyond, side: Side, asked: PathAsked): number {
  const wanted = curvature * side < 0 ? Math.max(0, asked.reverseMm - straightMm) : 0
  const touches = hasEasement || (asked.easementMm > 0 && curvature !== 0 && straightMm === 0)
  return touches ? Math.max(wanted, LEAST_STRAIGHT_MM) : wanted
}

function moved(pose: Pose, mm: number): Pose {
  if (mm === 0) return pose
  const { xMm, yMm, headingRad } = pose
  return { xMm: xMm + mm * Math.cos(headingRad), yMm: yMm + mm * Math.sin(headingRad), headingRad }
}

function piecesOf({ radiusMm, easementMm, easedRad }: Turn, side: Side, angleRad: number): Piece[] {
  if (angleRad === 0) return []
  const arc: Piece = { kind: 'arc', radiusMm, angleRad: angleRad - easedRad, turn: side === LEFT ? 'left' : 'right' }
  if (easementMm === 0) return [arc]
  const easement: Piece = { kind: 'easement', lengthMm: easementMm }
  return [easement, arc, easement]
}

function tangent(lengthMm: number): Piece[] {
  return lengthMm < NO_LENGTH_MM ? [] : [{ kind: 'tangent', lengthMm }]
}

/** Straights that follow each other are one. */
function pathOf(word: string, pieces: readonly Piece[]): Path | null {
  const joined: Piece[] = []
  for (const piece of pieces) {
    const last = joined.at(-1)
    if (piece.kind === 'tangent' && last?.kind === 'tangent')
      joined.splice(-1, 1, { kind: 'tangent', lengthMm: last.lengthMm + piece.lengthMm })
    else joined.push(piece)
  }
  if (joined.length === 0) return null
  return { word, pieces: joined, lengthMm: joined.reduce((sum, piece) => sum + lengthOf(piece), 0) }
}

function lengthOf(piece: Piece): number {
  return piece.kind === 'arc' ? piece.radiusMm * piece.angleRad : piece.lengthMm
}
