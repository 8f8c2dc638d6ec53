import type { Pose, Shape } from '../track/types.ts'
import type { Change } from './change.ts'
import { type Closing, type Loop, motionWanted, shareOfTolerance } from './loop.ts'
import { followedBy, motionOf, withinHalfTurn } from './motion.ts'
import { ODDEST, oddnessOfAngle, oddnessOfLength } from './roundness.ts'

/** Nothing shorter is left of a straight or an easement. */
export const SHORTEST_MM = 1
/** Nor of an arc. */
export const SMALLEST_RAD = 1e-3

const TURN = 2 * Math.PI

/**
 * Every single figure of a loop, or turn of an arc, that closes it if it alone was written wrongly.
 *
 * What the rest of the loop wants of the element is known (`motionWanted`): a straight of that length, an arc of that
 * angle or radius is found in closed form, and is a cure if it does what is wanted within the tolerances of the loop.
 * Checked on random loops with one planted slip in tests/fitting/closings.test.ts.
 */
export function slips(loop: Loop): Closing[] {
  const known = figuresOf(loop.shapes)
  return loop.shapes.flatMap((shape, index) => {
    if (shape.kind === 'turnout' || shape.kind === 'crossing') return []
    if (shape.kind === 'arc') return [...angleSlips(loop, index, known), ...curveSlips(loop, index, known)]
    return lengthSlips(loop, index, known)
  })
}

/** The figures that a loop has already: a figure meant to be like another is likely. */
interface Figures {
  readonly lengthsMm: readonly number[]
  readonly anglesRad: readonly number[]
  readonly radiiMm: readonly number[]
}

function figuresOf(shapes: readonly Shape[]): Figures {
  const arcs = shapes.filter(({ kind }) => kind === 'arc')
  return {
    lengthsMm: [...new Set(shapes.filter(({ kind }) => kind !== 'arc').map(({ lengthMm }) => lengthMm))],
    anglesRad: [...new Set(arcs.map(({ turnedRad }) => Math.abs(turnedRad)))],
    radiiMm: [...new Set(arcs.map(({ startCurvature }) => 1 / Math.abs(startCurvature)))],
  }
}

/** Up to this many different figures are looked through. */
const MOST_FIGURES = 100

const LIKE_ANOTHER = 3

function likeness(value: number, figures: readonly number[]): number {
  const like = figures.length <= MOST_FIGURES && figures.some((other) => Math.abs(other - value) < 1e-4 * value)
  return like ? LIKE_ANOTHER : 0
}

/** The change of a figure: first of all it must fit, then it should be a figure that somebody means, then small. */
function slip(change: Change, share: number, odd: number, changed: number): Closing[] {
  return share <= 1 ? [{ changes: [change], cost: 1000 + costOf(share, odd) + 8 * Math.min(1, changed) }] : []
}

/**
 * Own choice, tried on random loops: an odd figure that leaves a gap is less likely than two round ones that leave none.
 *
 * @param share of what the joints take up
 */
export function costOf(share: number, odd: number): number {
  return 300 * share + 4 * odd + (odd >= ODDEST ? 400 : 0)
}

function lengthSlips(loop: Loop, index: number, { lengthsMm }: Figures): Closing[] {
  const shape = loop.shapes[index]!
  const wanted = motionWanted(loop, index, index + 1)
  const meanCurvature = (shape.startCurvature + shape.endCurvature) / 2
  const toMm = meanCurvature === 0 ? wanted.xMm : withinHalfTurn(wanted.headingRad) / meanCurvature
  if (toMm < SHORTEST_MM) return []
  const share = shareOfTolerance(loop, motionOf(withLength(shape, toMm)), wanted)
  const odd = oddnessOfLength(toMm) - likeness(toMm, lengthsMm)
  const change = { element: index, field: 'length', fromMm: shape.lengthMm, toMm } as const
  return slip(change, share, odd, Math.abs(toMm - shape.lengthMm) / shape.lengthMm)
}

function angleSlips(loop: Loop, index: number, { anglesRad }: Figures): Closing[] {
  const shape = loop.shapes[index]!
  const wanted = motionWanted(loop, index, index + 1)
  const fromRad = Math.abs(shape.turnedRad)
  const onceRad = (((Math.sign(shape.turnedRad) * wanted.headingRad) % TURN) + TURN) % TURN
  const nearestRad = onceRad + TURN * Math.round((fromRad - onceRad) / TURN)
  const toRad = nearestRad < SMALLEST_RAD ? nearestRad + TURN : nearestRad
  const share = shareOfTolerance(loop, motionOf(withAngle(shape, toRad)), wanted)
  const odd = oddnessOfAngle(toRad) - likeness(toRad, anglesRad)
  const change = { element: index, field: 'angle', fromRad, toRad } as const
  return slip(change, share, odd, Math.abs(toRad - fromRad) / fromRad)
}

/** A wrong turn, or a wrong radius: both also change the easements beside the arc. */
function curveSlips(loop: Loop, index: number, { radiiMm }: Figures): Closing[] {
  const { shapes, minimumRadiusMm } = loop
  const count = shapes.length
  const shape = shapes[index]!
  const hasBefore = count > 1 && shapes[(index + count - 1) % count]!.kind === 'easement'
  const hasAfter = count > 2 && shapes[(index + 1) % count]!.kind === 'easement'
  const from = hasBefore ? (index + count - 1) % count : index
  const to = ((hasAfter ? index + 1 : index) % count) + 1
  const wanted = motionWanted(loop, from, to)
  const between = (curvature: number): Pose => {
    const before = hasBefore ? [{ ...shapes[from]!, endCurvature: curvature }] : []
    const after = hasAfter ? [{ ...shapes[(index + 1) % count]!, startCurvature: curvature }] : []
    const arc = withCurvature(shape, curvature)
    return [...before.map(turnedAgain), arc, ...after.map(turnedAgain)].map(motionOf).reduce(followedBy)
  }
  const curvature = shape.startCurvature
  const turned = slip(
    { element: index, field: 'turn', to: curvature > 0 ? 'right' : 'left' },
    shareOfTolerance(loop, between(-curvature), wanted),
    likeMost(loop, index) ? 1 : 0,
    0,
  )
  const eased = hasBefore || hasAfter
  const angleRad = Math.abs(shape.turnedRad)
  const easedMm = (hasBefore ? shapes[from]!.lengthMm : 0) + (hasAfter ? shapes[(index + 1) % count]!.lengthMm : 0)
  const turnedRad = Math.abs(Math.abs(withinHalfTurn(wanted.headingRad)) - angleRad)
  const toMm = eased
    ? easedMm / 2 / turnedRad
    : Math.hypot(wanted.xMm, wanted.yMm) / (2 * Math.abs(Math.sin(angleRad / 2)))
  if (!(toMm >= minimumRadiusMm) || toMm > 1e7) return turned
  const fromMm = 1 / Math.abs(curvature)
  const share = shareOfTolerance(loop, between(Math.sign(curvature) / toMm), wanted)
  const odd = oddnessOfLength(toMm) - likeness(toMm, radiiMm)
  const change = { element: index, field: 'radius', fromMm, toMm } as const
  return [...turned, ...slip(change, share, odd, Math.abs(toMm - fromMm) / fromMm)]
}

/** Whether an arc turns as most of the loop does without it; where that is even, as its first arc. */
function likeMost({ shapes }: Loop, index: number): boolean {
  const first = shapes.find(({ kind }) => kind === 'arc')!
  const others = shapes.reduce((sum, { turnedRad }, at) => (at === index ? sum : sum + turnedRad), 0)
  const most = Math.abs(others) < SMALLEST_RAD || shapes[index] === first ? first.turnedRad : others
  return Math.sign(most) === Math.sign(shapes[index]!.turnedRad)
}

export function withLength(shape: Shape, lengthMm: number): Shape {
  return turnedAgain({ ...shape, lengthMm })
}

/** The arc with another angle. */
export function withAngle(shape: Shape, angleRad: number): Shape {
  return {
    ...shape,
    turnedRad: Math.sign(shape.startCurvature) * angleRad,
    lengthMm: angleRad / Math.abs(shape.startCurvature),
  }
}

/** The arc with another radius or turn; its angle stays. */
function withCurvature(shape: Shape, curvature: number): Shape {
  const angleRad = Math.abs(shape.turnedRad)
  return {
    ...shape,
    startCurvature: curvature,
    endCurvature: curvature,
    turnedRad: Math.sign(curvature) * angleRad,
    lengthMm: angleRad / Math.abs(curvature),
  }
}

export function turnedAgain(shape: Shape): Shape {
  return { ...shape, turnedRad: ((shape.startCurvature + shape.endCurvature) / 2) * shape.lengthMm }
}
