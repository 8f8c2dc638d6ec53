import type { Pose, Shape } from '../track/types.ts'
import { followedBy, motionOf } from './motion.ts'
import { turnedAgain, withAngle, withLength } from './slips.ts'

/** Elements whose angle, length or radius may change, with what lies before, between and behind them. */
export interface Chain {
  readonly unknowns: readonly ChainUnknown[]
  /** The elements that change, in order. */
  readonly links: readonly Link[]
  /** One more than there are links. */
  readonly stretches: readonly Pose[]
  /** Makes radians comparable with millimetres. */
  readonly leverMm: number
}

export interface ChainUnknown {
  /** The angle of an arc, rad, the length of a straight or an easement, mm, or the radius of an arc, mm. */
  readonly kind: 'angle' | 'length' | 'radius'
  readonly shape: Shape
}

/** An element that changes: by the index of the unknown that is its figure; without an index that figure is its own. */
export interface Link {
  readonly shape: Shape
  /** The length of a straight or an easement, the angle of an arc. */
  readonly size?: number | undefined
  /** Of an arc. */
  readonly radius?: number | undefined
  /** Whether an arc whose radius changes keeps its length rather than its angle. */
  readonly keepsLength?: boolean | undefined
  /** Of an easement: the radius of the arc that it begins or ends at. */
  readonly startRadius?: number | undefined
  readonly endRadius?: number | undefined
}

/** Each unknown with its element, where none of them changes another element as well. */
export function linksOf(unknowns: readonly ChainUnknown[]): Link[] {
  return unknowns.map(({ shape }, size) => ({ shape, size }))
}

/** Step of the difference that stands for the derivative where there is no simple one, as a share of the value. */
const STEP = 1e-6

/**
 * Where a chain of elements ends, and how its end moves with each unknown: x and y in mm, and the heading times the lever.
 *
 * With Mₖ the motions of the stretches between the links and Eᵢ those of the links the end is
 * M₀·E₁·M₁·E₂·M₂·E₃·M₃, so that a step costs the same however long the track is. Derivatives are taken from the geometry: a
 * longer straight moves the end along itself, a larger angle turns the end about the centre of the arc, a larger radius
 * at the same angle moves it along the chord by chord/R. That of an easement, and of an arc that keeps its length, is a
 * central difference.
 * Range: values above zero. Checked in tests/fitting/closings.test.ts, tests/fitting/unknowns.test.ts and
 * tests/fitting/radii.test.ts.
 */
export function evaluated(
  { unknowns, links, stretches, leverMm }: Chain,
  values: readonly number[],
): { end: Pose; columns: number[][] } {
  let way = stretches[0]!
  const movers: { readonly unknown: number; readonly mover: Mover }[] = []
  for (const [index, link] of links.entries()) {
    const motion = motionWith(link, values)
    const { size, radius, startRadius, endRadius } = link
    const put = (unknown: number | undefined) => {
      if (unknown !== undefined) movers.push({ unknown, mover: moverOf(way, link, unknown, values, motion, leverMm) })
    }
    put(size)
    put(radius)
    put(startRadius)
    // An easement alone on a closed track lies between both ends of the same arc.
    if (endRadius !== startRadius) put(endRadius)
    way = followedBy(followedBy(way, motion), stretches[index + 1]!)
  }
  const columns: number[][] = unknowns.map(() => [])
  for (const { unknown, mover } of movers) {
    const there = columns[unknown]!
    const more = mover(way)
    columns[unknown] = there.length === 0 ? more : more.map((value, n) => there[n]! + value)
  }
  return { end: way, columns }
}

/** An element that changes with some values of the unknowns. */
export function shapeWith(
  { shape, size, radius, keepsLength, startRadius, endRadius }: Link,
  values: readonly number[],
): Shape {
  if (size !== undefined && radius === undefined && startRadius === undefined && endRadius === undefined)
    return (shape.kind === 'arc' ? withAngle : withLength)(shape, values[size]!)
  if (shape.kind !== 'arc') {
    const startCurvature = curvatureWith(shape.startCurvature, values[startRadius ?? -1])
    const endCurvature = curvatureWith(shape.endCurvature, values[endRadius ?? -1])
    return withLength({ ...shape, startCurvature, endCurvature }, values[size ?? -1] ?? shape.lengthMm)
  }
  const curvature = curvatureWith(shape.startCurvature, values[radius ?? -1])
  const bent = { ...shape, startCurvature: curvature, endCurvature: curvature }
  if (size === undefined && keepsLength) return turnedAgain(bent)
  return withAngle(bent, values[size ?? -1] ?? Math.abs(shape.turnedRad))
}

function curvatureWith(curvature: number, radiusMm: number | undefined): number {
  return radiusMm === undefined ? curvature : Math.sign(curvature) / radiusMm
}

function motionWith(link: Link, values: readonly number[]): Pose {
  if (link.radius === undefined || link.keepsLength) return motionOf(shapeWith(link, values))
  return turnWith(link, values, values[link.radius]!)
}

/**
 * An arc of radius R and angle Δ to a side s = ±1: R·sin Δ along and s·2R·sin²(Δ/2) aside. Also for R ≤ 0, so that steps
 * may lead through it.
 */
function turnWith({ shape, size }: Link, values: readonly number[], radiusMm: number): Pose {
  const angleRad = values[size ?? -1] ?? Math.abs(shape.turnedRad)
  const side = Math.sign(shape.startCurvature)
  return {
    xMm: radiusMm * Math.sin(angleRad),
    yMm: side * 2 * radiusMm * Math.sin(angleRad / 2) ** 2,
    headingRad: side * angleRad,
  }
}

type Mover = (end: Pose) => number[]

function moverOf(
  way: Pose,
  link: Link,
  unknown: number,
  values: readonly number[],
  motion: Pose,
  leverMm: number,
): Mover {
  const { shape, size, radius } = link
  const { xMm, yMm, headingRad } = way
  const [cos, sin] = [Math.cos(headingRad), Math.sin(headingRad)]
  if (shape.kind === 'arc' && unknown === size) {
    const curvature = curvatureWith(shape.startCurvature, values[radius ?? -1])
    const [centreX, centreY] = [xMm - sin / curvature, yMm + cos / curvature]
    const sign = Math.sign(shape.startCurvature)
    return (end) => [-sign * (end.yMm - centreY), sign * (end.xMm - centreX), sign * leverMm]
  }
  if (shape.kind === 'tangent') return () => [cos, sin, 0]
  const { x, y, turns } =
    shape.kind === 'arc' && !link.keepsLength ? chordOf(link, values) : slopeOf(link, unknown, values)
  const there = followedBy(way, motion)
  return (end) => [
    x * cos - y * sin - turns * (end.yMm - there.yMm),
    x * sin + y * cos + turns * (end.xMm - there.xMm),
    turns * leverMm,
  ]
}

/** How the end of an element moves with a value, seen from its start. */
interface Slope {
  readonly x: number
  readonly y: number
  readonly turns: number
}

function chordOf(link: Link, values: readonly number[]): Slope {
  const { xMm: x, yMm: y } = turnWith(link, values, 1)
  return { x, y, turns: 0 }
}

function slopeOf(link: Link, unknown: number, values: readonly number[]): Slope {
  const value = values[unknown]!
  const step = STEP * value
  const [longer, shorter] = [
    motionWith(link, values.with(unknown, value + step)),
    motionWith(link, values.with(unknown, value - step)),
  ]
  return {
    x: (longer.xMm - shorter.xMm) / (2 * step),
    y: (longer.yMm - shorter.yMm) / (2 * step),
    turns: (longer.headingRad - shorter.headingRad) / (2 * step),
  }
}
