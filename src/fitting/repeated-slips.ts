import type { Pose, Shape } from '../track/types.ts'
import { type Closing, type Loop, shareOfTolerance } from './loop.ts'
import { followedBy, motionOf, NOWHERE, withinHalfTurn } from './motion.ts'
import { oddnessOfAngle, oddnessOfLength } from './roundness.ts'
import { costOf, SHORTEST_MM, SMALLEST_RAD, withAngle, withLength } from './slips.ts'

/** So many different figures are tried. */
const MOST_FIGURES = 20

/**
 * One figure that was written wrongly wherever it stands: all arcs of one radius and angle, or all straights of one
 * length, are changed alike. The angle follows from the heading that is missing; the length from the gap, if it lies
 * along the sum of the directions of those straights. Checked in tests/fitting/closings.test.ts.
 */
export function repeatedSlips(loop: Loop): Closing[] {
  return alike(loop.shapes).flatMap((members) =>
    loop.shapes[members[0]!]!.kind === 'arc' ? repeatedAngle(loop, members) : repeatedLength(loop, members),
  )
}

/** The elements that are alike, as long as there are several but not all differ. */
function alike(shapes: readonly Shape[]): number[][] {
  const groups = new Map<string, number[]>()
  for (const [index, { kind, startCurvature, lengthMm }] of shapes.entries()) {
    if (kind !== 'arc' && kind !== 'tangent') continue
    const key = `${kind} ${startCurvature.toPrecision(9)} ${lengthMm.toPrecision(9)}`
    const group = groups.get(key)
    if (group) group.push(index)
    else groups.set(key, [index])
  }
  return [...groups.values()].filter(({ length }) => length > 1).slice(0, MOST_FIGURES)
}

function repeatedAngle(loop: Loop, members: readonly number[]): Closing[] {
  const { turnedRad } = loop.shapes[members[0]!]!
  const fromRad = Math.abs(turnedRad)
  const changeRad = (-Math.sign(turnedRad) * withinHalfTurn(loop.before.at(-1)!.headingRad)) / members.length
  const toRad = fromRad + changeRad
  if (toRad < SMALLEST_RAD) return []
  const share = shareOfTolerance(
    loop,
    motionWith(loop, members, (shape) => withAngle(shape, toRad)),
    NOWHERE,
  )
  const changes = members.map((element) => ({ element, field: 'angle', fromRad, toRad }) as const)
  return closing(changes, share, oddnessOfAngle(toRad))
}

function repeatedLength(loop: Loop, members: readonly number[]): Closing[] {
  const { xMm, yMm } = loop.before.at(-1)!
  const directions = members.map((index) => loop.before[index]!.headingRad)
  const x = directions.reduce((sum, rad) => sum + Math.cos(rad), 0)
  const y = directions.reduce((sum, rad) => sum + Math.sin(rad), 0)
  const square = x * x + y * y
  if (square < 1e-9) return []
  const fromMm = loop.shapes[members[0]!]!.lengthMm
  const toMm = fromMm - (xMm * x + yMm * y) / square
  if (toMm < SHORTEST_MM) return []
  const share = shareOfTolerance(
    loop,
    motionWith(loop, members, (shape) => withLength(shape, toMm)),
    NOWHERE,
  )
  const changes = members.map((element) => ({ element, field: 'length', fromMm, toMm }) as const)
  return closing(changes, share, oddnessOfLength(toMm))
}

function closing(changes: Closing['changes'], share: number, odd: number): Closing[] {
  return share <= 1 ? [{ changes, cost: 1100 + costOf(share, odd) }] : []
}

/** The motion of the whole loop with some of its elements changed. */
function motionWith({ shapes, motions }: Loop, members: readonly number[], change: (shape: Shape) => Shape): Pose {
  const changed = new Set(members)
  return motions.reduce(
    (way, motion, index) => followedBy(way, changed.has(index) ? motionOf(change(shapes[index]!)) : motion),
    NOWHERE,
  )
}
