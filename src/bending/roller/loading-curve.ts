import { type Metal, yieldStrain } from '../metal.ts'
import { momentNmm, yieldCurvature } from '../moment-curvature.ts'
import type { SectionProperties } from '../section-properties.ts'

/** A point of the moment–curvature law, and the integrals of M and M² over the curvature up to it. */
interface Knot {
  readonly k: number
  readonly moment: number
  readonly ofMoment: number
  readonly ofSquare: number
  /** dM/dκ at its left end; null while the next knot is not known. */
  readonly slope: number
}

/** Knots start at this share of the yield curvature; below it a rail is as good as elastic. */
const FIRST = 1 / 64
/** Distance of the knots, as a ratio: near the curvatures at which a width of the section yields, and elsewhere. */
const FINE = 1.02
const COARSE = 1.06

/**
 * The law of `momentNmm` as a monotone cubic spline, for one rail: a bend in several passes needs M, its inverse and its
 * integrals thousands of times. The law is from momentNmm at knots that are close together where M(κ) bends; between
 * them it is a cubic Hermite polynomial with the slopes of the parabola through three knots, reduced where that would
 * not be monotone (F. N. Fritsch and R. E. Carlson, *SIAM J. Numer. Anal.* 17, 1980). Knots are added as larger
 * curvatures are asked for and never moved. Range: curvatures ≥ 0. Accurate to 3e-5 of M and 3e-6 of its integrals, for the metals of rails
 * (tests/bending/roller/loading-curve.test.ts).
 */
export class LoadingCurve {
  /** E·I, N·mm². */
  readonly stiffness: number
  private readonly section: SectionProperties
  private readonly metal: Metal
  private readonly knees: readonly number[]
  private readonly points: { readonly k: number; readonly moment: number }[]
  private readonly knots: Knot[]
  /** From each knot to the next. */
  private readonly pieces: Piece[] = []

  constructor(section: SectionProperties, metal: Metal) {
    this.section = section
    this.metal = metal
    this.stiffness = metal.youngsModulusMpa * section.lateralSecondMomentMm4
    this.knees = section.rectangles.map(({ widthMm }) => (2 * yieldStrain(metal)) / widthMm)
    const first = FIRST * yieldCurvature(section, metal)
    this.points = [
      { k: 0, moment: 0 },
      { k: first, moment: momentNmm(section, metal, first) },
    ]
    this.knots = [{ k: 0, moment: 0, ofMoment: 0, ofSquare: 0, slope: this.stiffness }]
  }

  /** Moment, N·mm, of rail that is bent to a curvature for the first time. */
  momentNmm(k: number): number {
    const { from, h, a, b, c } = this.pieces[this.pieceOf(k)]!
    const t = k - from.k
    return h === 0 ? from.moment : from.moment + t * (a + t * (b + t * c))
  }

  /** Curvature that rail bent to `k` keeps when it is released. */
  setPerMm(k: number): number {
    return Math.max(0, k - this.momentNmm(k) / this.stiffness)
  }

  /** ∫M dκ and ∫M² dκ from 0 to k. */
  integralsTo(k: number): { readonly ofMoment: number; readonly ofSquare: number } {
    const piece = this.pieces[this.pieceOf(k)]!
    const { ofMoment, ofSquare } = integrals(piece, k - piece.from.k)
    return { ofMoment: piece.from.ofMoment + ofMoment, ofSquare: piece.from.ofSquare + ofSquare }
  }

  /**
   * The curvature at a moment that the law reaches.
   *
   * @param most a curvature at which the moment is at least that
   */
  curvatureAt(moment: number, most: number): number {
    if (moment <= 0) return 0
    this.extendOver(most)
    let [low, high] = [0, this.knots.length - 1]
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if (this.knots[middle]!.moment <= moment) low = middle
      else high = middle
    }
    const { from, h, a, b, c } = this.pieces[low]!
    const wanted = moment - from.moment
    let [least, greatest] = [0, h]
    let t = Math.min(h, wanted / a)
    for (let step = 0; step < 60; step++) {
      const excess = t * (a + t * (b + t * c)) - wanted
      if (excess > 0) greatest = t
      else least = t
      const next = t - excess / (a + t * (2 * b + t * 3 * c))
      const kept = next > least && next < greatest ? next : (least + greatest) / 2
      if (Math.abs(kept - t) <= 1e-13 * (from.k + kept)) return from.k + kept
      t = kept
    }
    return from.k + t
  }

  /** Index of the knot before a curvature. */
  private pieceOf(k: number): number {
    this.extendOver(k)
    let [low, high] = [0, this.knots.length - 1]
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if (this.knots[middle]!.k <= k) low = middle
      else high = middle
    }
    return low
  }

  /** Adds knots until one lies beyond `k`. A knot's slope needs the point after it. */
  private extendOver(k: number): void {
    while (this.knots.at(-1)!.k <= k) {
      const next = this.knots.length
      while (this.points.length < next + 2) this.addPoint()
      const [before, at, after] = [this.points[next - 1]!, this.points[next]!, this.points[next + 1]!]
      const left = (at.moment - before.moment) / (at.k - before.k)
      const right = (after.moment - at.moment) / (after.k - at.k)
      const parabola = (left * (after.k - at.k) + right * (at.k - before.k)) / (after.k - before.k)
      const slope = Math.max(0, Math.min(parabola, 3 * Math.min(left, right)))
      const from = this.knots.at(-1)!
      const piece = pieceBetween(from, { ...at, slope })
      const { ofMoment, ofSquare } = integrals(piece, piece.h)
      this.pieces.push(piece)
      this.knots.push({
        ...at,
        slope,
        ofMoment: from.ofMoment + ofMoment,
        ofSquare: from.ofSquare + ofSquare,
      })
    }
  }

  private addPoint(): void {
    const last = this.points.at(-1)!.k
    const isNearKnee = this.knees.some((knee) => last > 0.8 * knee && last < 1.7 * knee)
    const further = last * (isNearKnee ? FINE : COARSE)
    const k = Math.min(further, ...this.knees.filter((knee) => knee > last * (1 + 1e-9)))
    this.points.push({ k, moment: momentNmm(this.section, this.metal, k) })
  }
}

/** Between a knot and the next, M = M0 + a·t + b·t² + c·t³. */
interface Piece {
  readonly from: Knot
  readonly h: number
  readonly a: number
  readonly b: number
  readonly c: number
}

function pieceBetween(from: Knot, to: Pick<Knot, 'k' | 'moment' | 'slope'>): Piece {
  const h = to.k - from.k
  const secant = (to.moment - from.moment) / h
  return {
    from,
    h,
    a: from.slope,
    b: (3 * secant - 2 * from.slope - to.slope) / h,
    c: (from.slope + to.slope - 2 * secant) / (h * h),
  }
}

/** Four-point Gauss rule, exact for the square of a cubic. */
const NODES = [0.8611363115940526, 0.3399810435848563]
const WEIGHTS = [0.3478548451374538, 0.6521451548625461]

/** ∫M and ∫M² over the first t of a piece. */
function integrals({ from, a, b, c }: Piece, t: number): { ofMoment: number; ofSquare: number } {
  const squareAt = (share: number) => {
    const x = (t / 2) * (1 + share)
    return (from.moment + x * (a + x * (b + x * c))) ** 2
  }
  let ofSquare = 0
  for (let n = 0; n < NODES.length; n++) ofSquare += WEIGHTS[n]! * (squareAt(-NODES[n]!) + squareAt(NODES[n]!))
  return {
    ofMoment: t * (from.moment + t * (a / 2 + t * (b / 3 + (t * c) / 4))),
    ofSquare: (ofSquare * t) / 2,
  }
}
