import type { Pose } from '../../track/types.ts'
import { arc, comingTo, facing, leaving, type Names, startAt, straight, trailing } from './elements.ts'
import { type FigureElement, type FigureKind, type FigureResult, type Kinds, ORIGIN, refused } from './figure.ts'

interface WyeOf extends Kinds {
  /** At the tail: a wye, or a turnout of the near hand; its diverging leg comes from the second turnout. */
  readonly tail: FigureKind
  readonly radiusMm: number
  /** Of the tail, beyond its points. */
  readonly clearMm: number
  readonly names: Names
}

/**
 * Three turnouts in a triangle: two in a straight, facing each other by their legs, and one at the tail, square to it.
 * Each leg curves with radius r from the heading A of its turnout to that of the tail's leg. The two legs come equally far
 * from the straight by a straight before the tail in the shorter one; how far apart the turnouts are follows.
 *
 * Closed forms; checked in tests/fitting/figures/loops.test.ts.
 */
export function wye({ near, far, tail, radiusMm, clearMm, names }: WyeOf): FigureResult {
  const { through, diverging } = tail.legs
  const sides = [sideOf(near, mirroredPose(through.end), radiusMm), sideOf(far, diverging.end, radiusMm)] as const
  if (sides.some(({ turnRad }) => turnRad < 0))
    return refused({
      field: 'near',
      code: 'contradictory',
      detail: 'two of its turnouts together turn by more than the quarter circle of a wye',
      hint: 'use turnouts that diverge by smaller angles',
    })
  const highestMm = Math.max(...sides.map(({ upMm }) => upMm))
  const [first, second] = sides.map((side) => finished(side, highestMm)) as [Finished, Finished]
  const reachMm = first.alongMm + second.alongMm
  const betweenMm = reachMm - near.legs.through.lengthMm - far.legs.through.lengthMm
  const [w1, w2, w3] = [names.turnout(1), names.turnout(2), names.turnout(3)]
  return {
    ok: true,
    tracks: [
      {
        name: names.track('main'),
        start: startAt(ORIGIN),
        elements: [facing(w1, near), ...straight(betweenMm), trailing(w2, far)],
      },
      {
        name: names.track('tail'),
        start: leaving(w1, 'diverging'),
        elements: [...first.elements, trailing(w3, tail, 'through'), ...straight(clearMm)],
      },
      {
        name: names.track('second leg'),
        start: leaving(w2, 'diverging'),
        end: comingTo(w3, 'diverging'),
        elements: second.elements.map((element) => (element.kind === 'arc' ? { ...element, turn: 'right' } : element)),
      },
    ],
    measures: [
      { name: 'points to points in the straight', valueMm: reachMm },
      { name: 'from the straight to the points at the tail', valueMm: highestMm },
      { name: 'length of the tail beyond its points', valueMm: clearMm },
    ],
  }
}

/** One side of the triangle up to the points at the tail, without a straight before the tail's leg. */
interface Side {
  readonly radiusMm: number
  readonly turnRad: number
  readonly headingRad: number
  readonly alongMm: number
  readonly upMm: number
}

/**
 * x = x₁ + r(sin θ − sin A) + y₃, y = y₁ + r(cos A − cos θ) + x₃, θ = 90° − A₃: the points at the tail, from those in the
 * straight. x₁, y₁, A the end of the leg in the straight; x₃, y₃, A₃ that of the tail's leg, to the side it comes from.
 */
function sideOf({ legs }: FigureKind, tail: Pose, radiusMm: number): Side {
  const { xMm, yMm, headingRad: legRad } = legs.diverging.end
  const headingRad = Math.PI / 2 - tail.headingRad
  return {
    radiusMm,
    headingRad,
    turnRad: headingRad - legRad,
    alongMm: xMm + radiusMm * (Math.sin(headingRad) - Math.sin(legRad)) + tail.yMm,
    upMm: yMm + radiusMm * (Math.cos(legRad) - Math.cos(headingRad)) + tail.xMm,
  }
}

function mirroredPose({ xMm, yMm, headingRad }: Pose): Pose {
  return { xMm, yMm: -yMm, headingRad: -headingRad }
}

interface Finished {
  readonly elements: readonly FigureElement[]
  readonly alongMm: number
}

/** With the straight that brings its end as far from the main straight as the other side's. */
function finished({ radiusMm, turnRad, headingRad, alongMm, upMm }: Side, highestMm: number): Finished {
  const straightMm = (highestMm - upMm) / Math.sin(headingRad)
  return {
    elements: [...arc(radiusMm, turnRad), ...straight(straightMm)],
    alongMm: alongMm + straightMm * Math.cos(headingRad),
  }
}
