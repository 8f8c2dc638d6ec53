import { firstIndexWhere } from '../measure/search.ts'
import { poseAlong, turnedAlong } from '../track/clothoid.ts'
import { RunningSum } from '../track/running-sum.ts'
import { poseReversed } from '../track/turnout/leg.ts'
import type { PlacedElement, Pose } from '../track/types.ts'

/** A straight, an arc or an easement in its place; an element of a track is one, and a part of a turnout. */
export type LinePiece = Pick<PlacedElement, 'lengthMm' | 'startCurvature' | 'endCurvature' | 'start' | 'end'>

/** The same piece as it is run over from its end. Where a switch rail bends its end has not the direction of the piece. */
export function pieceReversed({ lengthMm, startCurvature, endCurvature, start, end }: LinePiece): LinePiece {
  const headingRad = start.headingRad + turnedAlong(startCurvature, endCurvature, lengthMm, lengthMm)
  const turned = { startCurvature: 0 - endCurvature, endCurvature: 0 - startCurvature }
  return { lengthMm, ...turned, start: poseReversed({ ...end, headingRad }), end: poseReversed(start) }
}

/** Headings at a joint that differ by less are the same. */
const SAME_HEADING_RAD = 1e-6
const SAME_CURVATURE = 1e-12

/** What lies between two distances along pieces end to end. */
export function cutPieces<P extends LinePiece>(pieces: readonly P[], fromMm: number, toMm: number): P[] {
  const cut: P[] = []
  let atMm = 0
  for (const piece of pieces) {
    const [from, to] = [Math.max(0, fromMm - atMm), Math.min(piece.lengthMm, toMm - atMm)]
    atMm += piece.lengthMm
    if (from >= to) continue
    cut.push(from === 0 && to === piece.lengthMm ? piece : partOfPiece(piece, from, to))
  }
  return cut
}

function partOfPiece<P extends LinePiece>(piece: P, fromMm: number, toMm: number): P {
  const { lengthMm, startCurvature: k0, endCurvature: k1, start, end } = piece
  const curvatureAt = (mm: number) => (k0 === k1 ? k0 : k0 + ((k1 - k0) * mm) / lengthMm)
  const poseAt = (mm: number) => poseAlong(start, k0, k1, lengthMm, mm)
  return {
    ...piece,
    lengthMm: toMm - fromMm,
    startCurvature: curvatureAt(fromMm),
    endCurvature: curvatureAt(toMm),
    start: fromMm === 0 ? start : poseAt(fromMm),
    end: toMm === lengthMm ? end : poseAt(toMm),
  }
}

/** Switch rails bend by some degrees; what turns more where two pieces meet does not belong together as it lies. */
const MOST_BEND_RAD = 0.2
const SAME_PLACE_MM = 1e-6

/**
 * Pieces moved so that each begins where the one before ends, with its bends: as they will lie when tracks that do not
 * quite meet have been brought together.
 */
export function chained<P extends LinePiece>(pieces: readonly P[]): P[] {
  let before: Pose | null = null
  let given: Pose | null = null
  return pieces.map((piece) => {
    const { start, end } = piece
    const jump: number = given ? turnBetween(given.headingRad, start.headingRad) : 0
    const turn: number = before ? before.headingRad + (Math.abs(jump) > MOST_BEND_RAD ? 0 : jump) - start.headingRad : 0
    const from: Pose = before ?? start
    given = end
    const isThere = Math.abs(from.xMm - start.xMm) < SAME_PLACE_MM && Math.abs(from.yMm - start.yMm) < SAME_PLACE_MM
    if (isThere && Math.abs(Math.sin(turn / 2)) < SAME_HEADING_RAD) {
      before = end
      return piece
    }
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)]
    const moved = ({ xMm, yMm, headingRad }: Pose): Pose => ({
      xMm: from.xMm + (xMm - start.xMm) * cos - (yMm - start.yMm) * sin,
      yMm: from.yMm + (xMm - start.xMm) * sin + (yMm - start.yMm) * cos,
      headingRad: headingRad + turn,
    })
    before = moved(end)
    return { ...piece, start: moved(start), end: before }
  })
}

function turnBetween(fromRad: number, toRad: number): number {
  return Math.atan2(Math.sin(toRad - fromRad), Math.cos(toRad - fromRad))
}

/** The same for pieces of the same lengths, curvatures and bends, wherever they lie, to a millionth of a millimetre. */
export function formOf(pieces: readonly LinePiece[]): string {
  let form = ''
  let before: Pose | null = null
  for (const { lengthMm, startCurvature, endCurvature, start, end } of pieces) {
    const bend: number = before ? Math.sin(start.headingRad - before.headingRad) : 0
    const curvatures = `${Math.round(startCurvature * 1e12)},${Math.round(endCurvature * 1e12)}`
    form += `${Math.round(lengthMm * 1e6)},${curvatures},${Math.round(bend * 1e9)};`
    before = end
  }
  return form
}

interface Direction {
  readonly cos: number
  readonly sin: number
}

/**
 * The centre line a car runs on: pieces end to end, perhaps of several tracks. An open line goes on straight beyond its
 * ends, a closed one comes round. Distances are along the line, from the start of its first piece.
 */
export class Line {
  readonly pieces: readonly LinePiece[]
  readonly lengthMm: number
  readonly closed: boolean
  private readonly fromMm: readonly number[]
  /** The piece asked for last: the next place is mostly on it too. */
  private last = 0
  /** Of straight pieces, where they have been asked for: a third of all places are looked up on them. */
  private readonly directions: (Direction | undefined)[] = []

  constructor(pieces: readonly LinePiece[], closed = false) {
    if (pieces.length === 0) throw new RangeError('a line without pieces has no places')
    const sum = new RunningSum()
    this.fromMm = pieces.map(({ lengthMm }) => {
      const fromMm = sum.value
      sum.add(lengthMm)
      return fromMm
    })
    this.pieces = pieces
    this.lengthMm = sum.value
    this.closed = closed
  }

  poseAt(atMm: number): Pose {
    const { lengthMm, closed } = this
    const mm = closed ? atMm - lengthMm * Math.floor(atMm / lengthMm) : atMm
    if (mm < 0) return ahead(this.pieces[0]!.start, mm)
    if (mm >= lengthMm) return ahead(this.pieces.at(-1)!.end, mm - lengthMm)
    const index = this.indexAt(mm)
    const { start, startCurvature, endCurvature, lengthMm: ofPiece } = this.pieces[index]!
    const onPiece = mm - this.fromMm[index]!
    if (startCurvature !== 0 || endCurvature !== 0)
      return poseAlong(start, startCurvature, endCurvature, ofPiece, onPiece)
    this.directions[index] ??= { cos: Math.cos(start.headingRad), sin: Math.sin(start.headingRad) }
    const { cos, sin } = this.directions[index]
    return { xMm: start.xMm + onPiece * cos, yMm: start.yMm + onPiece * sin, headingRad: start.headingRad }
  }

  /** The curvature, left positive, where it is the same all the way and nothing bends; otherwise null. */
  steadyCurvature(fromMm: number, toMm: number): number | null {
    if (this.closed && (fromMm < 0 || toMm > this.lengthMm)) return this.steadyAround(fromMm, toMm)
    let curvature: number | null = fromMm < 0 || toMm > this.lengthMm ? 0 : null
    let before: Pose | null = null
    for (let index = this.indexAt(Math.max(0, fromMm)); index < this.pieces.length; index++) {
      if (this.fromMm[index]! >= toMm) break
      const { startCurvature, endCurvature, start, end } = this.pieces[index]!
      curvature ??= startCurvature
      if (Math.abs(startCurvature - curvature) > SAME_CURVATURE) return null
      if (Math.abs(endCurvature - curvature) > SAME_CURVATURE) return null
      if (before && Math.abs(Math.sin((start.headingRad - before.headingRad) / 2)) > SAME_HEADING_RAD) return null
      before = end
    }
    return curvature ?? 0
  }

  private steadyAround(fromMm: number, toMm: number): number | null {
    const { pieces, lengthMm } = this
    const joint = pieces.at(-1)!.end.headingRad - pieces[0]!.start.headingRad
    if (Math.abs(Math.sin(joint / 2)) > SAME_HEADING_RAD) return null
    const inner = [Math.max(0, fromMm), Math.min(lengthMm, toMm)] as const
    const parts = [this.steadyCurvature(...inner)]
    if (fromMm < 0) parts.push(this.steadyCurvature(Math.max(0, lengthMm + fromMm), lengthMm))
    if (toMm > lengthMm) parts.push(this.steadyCurvature(0, Math.min(lengthMm, toMm - lengthMm)))
    const first = parts[0]!
    return parts.every((part) => part !== null && Math.abs(part - first) <= SAME_CURVATURE) ? first : null
  }

  private indexAt(mm: number): number {
    const { fromMm, last } = this
    if (fromMm[last]! <= mm && mm < (fromMm[last + 1] ?? this.lengthMm)) return last
    this.last = this.searched(mm)
    return this.last
  }

  private searched(mm: number): number {
    return Math.max(0, firstIndexWhere(this.fromMm.length, (index) => this.fromMm[index]! > mm) - 1)
  }
}

function ahead({ xMm, yMm, headingRad }: Pose, mm: number): Pose {
  return { xMm: xMm + mm * Math.cos(headingRad), yMm: yMm + mm * Math.sin(headingRad), headingRad }
}
