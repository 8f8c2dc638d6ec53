import type { BendMark, CutPiece, CutStick, Estimate } from '../../estimate/answer.ts'
import { BEND_MARK, CUT_PIECE, CUT_STICK } from '../../laying/cutting.ts'
import { RAIL_OF_TURNOUT } from '../../track/turnout/rail-of-turnout.ts'
import { columnsOf } from '../columns.ts'
import { type ColumnOf, count, text } from '../table.ts'

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

const ofPiece = columnsOf(CUT_PIECE, ({ piece }: PieceRow) => piece)
const ofFirstBend = columnsOf(BEND_MARK, ({ piece }: PieceRow) => piece.bends[0])
const ofStick = columnsOf(CUT_STICK, ({ stick }: PieceRow) => stick)
const ofMark = columnsOf(BEND_MARK, ({ mark }: MarkRow) => mark)

const WHICH_PIECE: readonly ColumnOf<PieceRow>[] = [
  count('stick', 'Stick', ({ stickNumber }) => stickNumber),
  count('piece', 'Piece', ({ pieceNumber }) => pieceNumber),
  ...ofPiece('track', 'rail'),
]

/** Of rails of turnouts that are built by hand. */
const OF_TURNOUT: readonly ColumnOf<PieceRow>[] = columnsOf(RAIL_OF_TURNOUT, ({ piece }: PieceRow) => piece.turnout)(
  { of: 'name', key: 'turnout' },
  { of: 'rail', key: 'turnoutRail' },
)

export const CUT_COLUMNS: readonly ColumnOf<PieceRow>[] = [
  ...WHICH_PIECE,
  ...ofPiece('fromMm', 'lengthMm', 'trimMm'),
  count('bends', 'Bends on it', ({ piece }) => piece.bends.length),
  ...ofFirstBend(
    { of: 'turn', key: 'turn', title: 'Turn of its first bend' },
    { of: 'radiusMm', key: 'radiusMm', title: 'Radius of its first bend' },
    { of: 'fromMm', key: 'bendFromMm', title: 'Its first bend starts at' },
    { of: 'toMm', key: 'bendToMm', title: 'Its first bend ends at' },
  ),
  ...ofStick({ of: 'lengthMm', key: 'stickLengthMm' }),
  text('stickFrom', 'Stick from', ({ stick }) => (stick.fromStock ? 'on hand' : 'to buy')),
  ...ofStick({ of: 'kerfMm', key: 'stickKerfMm' }, { of: 'offcutMm', key: 'stickOffcutMm' }),
  ...ofPiece('sawLengthMm', 'trimStartMm', 'trimEndMm'),
  ...ofFirstBend(
    { of: 'markFromMm', key: 'markFromMm', title: 'Mark for its first bend, from the sawn end' },
    { of: 'markToMm', key: 'markToMm', title: 'Mark for the end of its first bend, from the sawn end' },
  ),
  ...OF_TURNOUT,
]

export const MARK_COLUMNS: readonly ColumnOf<MarkRow>[] = [
  ...WHICH_PIECE,
  ...ofMark(
    'turn',
    { of: 'fromMm', key: 'bendFromMm' },
    { of: 'toMm', key: 'bendToMm' },
    'radiusMm',
    'startRadiusMm',
    'endRadiusMm',
    'markFromMm',
    'markToMm',
  ),
  ...OF_TURNOUT,
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
