import { poseAlong } from '../clothoid.ts'
import type { Pose } from '../types.ts'
import type { Leg, LegPiece } from './types.ts'

const POINTS: Pose = { xMm: 0, yMm: 0, headingRad: 0 }

/** Puts a leg together from the points on, curving to the left. */
export class LegBuilder {
  private readonly pieces: LegPiece[] = []
  private at = POINTS

  get end(): Pose {
    return this.at
  }

  /** Straight to a place that lies in another direction than the track ahead of it: a straight switch rail. */
  bentTo(end: Pose): this {
    const { xMm, yMm, headingRad } = this.at
    const [dx, dy] = [end.xMm - xMm, end.yMm - yMm]
    const start = { xMm, yMm, headingRad: Math.atan2(dy, dx) }
    return this.add({
      lengthMm: Math.hypot(dx, dy),
      startCurvature: 0,
      endCurvature: 0,
      turnedRad: end.headingRad - headingRad,
      start,
      end,
    })
  }

  straight(lengthMm: number): this {
    return this.along(0, lengthMm, 0)
  }

  left(radiusMm: number, angleRad: number): this {
    return this.along(1 / radiusMm, radiusMm * angleRad, angleRad)
  }

  private along(curvature: number, lengthMm: number, turnedRad: number): this {
    if (!(lengthMm > 0)) return this
    const end = poseAlong(this.at, curvature, curvature, lengthMm, lengthMm)
    const headingRad = this.at.headingRad + turnedRad
    return this.add({
      lengthMm,
      startCurvature: curvature,
      endCurvature: curvature,
      turnedRad,
      start: this.at,
      end: { ...end, headingRad },
    })
  }

  private add(piece: LegPiece): this {
    this.pieces.push(piece)
    this.at = piece.end
    return this
  }

  leg(): Leg {
    return { pieces: this.pieces, lengthMm: this.pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0), end: this.at }
  }
}

/** The same leg on the other side of the track. */
export function mirrored({ pieces, lengthMm, end }: Leg): Leg {
  return { pieces: pieces.map((piece) => ({ ...turnedOver(piece) })), lengthMm, end: poseMirrored(end) }
}

function turnedOver(piece: LegPiece): LegPiece {
  return {
    lengthMm: piece.lengthMm,
    startCurvature: opposite(piece.startCurvature),
    endCurvature: opposite(piece.endCurvature),
    turnedRad: opposite(piece.turnedRad),
    start: poseMirrored(piece.start),
    end: poseMirrored(piece.end),
  }
}

function poseMirrored({ xMm, yMm, headingRad }: Pose): Pose {
  return { xMm, yMm: opposite(yMm), headingRad: opposite(headingRad) }
}

/** Without −0, which would be written differently. */
function opposite(value: number): number {
  return value === 0 ? 0 : -value
}

/** The same leg run through from its far end to the points. The poses stay on the turnout's own sheet. */
export function reversed({ pieces, lengthMm }: Leg): Leg {
  const back = pieces.toReversed().map((piece) => ({
    lengthMm: piece.lengthMm,
    startCurvature: opposite(piece.endCurvature),
    endCurvature: opposite(piece.startCurvature),
    turnedRad: opposite(piece.turnedRad),
    start: poseReversed({ ...piece.end, headingRad: piece.start.headingRad + curvedRad(piece) }),
    // Without the bend at its start, where it has one.
    end: poseReversed({ ...piece.start, headingRad: piece.end.headingRad - piece.turnedRad }),
  }))
  return { pieces: back, lengthMm, end: { ...POINTS, headingRad: Math.PI } }
}

/** How far a piece turns by its curve alone. */
function curvedRad({ startCurvature, endCurvature, lengthMm }: LegPiece): number {
  return ((startCurvature + endCurvature) / 2) * lengthMm
}

export function poseReversed({ xMm, yMm, headingRad }: Pose): Pose {
  return { xMm, yMm, headingRad: headingRad + Math.PI }
}
