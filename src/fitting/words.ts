import type { Pose } from '../track/types.ts'
import { fitsInto, type Turn, turnOf, widened } from './turn.ts'

/** Left is 1, right is −1. */
export type Side = 1 | -1

/** Turns in order with the straights between them. */
export interface Course {
  readonly turns: readonly { readonly turn: Turn; readonly side: Side; readonly angleRad: number }[]
  /** One fewer than turns. */
  readonly straightsMm: readonly number[]
}

/** What a course is made with. */
export interface Making {
  readonly radiusMm: number
  readonly easementMm: number
  /** The least straight between two turns to different sides, mm. */
  readonly betweenReverseMm: number
  /** The least straight between two turns in any case: easements do not touch. */
  readonly betweenMm: number
}

const FULL_TURN = 2 * Math.PI
/** What rounding leaves of no angle, rad, and of no length, as a share of the lengths that make it. */
const NO_ANGLE = 1e-13
const NO_SHARE = 1e-13

/** How often radii are widened for easements to fit; each time at least one becomes larger. */
const MOST_WIDENINGS = 40

/**
 * A course over given sides between two poses: two turns with a straight between them, or three turns.
 *
 * The shortest way between two poses whose radius nowhere falls below R is one of six words of left and right turns and
 * straights: LSL, RSR, LSR, RSL, LRL, RLR (L. E. Dubins, Amer. J. Math. 79, 1957; closed forms: A. M. Shkel and
 * V. Lumelsky, Robotics and Autonomous Systems 34, 2001). Here the same from the centres of the turns, so that turns with
 * easements and straights that must lie between reverse curves come out of the same formulas:
 *
 * c₂ − c₁ = (ℓ + k₁ + k₂)·u(ψ) + (s₂q₂ − s₁q₁)·n(ψ)
 *
 * cᵢ centres, sᵢ sides, qᵢ and kᵢ of the turns (see `Turn`), ℓ and ψ length and heading of the straight between them. Of
 * three turns the middle centre lies where the two circles of radius |c₂ − c₁| and |c₃ − c₂| meet; the shorter of the
 * two is taken. A turn that its easements would use up is widened.
 * Range: any two poses. null where the word leads nowhere. Checked in tests/fitting/paths.test.ts.
 */
export function courseOver(sides: readonly Side[], start: Pose, goal: Pose, making: Making): Course | null {
  let turns = sides.map(() => turnOf(making.radiusMm, making.easementMm))
  for (let round = 0; round < MOST_WIDENINGS; round++) {
    const course =
      sides.length === 2 ? twoTurns(sides, turns, start, goal, making) : threeTurns(sides, turns, start, goal, making)
    if (!course) return null
    const { turns: made } = course
    const isTight = made.map(({ turn, angleRad }) => !fitsInto(turn, angleRad))
    if (making.easementMm === 0 || !isTight.includes(true)) return course
    const wider = made.map(({ turn, angleRad }, index) => (isTight[index] ? widened(turn, angleRad) : turn))
    if (wider.some((turn) => turn === null)) return null
    turns = wider as Turn[]
  }
  return null
}

interface Point {
  readonly x: number
  readonly y: number
}

/** The centre of the turn that begins (1) or ends (−1) at a pose. */
function centreAt({ xMm, yMm, headingRad }: Pose, { kMm, qMm }: Turn, side: Side, way: 1 | -1): Point {
  const [cos, sin] = [Math.cos(headingRad), Math.sin(headingRad)]
  return { x: xMm + way * kMm * cos - side * qMm * sin, y: yMm + way * kMm * sin + side * qMm * cos }
}

function leastBetween(one: Side, other: Side, { betweenReverseMm, betweenMm }: Making): number {
  return one === other ? betweenMm : Math.max(betweenMm, betweenReverseMm)
}

function twoTurns(
  [first, second]: readonly Side[],
  [a, b]: readonly Turn[],
  start: Pose,
  goal: Pose,
  making: Making,
): Course | null {
  const from = centreAt(start, a!, first!, 1)
  const to = centreAt(goal, b!, second!, -1)
  const apart = Math.hypot(to.x - from.x, to.y - from.y)
  const across = second! * b!.qMm - first! * a!.qMm
  const slack = NO_SHARE * (Math.abs(from.x) + Math.abs(from.y) + a!.qMm + b!.qMm)
  if (apart < Math.abs(across) - slack) return null
  const along = Math.sqrt(Math.max(0, (apart - across) * (apart + across)))
  const straight = along - a!.kMm - b!.kMm
  if (straight < leastBetween(first!, second!, making) - slack) return null
  // Around one centre there is one turn, and no straight that could have a heading.
  const heading =
    apart <= slack ? goal.headingRad : Math.atan2(to.y - from.y, to.x - from.x) - Math.atan2(across, along)
  return {
    turns: [
      { turn: a!, side: first!, angleRad: turned(first!, start.headingRad, heading) },
      { turn: b!, side: second!, angleRad: turned(second!, heading, goal.headingRad) },
    ],
    straightsMm: [Math.max(0, straight)],
  }
}

function threeTurns(
  [side]: readonly Side[],
  [a, b, c]: readonly Turn[],
  start: Pose,
  goal: Pose,
  making: Making,
): Course | null {
  const other = -side! as Side
  const straight = leastBetween(side!, other, making)
  const from = centreAt(start, a!, side!, 1)
  const to = centreAt(goal, c!, side!, -1)
  const apart = Math.hypot(to.x - from.x, to.y - from.y)
  const links = [a!, c!].map((turn) => ({
    along: straight + turn.kMm + b!.kMm,
    across: other * (turn.qMm + b!.qMm),
  })) as [Link, Link]
  const [near, far] = links.map(({ along, across }) => Math.hypot(along, across)) as [number, number]
  if (apart === 0 || apart > near + far || apart < Math.abs(near - far)) return null
  const foot = (apart + ((near - far) * (near + far)) / apart) / 2
  const beside = Math.sqrt(Math.max(0, (near - foot) * (near + foot)))
  const line = Math.atan2(to.y - from.y, to.x - from.x)
  const courses = [1, -1].map((half): Course => {
    const out = line + Math.atan2(half * beside, foot) - Math.atan2(links[0].across, links[0].along)
    const home = line - Math.atan2(half * beside, apart - foot) - Math.atan2(-links[1].across, links[1].along)
    return {
      turns: [
        { turn: a!, side: side!, angleRad: turned(side!, start.headingRad, out) },
        { turn: b!, side: other, angleRad: turned(other, out, home) },
        { turn: c!, side: side!, angleRad: turned(side!, home, goal.headingRad) },
      ],
      straightsMm: [straight, straight],
    }
  })
  return courses.toSorted((one, two) => angleOf(one) - angleOf(two))[0]!
}

interface Link {
  readonly along: number
  readonly across: number
}

function angleOf({ turns }: Course): number {
  return turns.reduce((sum, { angleRad, turn }) => sum + angleRad * turn.radiusMm, 0)
}

/** What a turn to a side turns between two headings, in [0, 2π). */
export function turned(side: Side, fromRad: number, toRad: number): number {
  const rad = side * (toRad - fromRad)
  const within = rad - FULL_TURN * Math.floor(rad / FULL_TURN)
  return within > FULL_TURN - NO_ANGLE || within < NO_ANGLE ? 0 : within
}
