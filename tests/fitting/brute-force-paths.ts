import type { Pose } from '../../src/track/types.ts'

/*
 * The shortest way between two poses by search alone: the first angle of each word goes through a grid, and wherever what
 * is left over changes its sign it is found by halving. Nothing here knows the closed forms that it is compared with.
 */

const TURN = 2 * Math.PI
const GRID = 720

type Side = 1 | -1

interface Point {
  readonly x: number
  readonly y: number
}

/** The end of an arc, plain trigonometry. */
function arcEnd({ xMm, yMm, headingRad }: Pose, side: Side, radiusMm: number, angleRad: number): Pose {
  const after = headingRad + side * angleRad
  return {
    xMm: xMm + side * radiusMm * (Math.sin(after) - Math.sin(headingRad)),
    yMm: yMm - side * radiusMm * (Math.cos(after) - Math.cos(headingRad)),
    headingRad: after,
  }
}

function within(rad: number): number {
  return rad - TURN * Math.floor(rad / TURN)
}

function roots(f: (x: number) => number): number[] {
  const found: number[] = []
  for (let index = 0; index < GRID; index++) {
    let [low, high] = [(index / GRID) * TURN, ((index + 1) / GRID) * TURN]
    const atLow = f(low)
    if (atLow === 0) found.push(low)
    if (atLow * f(high) >= 0) continue
    for (let halving = 0; halving < 50; halving++) {
      const middle = (low + high) / 2
      if (atLow * f(middle) > 0) low = middle
      else high = middle
    }
    found.push((low + high) / 2)
  }
  return found
}

function twoTurns(start: Pose, goal: Pose, radiusMm: number, first: Side, second: Side): number[] {
  const left = (angleRad: number) => {
    const from = arcEnd(start, first, radiusMm, angleRad)
    const last = within(second * (goal.headingRad - from.headingRad))
    const bow = arcEnd({ xMm: 0, yMm: 0, headingRad: from.headingRad }, second, radiusMm, last)
    const [x, y] = [goal.xMm - from.xMm - bow.xMm, goal.yMm - from.yMm - bow.yMm]
    const [cos, sin] = [Math.cos(from.headingRad), Math.sin(from.headingRad)]
    return { across: y * cos - x * sin, along: x * cos + y * sin, last }
  }
  return roots((angleRad) => left(angleRad).across).flatMap((angleRad) => {
    const { along, last } = left(angleRad)
    return along < 0 ? [] : [radiusMm * (angleRad + last) + along]
  })
}

function centreOf({ xMm, yMm, headingRad }: Pose, side: Side, radiusMm: number): Point {
  return { x: xMm - side * radiusMm * Math.sin(headingRad), y: yMm + side * radiusMm * Math.cos(headingRad) }
}

function threeTurns(start: Pose, goal: Pose, radiusMm: number, side: Side): number[] {
  const other = -side as Side
  const home = centreOf(goal, side, radiusMm)
  const middle = (angleRad: number) => {
    const from = arcEnd(start, side, radiusMm, angleRad)
    return { from, centre: centreOf(from, other, radiusMm) }
  }
  const over = (angleRad: number) => {
    const { centre } = middle(angleRad)
    return Math.hypot(home.x - centre.x, home.y - centre.y) - 2 * radiusMm
  }
  return roots(over).map((angleRad) => {
    const { from, centre } = middle(angleRad)
    // Where the circles touch the track heads across the line between their centres.
    const touch = Math.atan2(home.y - centre.y, home.x - centre.x) + (other * Math.PI) / 2
    return radiusMm * (angleRad + within(other * (touch - from.headingRad)) + within(side * (goal.headingRad - touch)))
  })
}

export function shortestBySearch(start: Pose, goal: Pose, radiusMm: number): number {
  const lengths = ([1, -1] as const).flatMap((first) => [
    ...([1, -1] as const).flatMap((second) => twoTurns(start, goal, radiusMm, first, second)),
    ...threeTurns(start, goal, radiusMm, first),
  ])
  return Math.min(...lengths)
}
