import type { Pose } from '../track/types.ts'
import type { Change } from './change.ts'
import { type Closing, type Loop, shareOfTolerance } from './loop.ts'
import { back, followedBy, motionOf, NOWHERE, withinHalfTurn } from './motion.ts'
import { oddnessOfAngle, oddnessOfLength } from './roundness.ts'
import { SHORTEST_MM, SMALLEST_RAD, withAngle, withLength } from './slips.ts'

/** So many of the longest arcs and of the longest straights are tried. */
const MOST_EACH = 6

const NEWTON_STEPS = 8

/** A change of less than this share of what the joints take up is none. */
const NO_CHANGE = 0.25

/** All figures at least this round were hardly found by chance: then two or three slips are likely. */
const ROUND = 4
const MEANT = 850

/** An element whose angle or length may change. */
interface Unknown {
  readonly element: number
  readonly kind: 'angle' | 'length'
  readonly now: number
}

/**
 * Two or three figures changed together so that a loop closes, where no single one does: angles traded between arcs,
 * and lengths of straights. The three conditions (x, y and heading of the end against the start) are solved by Newton
 * steps for three unknowns, and by least squares for two. With Mₖ the motions of the stretches between the unknowns and
 * Eᵢ those of the changed elements the end is M₀·E₁·M₁·E₂·M₂·E₃·M₃, so that a step costs the same however long the loop
 * is; its derivatives are taken from the geometry: a longer straight moves the end along itself, a larger angle turns the end about
 * the centre of the arc. Range: the longest arcs and straights only, none shortened to nothing.
 * Checked in tests/fitting/closings.test.ts.
 */
export function trades(loop: Loop): Closing[] {
  const unknowns = unknownsOf(loop)
  const found: Closing[] = []
  for (const [i, first] of unknowns.entries())
    for (const [j, second] of unknowns.entries()) {
      if (j <= i) continue
      found.push(...solved(loop, [first, second]))
      for (const [k, third] of unknowns.entries()) if (k > j) found.push(...solved(loop, [first, second, third]))
    }
  return found
}

function unknownsOf({ shapes }: Loop): Unknown[] {
  const longest = (kind: 'arc' | 'tangent') =>
    shapes
      .map((shape, element) => ({ ...shape, element }))
      .filter((shape) => shape.kind === kind)
      .sort((a, b) => b.lengthMm - a.lengthMm || a.element - b.element)
      .slice(0, MOST_EACH)
  const arcs = longest('arc').map(({ element, turnedRad }) => ({
    element,
    kind: 'angle' as const,
    now: Math.abs(turnedRad),
  }))
  const straights = longest('tangent').map(({ element, lengthMm }) => ({
    element,
    kind: 'length' as const,
    now: lengthMm,
  }))
  return [...arcs, ...straights].sort((a, b) => a.element - b.element)
}

function solved(loop: Loop, unknowns: readonly Unknown[]): Closing[] {
  const stretches = stretchesBetween(loop, unknowns)
  let values = unknowns.map(({ now }) => now)
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const { end, columns } = evaluated(loop, unknowns, stretches, values)
    const miss = [-end.xMm, -end.yMm, -withinHalfTurn(end.headingRad) * scaleOf(loop)]
    const steps = leastSquares(columns, miss)
    if (!steps) return []
    values = values.map((value, index) => value + steps[index]!)
    if (values.some((value, index) => !(value > (unknowns[index]!.kind === 'angle' ? SMALLEST_RAD : SHORTEST_MM))))
      return []
    if (steps.every((each, index) => Math.abs(each) * (unknowns[index]!.kind === 'angle' ? scaleOf(loop) : 1) < 1e-9))
      break
  }
  const { end } = evaluated(loop, unknowns, stretches, values)
  const share = shareOfTolerance(loop, end, NOWHERE)
  if (share > 1) return []
  const movedMm = unknowns.map((unknown, index) => {
    const changed = Math.abs(values[index]! - unknown.now)
    return unknown.kind === 'angle' ? changed / Math.abs(loop.shapes[unknown.element]!.startCurvature) : changed
  })
  if (movedMm.some((mm) => mm < NO_CHANGE * loop.gapMm)) return []
  const sizeMm = movedMm.reduce((sum, mm) => sum + mm)
  const changes = unknowns.map(
    ({ element, kind, now }, index): Change =>
      kind === 'angle'
        ? { element, field: 'angle', fromRad: now, toRad: values[index]! }
        : { element, field: 'length', fromMm: now, toMm: values[index]! },
  )
  const odds = unknowns.map(({ kind }, index) => (kind === 'angle' ? oddnessOfAngle : oddnessOfLength)(values[index]!))
  const odd = odds.reduce((sum, each) => sum + each)
  const round = odds.every((each) => each <= ROUND) ? MEANT : 0
  return [{ changes, cost: 1000 * unknowns.length - round + 300 * share + 4 * odd + (500 * sizeMm) / loop.lengthMm }]
}

/** Makes radians comparable with millimetres. */
function scaleOf({ lengthMm }: Loop): number {
  return lengthMm / (2 * Math.PI)
}

/** The motions before, between and behind the unknown elements. */
function stretchesBetween({ before }: Loop, unknowns: readonly Unknown[]): Pose[] {
  let from = 0
  const stretches = unknowns.map(({ element }) => {
    const stretch = followedBy(back(before[from]!), before[element]!)
    from = element + 1
    return stretch
  })
  return [...stretches, followedBy(back(before[from]!), before.at(-1)!)]
}

/** The end of the loop, and how it moves with each unknown. */
function evaluated(
  loop: Loop,
  unknowns: readonly Unknown[],
  stretches: readonly Pose[],
  values: readonly number[],
): { end: Pose; columns: number[][] } {
  let way = stretches[0]!
  const movers: ((end: Pose) => number[])[] = []
  for (const [index, { element, kind }] of unknowns.entries()) {
    const shape = loop.shapes[element]!
    const value = values[index]!
    const { xMm, yMm, headingRad } = way
    const [cos, sin] = [Math.cos(headingRad), Math.sin(headingRad)]
    if (kind === 'length') movers.push(() => [cos, sin, 0])
    else {
      const [centreX, centreY] = [xMm - sin / shape.startCurvature, yMm + cos / shape.startCurvature]
      const sign = Math.sign(shape.startCurvature)
      movers.push((end) => [-sign * (end.yMm - centreY), sign * (end.xMm - centreX), sign * scaleOf(loop)])
    }
    const motion = motionOf(kind === 'angle' ? withAngle(shape, value) : withLength(shape, value))
    way = followedBy(followedBy(way, motion), stretches[index + 1]!)
  }
  return { end: way, columns: movers.map((mover) => mover(way)) }
}

/** The solution of the normal equations of two or three columns; null where they do not determine it. */
function leastSquares(columns: readonly number[][], wanted: readonly number[]): number[] | null {
  const dot = (a: readonly number[], b: readonly number[]) => a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!
  const lengths = columns.map((column) => Math.sqrt(dot(column, column)))
  const units = columns.map((column, index) => column.map((value) => value / lengths[index]!))
  const right = units.map((unit) => dot(unit, wanted))
  const [a, b, c] = units
  if (!a || !b) return null
  if (!c) {
    const ab = dot(a, b)
    const determinant = 1 - ab * ab
    if (!(determinant > 1e-9)) return null
    return [
      (right[0]! - ab * right[1]!) / determinant / lengths[0]!,
      (right[1]! - ab * right[0]!) / determinant / lengths[1]!,
    ]
  }
  const determinant = triple(a, b, c)
  if (!(Math.abs(determinant) > 1e-6)) return null
  return [triple(wanted, b, c), triple(a, wanted, c), triple(a, b, wanted)].map(
    (value, index) => value / determinant / lengths[index]!,
  )
}

function triple(a: readonly number[], b: readonly number[], c: readonly number[]): number {
  return (
    a[0]! * (b[1]! * c[2]! - b[2]! * c[1]!) -
    a[1]! * (b[0]! * c[2]! - b[2]! * c[0]!) +
    a[2]! * (b[0]! * c[1]! - b[1]! * c[0]!)
  )
}
