import type { Metal } from '../metal.ts'
import { firstDoubling, rootBetween } from '../numeric/root.ts'
import type { SectionProperties } from '../section-properties.ts'
import { formingCurvature } from '../springback.ts'
import type { BendingModel } from './bending-model.ts'
import type { LoadingCurve } from './loading-curve.ts'
import { axisToRollerCentreMm, type RollerBender } from './roller-bender.ts'
import { type Side, sideDepth } from './three-point-depth.ts'

/** Between presses rail may be flatter than its arc by this much, mm, and not be seen; common practice, no source. */
const FLAT_MM = 0.1
/** The moment at the middle between two presses is still most of that at a press. Common practice, no source. */
const SHARE_OF_SPAN = 1 / 4

/** Of the peak. */
const PEAK_WITHIN = 1e-12
/** At a press rail is bent no more than so many times as tight as for an even curve. */
const MOST_OVERBENT = 16

/**
 * How far to move rail on between two presses, in whole millimetres: a quarter of the span; less where the scallops
 * could be more than a tenth of a millimetre high even if all bending were at the presses, P²/(8R) (closed form).
 */
export function pressStepMm({ spanMm }: RollerBender, wantedRadiusMm: number): number {
  const mm = Math.min(spanMm * SHARE_OF_SPAN, Math.sqrt(8 * wantedRadiusMm * FLAT_MM))
  return mm >= 1 ? Math.floor(mm) : mm
}

/**
 * Rail that is pressed at places P apart, each time to the same depth, in one pass or several over the same places.
 *
 * A press puts the moment M0·(1 − x/s) on the rail at x from it, s the half span between the points of touch. So the
 * peak at any place is that of the nearest press, M = M0·(1 − d/s), d ≤ P/2, and the rail keeps the set of that; its
 * mean over d is the curvature of the bent rail. At each press the rail on one side already has the peaks of the presses
 * before it, and on the other side those of the pass before, if any. Under the moment of a press it is elastic up to
 * the peak it has and follows the law beyond, which gives the slope and deflection of each side as in
 * `threePointDepthMm`.
 *
 * Derived. Range: P < span, depth small compared with the span; the first press of a stick, which has none beside it,
 * bends a little tighter. Checked against a stick pressed place by place in
 * tests/bending/roller/pressed-model.test.ts.
 */
export class PressedModel implements BendingModel {
  private readonly section: SectionProperties
  private readonly metal: Metal
  readonly stepMm: number
  private readonly curve: LoadingCurve
  private readonly halfSpanMm: number
  private readonly offsetMm: number

  constructor(section: SectionProperties, metal: Metal, bender: RollerBender, stepMm: number, curve: LoadingCurve) {
    this.section = section
    this.metal = metal
    this.stepMm = stepMm
    this.curve = curve
    this.halfSpanMm = bender.spanMm / 2
    this.offsetMm = axisToRollerCentreMm(section, bender)
  }

  /**
   * Whether any peak leaves a mean curvature. Metal that does not harden yields at the press alone, however deep, and
   * beside it the rail keeps little; then the presses have to be closer together.
   */
  reaches(wantedPerMm: number): boolean {
    const even = formingCurvature(this.section, this.metal, wantedPerMm)
    for (let overbent = 2; overbent <= MOST_OVERBENT; overbent *= 2)
      if (this.leavesPerMm(overbent * even) >= wantedPerMm) return true
    return false
  }

  peakFor(wantedPerMm: number): number {
    const least = formingCurvature(this.section, this.metal, wantedPerMm)
    const excess = (peak: number) => this.leavesPerMm(peak) / wantedPerMm - 1
    if (excess(least) >= 0) return least
    const most = firstDoubling(2 * least, (peak) => excess(peak) >= 0)
    if (most === null) throw new RangeError('no finite curvature leaves the wanted mean')
    return rootBetween(excess, most / 2, most, PEAK_WITHIN * most)
  }

  leavesPerMm(peak: number): number {
    return this.meanOverStep(peak, () => 1)
  }

  /**
   * By how much the rail between two presses is flatter than the mean arc, mm: ∫κ·(P/2 − x)dx − κ̄·P²/8, x from 0 to
   * P/2 (double integration of κ − κ̄, whose slope is zero at a press and half-way between two).
   */
  scallopMm(peak: number): number {
    const half = this.stepMm / 2
    return half * this.meanOverStep(peak, (x) => half - x) - (this.leavesPerMm(peak) * this.stepMm ** 2) / 8
  }

  depthMm(before: number, peak: number): number {
    // The points of touch depend on the slopes at them, which differ little between the two sides.
    let touchMm = this.touchMm(this.loadedSlope(peak))
    let sides: readonly Side[] = []
    for (let round = 0; round < 2; round++) {
      sides = this.sides(before, peak, touchMm)
      touchMm = this.touchMm((sides[0]!.k1 + sides[1]!.k1) / 2)
    }
    return sides.reduce((sum, side) => sum + sideDepth(this.halfSpanMm, this.offsetMm, side), 0) / 2
  }

  /**
   * Mean of what the rail keeps from one press to half-way to the next, times a weight. For the points of touch, one
   * side is taken as fresh and the other as pressed before: it has the mean curvature the presses leave, and springs
   * back by half as much as at the press.
   */
  private meanOverStep(peak: number, weight: (xMm: number) => number): number {
    const m0 = this.curve.momentNmm(peak)
    const freshMm = this.touchMm(this.loadedSlope(peak))
    const pressed = this.weighedMean(peak, m0, freshMm, () => 1) + m0 / this.curve.stiffness / 2
    return this.weighedMean(peak, m0, this.touchMm((this.loadedSlope(peak) + pressed) / 2), weight)
  }

  private weighedMean(peak: number, m0: number, touchMm: number, weight: (xMm: number) => number): number {
    const { curve, stepMm } = this
    let sum = 0
    for (const { x, share } of besidePress(stepMm / 2))
      sum += share * weight(x) * curve.setPerMm(curve.curvatureAt(m0 * (1 - x / touchMm), peak))
    return sum / (stepMm / 2)
  }

  /** K1 of a side that is loaded for the first time. */
  private loadedSlope(peak: number): number {
    return peak - this.curve.integralsTo(peak).ofMoment / this.curve.momentNmm(peak)
  }

  /** Half the span between the points of touch, which move inwards as the rail tilts by K1 of its length. */
  private touchMm(k1: number): number {
    return this.halfSpanMm / (1 + this.offsetMm * k1)
  }

  /** The side that was pressed before in this pass, and the other. */
  private sides(before: number, peak: number, touchMm: number): [Side, Side] {
    const { curve, stepMm } = this
    const [m0, earlier] = [curve.momentNmm(peak), before === 0 ? 0 : curve.momentNmm(before)]
    const elastic = m0 / curve.stiffness
    const k1 = [0, 0]
    const k2 = [0, 0]
    for (const { x, share } of placesAlong(touchMm, stepMm)) {
      const m = 1 - x / touchMm
      const toNearest = Math.abs(x - stepMm * Math.round(x / stepMm))
      const ofEarlier = earlier * (1 - toNearest / touchMm)
      const toPressed = x < stepMm / 2 ? stepMm - x : toNearest
      const ofThis = m0 * Math.max(0, 1 - toPressed / touchMm)
      for (const [index, had] of [Math.max(ofEarlier, ofThis), ofEarlier].entries()) {
        // Elastic up to the moment the place has had, along the law beyond.
        const reached = Math.max(had, m0 * m)
        const k = curve.curvatureAt(reached, peak) - elastic * (reached / m0 - m)
        k1[index]! += (share / touchMm) * k
        k2[index]! += (share / touchMm) * k * m
      }
    }
    return [
      { k1: k1[0]!, k2: k2[0]! },
      { k1: k1[1]!, k2: k2[1]! },
    ]
  }
}

interface Place {
  readonly x: number
  /** The length it stands for. */
  readonly share: number
}

/** Places from the press to the point of touch, in parts that end at presses and half-way between them. */
function placesAlong(touchMm: number, stepMm: number): Place[] {
  const along = besidePress(Math.min(stepMm / 2, touchMm))
  for (let fromMm = stepMm / 2; fromMm < touchMm; fromMm += stepMm / 2)
    along.push(...places(fromMm, Math.min(fromMm + stepMm / 2, touchMm)))
  return along
}

/** Places from a press to `toMm`, closer together towards the press, where the curvature changes most: x = toMm·t². */
function besidePress(toMm: number): Place[] {
  return [places(0, 0.25), places(0.25, 0.5), places(0.5, 1)]
    .flat()
    .map(({ x: t, share }) => ({ x: toMm * t * t, share: 2 * toMm * t * share }))
}

/** Four-point Gauss rule. */
const NODES = [-0.8611363115940526, -0.3399810435848563, 0.3399810435848563, 0.8611363115940526]
const WEIGHTS = [0.3478548451374538, 0.6521451548625461, 0.6521451548625461, 0.3478548451374538]

/** Where to look between two places. */
function places(fromMm: number, toMm: number): Place[] {
  const half = (toMm - fromMm) / 2
  return NODES.map((node, index) => ({ x: fromMm + (1 + node) * half, share: WEIGHTS[index]! * half }))
}
