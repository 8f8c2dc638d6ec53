import type { BendMark, CutPiece, CutStick, Estimate } from '../../estimate/answer.ts'
import { type ColumnOf, count, length, text } from '../table.ts'

interface PieceRow {
  /** Counted from 1, as on the printed sheet. */
  readonly stickNumber: number
  readonly stick: CutStick
  readonly pieceNumber: number
  readonly piece: CutPiece
}

interface MarkRow extends PieceRow {
  readonly mark: BendMark
}

const PIECE: readonly ColumnOf<PieceRow>[] = [
  count('stick', 'Stick', ({ stickNumber }) => stickNumber),
  count('piece', 'Piece', ({ pieceNumber }) => pieceNumber),
  text('track', 'Track', ({ piece }) => piece.track),
  text('rail', 'Rail', ({ piece }) => piece.rail),
]

export const CUT_COLUMNS: readonly ColumnOf<PieceRow>[] = [
  ...PIECE,
  length('fromMm', 'Begins along the rail at', ({ piece }) => piece.fromMm),
  length('lengthMm', 'Length as laid', ({ piece }) => piece.lengthMm),
  length('trimMm', 'Trim, cut off when bent', ({ piece }) => piece.trimMm),
  count('bends', 'Bends on it', ({ piece }) => piece.bends.length),
  text('turn', 'Turn of its first bend', ({ piece }) => piece.bends[0]?.turn ?? null),
  length('radiusMm', 'Radius of its first bend', ({ piece }) => piece.bends[0]?.radiusMm ?? null),
  length('bendFromMm', 'Its first bend begins at', ({ piece }) => piece.bends[0]?.fromMm ?? null),
  length('bendToMm', 'Its first bend ends at', ({ piece }) => piece.bends[0]?.toMm ?? null),
  length('stickLengthMm', 'Length of the stick', ({ stick }) => stick.lengthMm),
  text('stickFrom', 'Stick is', ({ stick }) => (stick.fromStock ? 'on hand' : 'to buy')),
  length('stickKerfMm', 'Saw cuts of the stick', ({ stick }) => stick.kerfMm),
  length('stickOffcutMm', 'Left over of the stick', ({ stick }) => stick.offcutMm),
]

export const MARK_COLUMNS: readonly ColumnOf<MarkRow>[] = [
  ...PIECE,
  text('turn', 'Turn', ({ mark }) => mark.turn),
  length('bendFromMm', 'Bend begins at', ({ mark }) => mark.fromMm),
  length('bendToMm', 'Bend ends at', ({ mark }) => mark.toMm),
  length('radiusMm', 'Radius', ({ mark }) => mark.radiusMm),
  length('startRadiusMm', 'Radius at its start', ({ mark }) => mark.startRadiusMm ?? null),
  length('endRadiusMm', 'Radius at its end', ({ mark }) => mark.endRadiusMm ?? null),
]

/** Every piece, stick by stick. */
export function pieceRows({ cutting }: Estimate): PieceRow[] {
  return cutting.sticks.flatMap((stick, s) =>
    stick.pieces.map((piece, p) => ({ stickNumber: s + 1, stick, pieceNumber: p + 1, piece })),
  )
}

/** Every bend on every piece. */
export function markRows(estimate: Estimate): MarkRow[] {
  return pieceRows(estimate).flatMap((row) => row.piece.bends.map((mark) => ({ ...row, mark })))
}
