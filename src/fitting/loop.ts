import type { PlacedElement, Pose, Shape } from '../track/types.ts'
import type { Change } from './change.ts'
import { back, followedBy, motionOf, motionsBefore, withinHalfTurn } from './motion.ts'

/** A closed track that does not meet its own start, and how closely it has to. */
export interface Loop {
  readonly shapes: readonly Shape[]
  readonly motions: readonly Pose[]
  /** The motions before each element, and of all. */
  readonly before: readonly Pose[]
  readonly lengthMm: number
  readonly gapMm: number
  readonly headingRad: number
  readonly minimumRadiusMm: number
}

/** One way to close a loop. */
export interface Closing {
  readonly changes: readonly Change[]
  /** The smaller, the sooner it is offered. */
  readonly cost: number
}

export interface Tolerances {
  readonly gapMm: number
  readonly headingRad: number
  readonly minimumRadiusMm: number
}

export function loopOf(placed: readonly PlacedElement[], { gapMm, headingRad, minimumRadiusMm }: Tolerances): Loop {
  // A turnout moves by several parts, which do not change.
  const motions = placed.map((element) =>
    element.parts ? followedBy(back(element.start), element.end) : motionOf(element),
  )
  return {
    shapes: placed,
    motions,
    before: motionsBefore(motions),
    lengthMm: placed.at(-1)?.toMm ?? 0,
    gapMm,
    headingRad,
    minimumRadiusMm,
  }
}

/**
 * What the elements from `from` up to `to` must do for the rest of the loop to close: E = A(from)⁻¹ · A(n)⁻¹ · A(to),
 * A(k) the motion of everything before element k. Where they go over the track's start (`to` ≤ `from`), A(n) drops out.
 */
export function motionWanted({ before }: Loop, from: number, to: number): Pose {
  const way = back(before[from]!)
  return to > from ? followedBy(followedBy(way, back(before.at(-1)!)), before[to]!) : followedBy(way, before[to]!)
}

/**
 * By how much two motions differ, as a share of what the joints of the loop take up: up to 1 it closes.
 */
export function shareOfTolerance({ gapMm, headingRad }: Loop, made: Pose, wanted: Pose): number {
  const apartMm = Math.hypot(made.xMm - wanted.xMm, made.yMm - wanted.yMm)
  const turnedRad = Math.abs(withinHalfTurn(made.headingRad - wanted.headingRad))
  return Math.max(apartMm / Math.max(gapMm, 1e-6), turnedRad / Math.max(headingRad, 1e-9))
}
