import type { BendMark, CutPiece } from '../../../estimate/answer.ts'
import type { BenderInput } from '../../../plan/rows/bender.ts'

/** A piece as it is sawn: longer at each end by what is cut off after bending. */
export interface SawnPiece {
  readonly sawMm: number
  readonly trimStartMm: number
  readonly trimEndMm: number
  /** Its bends, with the places to mark before bending: from the sawn end that is nearer the start of the track. */
  readonly bends: readonly MarkedBend[]
}

export interface MarkedBend extends BendMark {
  readonly markFromMm: number
  readonly markToMm: number
}

/** Fields of a piece and of its bends that an estimate may not have yet. */
interface SawnFields {
  readonly sawLengthMm: number
  readonly trimStartMm: number
  readonly trimEndMm: number
}

/** How a piece is sawn and marked, as the answer says; where it does not, its trim lies as the bender needs it. */
export function sawnPiece(piece: CutPiece & Partial<SawnFields>, bender: BenderInput = {}): SawnPiece {
  const { lengthMm, trimMm } = piece
  const trimStartMm = piece.trimStartMm ?? trimBeforeMm(trimMm, bender)
  const trimEndMm = piece.trimEndMm ?? trimMm - trimStartMm
  return {
    sawMm: piece.sawLengthMm ?? trimStartMm + lengthMm + trimEndMm,
    trimStartMm,
    trimEndMm,
    bends: piece.bends.map((bend: BendMark & Partial<MarkedBend>) => ({
      ...bend,
      markFromMm: bend.markFromMm ?? trimStartMm + bend.fromMm,
      markToMm: bend.markToMm ?? trimStartMm + bend.toMm,
    })),
  }
}

/** Half of what rollers leave straight, and the creep of the inner rail where it is at the beginning. */
function trimBeforeMm(trimMm: number, { span, ends, fixedEnd }: BenderInput): number {
  const endsMm = span !== undefined && ends === 'trim' ? Math.min(span, trimMm) : 0
  return endsMm / 2 + (fixedEnd === 'end' ? trimMm - endsMm : 0)
}
