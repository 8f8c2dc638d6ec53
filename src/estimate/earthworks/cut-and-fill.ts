import { rootBetween } from '../../bending/numeric/root.ts'
import { elevationOn, gradeOn, type Profile } from '../../track/grade.ts'

export interface GroundStation {
  readonly atMm: number
  readonly elevationMm: number
}

/** The shape of cuttings and embankments across the track, which is level. */
export interface Formation {
  readonly widthMm: number
  /** Run over rise. */
  readonly cutSlope: number
  readonly fillSlope: number
}

/**
 * A stretch on which the depth of the formation below the ground is one parabola (or line): h(t) = a + b·t + c·t², mm, t
 * from its start. Positive: a cutting; negative: an embankment.
 */
export interface DepthPiece {
  readonly fromMm: number
  readonly lengthMm: number
  readonly a: number
  readonly b: number
  readonly c: number
}

/** A part of a piece that is all cutting or all embankment. */
export interface Part {
  readonly piece: DepthPiece
  /** From the start of the piece. */
  readonly fromMm: number
  readonly toMm: number
  readonly kind: 'cut' | 'fill'
}

/**
 * The ground above the formation along a track: ground g is straight between its points, the profile p a line or a parabola
 * on each of its stretches, so h = g − (p − d) is a parabola between neighbouring points of either; d is how far the
 * formation lies below the profile, mm. From the first point of the ground to the last, but no further than the track.
 */
export function depthPieces(
  profile: Profile,
  ground: readonly GroundStation[],
  depthMm: number,
  lengthMm: number,
): DepthPiece[] {
  const pieces: DepthPiece[] = []
  let stretch = 0
  for (const [index, to] of ground.entries()) {
    const from = ground[index - 1]
    if (!from || !(to.atMm > from.atMm)) continue
    const rise = (to.elevationMm - from.elevationMm) / (to.atMm - from.atMm)
    const endMm = Math.min(to.atMm, lengthMm)
    let atMm = from.atMm
    while (atMm < endMm) {
      while (stretch < profile.length - 1 && profile[stretch]!.toMm <= atMm) stretch++
      const { fromMm, toMm, grade, endGrade = grade } = profile[stretch]!
      const untilMm = Math.min(endMm, toMm)
      const curvature = endGrade === grade ? 0 : (endGrade - grade) / (2 * (toMm - fromMm))
      const groundMm = from.elevationMm + rise * (atMm - from.atMm)
      pieces.push({
        fromMm: atMm,
        lengthMm: untilMm - atMm,
        a: groundMm - elevationOn(profile, atMm) + depthMm,
        b: rise - gradeOn(profile, atMm),
        c: -curvature + 0,
      })
      atMm = untilMm
    }
  }
  return pieces
}

/** h at t, with the profile raised by `shiftMm`. */
export function depthAt({ a, b, c }: DepthPiece, t: number, shiftMm = 0): number {
  return a - shiftMm + (b + c * t) * t
}

/** Cuttings and embankments within one piece, divided where the formation meets the ground. */
export function partsOf(piece: DepthPiece, shiftMm = 0): Part[] {
  const { lengthMm, a, b, c } = piece
  const ends = [0, ...rootsOf(a - shiftMm, b, c).filter((t) => t > 0 && t < lengthMm), lengthMm]
  return ends.slice(1).flatMap((toMm, index): Part[] => {
    const fromMm = ends[index]!
    const middle = depthAt(piece, (fromMm + toMm) / 2, shiftMm)
    if (middle === 0 || !(toMm > fromMm)) return []
    return [{ piece, fromMm, toMm, kind: middle > 0 ? 'cut' : 'fill' }]
  })
}

/** Where a + b·t + c·t² is zero, in order, without the loss of digits that the usual formula has. */
function rootsOf(a: number, b: number, c: number): number[] {
  if (c === 0) return b === 0 ? [] : [-a / b]
  const inside = b * b - 4 * a * c
  if (!(inside > 0)) return []
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(inside)) / 2
  return [q / c, q === 0 ? 0 : a / q].sort((one, other) => one - other)
}

/** Nodes and weights of the three-point Gauss–Legendre rule on [−1, 1]. */
const NODE = Math.sqrt(3 / 5)
const RULE = [
  [-NODE, 5 / 9],
  [0, 8 / 9],
  [NODE, 5 / 9],
] as const

/**
 * The volume of a part, mm³: V = ∫ A dt with the level section A = w·|h| + m·h², w the width of the formation, m the slope of
 * the sides (run over rise). h is a parabola, so A is of the fourth degree, and three Gauss–Legendre points, which are exact
 * up to the fifth, give V exactly. Exact on curves too, as the section is symmetrical (Pappus). The slopes at the open ends
 * are ignored. Source: the level section and the prismoidal formula of surveying textbooks, which this equals where h is
 * straight; tests/published/earthworks.test.ts and tests/estimate/earthworks/ check it.
 */
export function volumeMm3({ piece, fromMm, toMm, kind }: Part, formation: Formation, shiftMm = 0): number {
  const slope = kind === 'cut' ? formation.cutSlope : formation.fillSlope
  const [middle, half] = [(fromMm + toMm) / 2, (toMm - fromMm) / 2]
  let sum = 0
  for (const [node, weight] of RULE) {
    const h = Math.abs(depthAt(piece, middle + half * node, shiftMm))
    sum += weight * (formation.widthMm + slope * h) * h
  }
  return sum * half
}

/** Cut less fill of the whole track, mm³. */
export function surplusMm3(pieces: readonly DepthPiece[], formation: Formation, shiftMm = 0): number {
  let sum = 0
  for (const piece of pieces)
    for (const part of partsOf(piece, shiftMm))
      sum += (part.kind === 'cut' ? 1 : -1) * volumeMm3(part, formation, shiftMm)
  return sum
}

/**
 * By how much the whole profile has to be raised for the cuttings to fill the embankments, mm; negative: lowered. Cut less
 * fill falls steadily with the shift, between that which puts all of it in cutting and that which puts all on embankment.
 * To 1e-9 mm; checked in tests/estimate/earthworks/.
 */
export function balancingShiftMm(pieces: readonly DepthPiece[], formation: Formation): number {
  const depths = pieces.flatMap((piece) => extremesOf({ piece, fromMm: 0, toMm: piece.lengthMm }).map(({ h }) => h))
  const [least, most] = [Math.min(...depths), Math.max(...depths)]
  if (!(most > least)) return most
  return rootBetween((shiftMm) => surplusMm3(pieces, formation, shiftMm), least, most, 1e-9)
}

/** h at both ends of a part of a piece, and where it turns between them. */
export function extremesOf({ piece, fromMm, toMm }: Omit<Part, 'kind'>): { t: number; h: number }[] {
  const turns = piece.c === 0 ? Number.NaN : -piece.b / (2 * piece.c)
  return [fromMm, ...(turns > fromMm && turns < toMm ? [turns] : []), toMm].map((t) => ({ t, h: depthAt(piece, t) }))
}
