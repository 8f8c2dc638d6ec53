import type { Pose, Shape } from '../track/types.ts'
import { followedBy, motionOf } from './motion.ts'
import { withAngle, withLength } from './slips.ts'

/** Elements whose angle or length may change, with what lies before, between and behind them. */
export interface Chain {
  readonly unknowns: readonly ChainUnknown[]
  /** One more than there are unknowns. */
  readonly stretches: readonly Pose[]
  /** Makes radians comparable with millimetres. */
  readonly leverMm: number
}

export interface ChainUnknown {
  /** The angle of an arc, rad, or the length of a straight or an easement, mm. */
  readonly kind: 'angle' | 'length'
  readonly shape: Shape
}

/** Step of the difference that stands for the derivative of an easement, as a share of its length. */
const STEP = 1e-6

/**
 * Where a chain of elements ends, and how its end moves with each unknown: x and y in mm, and the heading times the lever.
 *
 * With Mₖ the motions of the stretches between the unknowns and Eᵢ those of the changed elements the end is
 * M₀·E₁·M₁·E₂·M₂·E₃·M₃, so that a step costs the same however long the track is. Derivatives are taken from the geometry: a
 * longer straight moves the end along itself, a larger angle turns the end about the centre of the arc. That of an
 * easement, whose curvatures stay while its length changes, is a central difference.
 * Range: values above zero. Checked in tests/fitting/closings.test.ts and tests/fitting/unknowns.test.ts.
 */
export function evaluated(
  { unknowns, stretches, leverMm }: Chain,
  values: readonly number[],
): { end: Pose; columns: number[][] } {
  let way = stretches[0]!
  const movers: ((end: Pose) => number[])[] = []
  for (const [index, { kind, shape }] of unknowns.entries()) {
    const value = values[index]!
    const motion = motionWith(shape, kind, value)
    movers.push(moverOf(way, shape, kind, value, motion, leverMm))
    way = followedBy(followedBy(way, motion), stretches[index + 1]!)
  }
  return { end: way, columns: movers.map((mover) => mover(way)) }
}

function motionWith(shape: Shape, kind: ChainUnknown['kind'], value: number): Pose {
  return motionOf(kind === 'angle' ? withAngle(shape, value) : withLength(shape, value))
}

function moverOf(
  way: Pose,
  shape: Shape,
  kind: ChainUnknown['kind'],
  value: number,
  motion: Pose,
  leverMm: number,
): (end: Pose) => number[] {
  const { xMm, yMm, headingRad } = way
  const [cos, sin] = [Math.cos(headingRad), Math.sin(headingRad)]
  if (kind === 'angle') {
    const [centreX, centreY] = [xMm - sin / shape.startCurvature, yMm + cos / shape.startCurvature]
    const sign = Math.sign(shape.startCurvature)
    return (end) => [-sign * (end.yMm - centreY), sign * (end.xMm - centreX), sign * leverMm]
  }
  if (shape.kind === 'tangent') return () => [cos, sin, 0]
  const step = STEP * value
  const [longer, shorter] = [motionWith(shape, kind, value + step), motionWith(shape, kind, value - step)]
  const [x, y] = [(longer.xMm - shorter.xMm) / (2 * step), (longer.yMm - shorter.yMm) / (2 * step)]
  const turns = (longer.headingRad - shorter.headingRad) / (2 * step)
  const there = followedBy(way, motion)
  return (end) => [
    x * cos - y * sin - turns * (end.yMm - there.yMm),
    x * sin + y * cos + turns * (end.xMm - there.xMm),
    turns * leverMm,
  ]
}
