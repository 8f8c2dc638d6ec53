import type { Pose } from '../track/types.ts'
import { type Chain, type ChainUnknown, evaluated, shapeWith } from './chain.ts'
import { leastSquares } from './least-squares.ts'
import { withinHalfTurn } from './motion.ts'

/** Where the end of a chain must come to. */
export interface Goal {
  readonly pose: Pose
  /** Whether its heading counts. */
  readonly hasHeading: boolean
}

/** Values of the unknowns, and how far from the goal the chain ends with them. */
export interface Fit {
  /** Angles in rad, lengths and radii in mm, in the order of the unknowns. */
  readonly values: readonly number[]
  readonly end: Pose
  readonly missMm: number
  /** 0 where the heading does not count. */
  readonly missRad: number
}

export interface Fits {
  /** Those that reach the goal with every value in its range, the shortest first. */
  readonly found: readonly Fit[]
  /** Reaches the goal, but with a length or radius below zero or no angle at all; null where there is none. */
  readonly beyond: Fit | null
  /** The closest that values in their range come; of the solutions the first, where there are any. */
  readonly nearest: Fit | null
}

/** As small as an element of a plan may be. */
const LEAST_MM = 0.001
const LEAST_RAD = (1e-6 * Math.PI) / 180
/** As wide as a curve of a plan may be. */
export const MOST_RADIUS_MM = 1e7

/** What rounding leaves of a gap that is closed: 1e-9 mm on tracks of up to 100 m. */
const CLOSED_MM = 1e-9
const CLOSED_SHARE = 1e-14

const MOST_STEPS = 60
const MOST_HALVINGS = 12

const TURN = 2 * Math.PI

/**
 * The values of one to three unknowns with which a chain of elements ends at a goal.
 *
 * r(p) = end(p) − goal, three conditions (x, y and, times the lever, the heading) or two; Newton steps from several
 * starts, each halved until |r| becomes smaller. Straights, and radii of arcs whose angles are known, make r linear (the
 * tangents of a curve are R·tan(Δ/2)), so that the first step is exact; one angle alone follows from the headings, and
 * starts exact. With fewer unknowns than conditions the steps are those of
 * Gauss and Newton, to the least |r|, and `enough` says which miss still counts as reached.
 * Range: one to three unknowns, no more than conditions; angles up to one turn. At most 54 starts of 60 steps.
 * Checked in tests/fitting/unknowns.test.ts and tests/fitting/radii.test.ts.
 */
export function fits(chain: Chain, goal: Goal, enough: { readonly mm: number; readonly rad: number }): Fits {
  const isSquare = chain.unknowns.length === (goal.hasHeading ? 3 : 2)
  const sizeMm = chain.stretches.reduce((sum, { xMm, yMm }) => sum + Math.hypot(xMm, yMm), 0)
  const exactMm = Math.max(CLOSED_MM, CLOSED_SHARE * sizeMm)
  const reaches = ({ missMm, missRad }: Fit) =>
    isSquare
      ? Math.hypot(missMm, missRad * chain.leverMm) <= exactMm
      : missMm <= Math.max(enough.mm, exactMm) && missRad <= Math.max(enough.rad, exactMm / chain.leverMm)
  const found: Fit[] = []
  let beyond: Fit | null = null
  for (const start of startsOf(chain, goal)) {
    const reached = newton(chain, goal, start)
    if (!reached || !reaches(reached)) continue
    const fit = { ...reached, values: reached.values.map((value, index) => normal(chain.unknowns[index]!, value)) }
    if (!fit.values.every((value, index) => isInRange(chain.unknowns[index]!, value))) beyond ??= fit
    else if (!found.some((other) => isSame(other, fit))) found.push(fit)
  }
  found.sort((a, b) => lengthOf(chain, a) - lengthOf(chain, b))
  return { found, beyond, nearest: found[0] ?? nearestOf(chain, goal) }
}

/** An angle in (0, 2π]; a length or a radius as it is. */
function normal({ kind }: ChainUnknown, value: number): number {
  if (kind !== 'angle') return value
  const within = value - TURN * Math.floor(value / TURN)
  return within < LEAST_RAD / 2 ? within + TURN : within
}

function isInRange({ kind }: ChainUnknown, value: number): boolean {
  if (kind === 'angle') return value >= LEAST_RAD && value <= TURN - LEAST_RAD
  return value >= LEAST_MM && (kind === 'length' || value <= MOST_RADIUS_MM)
}

function isSame(a: Fit, b: Fit): boolean {
  return a.values.every((value, index) => Math.abs(value - b.values[index]!) < 1e-6)
}

function lengthOf({ links }: Chain, { values }: Fit): number {
  return links.reduce((sum, link) => sum + shapeWith(link, values).lengthMm, 0)
}

function missOf({ pose, hasHeading }: Goal, end: Pose): number[] {
  return [pose.xMm - end.xMm, pose.yMm - end.yMm, hasHeading ? withinHalfTurn(pose.headingRad - end.headingRad) : 0]
}

/** Damped Newton steps from a start; null where the unknowns do not determine a step. `held`: those that stay. */
function newton(chain: Chain, goal: Goal, start: readonly number[], held: ReadonlySet<number> = NONE): Fit | null {
  const lever = goal.hasHeading ? chain.leverMm : 0
  const look = (values: readonly number[]) => {
    const { end, columns } = evaluated(chain, values)
    const [x, y, rad] = missOf(goal, end) as [number, number, number]
    return { values, end, columns, wanted: [x, y, rad * lever], size: Math.hypot(x, y, rad * lever), rad }
  }
  const free = chain.unknowns.flatMap((_, index) => (held.has(index) ? [] : [index]))
  let here = look(start)
  for (let step = 0; step < MOST_STEPS && free.length > 0; step++) {
    const columns = free.map((index) => here.columns[index]!.map((value, n) => (n === 2 && lever === 0 ? 0 : value)))
    const steps = leastSquares(columns, here.wanted)
    if (!steps) return step === 0 ? null : fitAt(here)
    const better = (share: number) => {
      const values = here.values.map((value, index) => value + share * (steps[free.indexOf(index)] ?? 0))
      return values.every(Number.isFinite) && isPositive(chain, values) ? look(values) : null
    }
    let next = better(1)
    for (let half = 1; half <= MOST_HALVINGS && !(next && next.size < here.size); half++) next = better(0.5 ** half)
    if (!next || !(next.size < here.size)) break
    here = next
  }
  return fitAt(here)
}

const NONE: ReadonlySet<number> = new Set()

/** What easements and arcs of a given length come to be has no sense below zero; what straights and turns do goes on there. */
function isPositive(chain: Chain, values: readonly number[]): boolean {
  return chain.unknowns.every((_, index) => isLinear(chain, index) || values[index]! > 0)
}

/** Whether the end moves evenly with a length or a radius. */
function isLinear({ links }: Chain, unknown: number): boolean {
  return links.every(
    ({ shape, size, radius, keepsLength, startRadius, endRadius }) =>
      !(startRadius === unknown || endRadius === unknown) &&
      !(size === unknown && shape.kind === 'easement') &&
      !(radius === unknown && keepsLength),
  )
}

function fitAt({ values, end, wanted, rad }: Omit<Fit, 'missMm' | 'missRad'> & { wanted: number[]; rad: number }): Fit {
  return { values, end, missMm: Math.hypot(wanted[0]!, wanted[1]!), missRad: Math.abs(wanted[2] === 0 ? 0 : rad) }
}

const START_ANGLES = [0.5, 1.5, 2.6, 3.7, 4.8, 5.9]
/** Turns of an easement, and of an arc of a given length, in their starts, rad. */
const START_TURNS = [0.2, 0.8, 2]
const START_MM = 1000
/** Radii with easements beside them. */
const START_RADII_MM = [700, 2500, 9000]

/** Grids over what is not linear; the last angle follows from the headings, where those count. */
function startsOf(chain: Chain, goal: Goal): number[][] {
  const { unknowns } = chain
  const last = goal.hasHeading ? unknowns.findLastIndex(({ kind }) => kind === 'angle') : -1
  const isCoarse = unknowns.filter(({ shape }, index) => shape.kind !== 'tangent' && index !== last).length > 2
  let starts: number[][] = [[]]
  for (const [index, unknown] of unknowns.entries())
    starts = starts.flatMap((start) =>
      gridOf(chain, unknown, index, index === last, isCoarse).map((value) => [...start, value]),
    )
  if (last < 0) return starts
  return starts.map((start) => {
    const { end } = evaluated(chain, start.with(last, 0))
    const turn = Math.sign(unknowns[last]!.shape.startCurvature)
    return start.with(last, normal(unknowns[last]!, turn * (goal.pose.headingRad - end.headingRad)))
  })
}

function gridOf(
  chain: Chain,
  { kind, shape }: ChainUnknown,
  index: number,
  isLast: boolean,
  isCoarse: boolean,
): number[] {
  if (kind === 'radius') {
    if (isLinear(chain, index)) return [START_MM]
    const isGiven = chain.links.some(({ radius, keepsLength }) => radius === index && keepsLength)
    return isGiven ? START_TURNS.map((rad) => shape.lengthMm / rad) : START_RADII_MM
  }
  if (kind === 'angle') {
    if (isLast) return [0]
    return isCoarse ? START_ANGLES.filter((_, index) => index % 2 === 0) : START_ANGLES
  }
  if (shape.kind === 'tangent') return [START_MM]
  const curvature = (Math.abs(shape.startCurvature) + Math.abs(shape.endCurvature)) / 2
  return curvature === 0 ? [START_MM] : START_TURNS.map((rad) => rad / curvature)
}

/** The least miss with every value in its range: values that would leave it stay at its edge. */
function nearestOf(chain: Chain, goal: Goal): Fit | null {
  let best: Fit | null = null
  const sizeOf = ({ missMm, missRad }: Fit) => Math.hypot(missMm, missRad * chain.leverMm)
  for (const start of startsOf(chain, goal)) {
    const held = new Set<number>()
    let values: readonly number[] = start
    for (let round = 0; round <= chain.unknowns.length; round++) {
      const fit = newton(chain, goal, values, held)
      if (!fit) break
      const out = chain.unknowns.findIndex((unknown, index) => !held.has(index) && isBelow(unknown, fit.values[index]!))
      if (out < 0) {
        if (!best || sizeOf(fit) < sizeOf(best)) best = fit
        break
      }
      held.add(out)
      values = fit.values.with(out, chain.unknowns[out]!.kind === 'angle' ? LEAST_RAD : LEAST_MM)
    }
  }
  return best
}

function isBelow({ kind }: ChainUnknown, value: number): boolean {
  return value < (kind === 'angle' ? LEAST_RAD : LEAST_MM)
}
