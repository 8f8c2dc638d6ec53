import type { Pose } from '../track/types.ts'
import { evaluated, linksOf } from './chain.ts'
import type { Change } from './change.ts'
import { leastSquares } from './least-squares.ts'
import { type Closing, type Loop, shareOfTolerance } from './loop.ts'
import { back, followedBy, NOWHERE, withinHalfTurn } from './motion.ts'
import { oddnessOfAngle, oddnessOfLength } from './roundness.ts'
import { SHORTEST_MM, SMALLEST_RAD } from './slips.ts'

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
 * steps for three unknowns, and by least squares for two. Range: the longest arcs and straights only, none shortened to
 * nothing.
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
  const changing = unknowns.map(({ element, kind }) => ({ kind, shape: loop.shapes[element]! }))
  const chain = {
    unknowns: changing,
    links: linksOf(changing),
    stretches: stretchesBetween(loop, unknowns),
    leverMm: scaleOf(loop),
  }
  let values = unknowns.map(({ now }) => now)
  for (let step = 0; step < NEWTON_STEPS; step++) {
    const { end, columns } = evaluated(chain, values)
    const miss = [-end.xMm, -end.yMm, -withinHalfTurn(end.headingRad) * scaleOf(loop)]
    const steps = leastSquares(columns, miss)
    if (!steps) return []
    values = values.map((value, index) => value + steps[index]!)
    if (values.some((value, index) => !(value > (unknowns[index]!.kind === 'angle' ? SMALLEST_RAD : SHORTEST_MM))))
      return []
    if (steps.every((each, index) => Math.abs(each) * (unknowns[index]!.kind === 'angle' ? scaleOf(loop) : 1) < 1e-9))
      break
  }
  const { end } = evaluated(chain, values)
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
export function stretchesBetween(
  { before }: Pick<Loop, 'before'>,
  unknowns: readonly { readonly element: number }[],
): Pose[] {
  let from = 0
  const stretches = unknowns.map(({ element }) => {
    const stretch = followedBy(back(before[from]!), before[element]!)
    from = element + 1
    return stretch
  })
  return [...stretches, followedBy(back(before[from]!), before.at(-1)!)]
}
