import type { CutPiece, Estimate } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'

/** The mark to chalk on each piece: its rail and its number along that rail, such as `L3`. */
export type PieceMarks = ReadonlyMap<CutPiece, string>

/** Marks of all pieces; with several tracks the track's number comes first: `2-L3`. */
export function pieceMarks({ cutting, tracks }: Pick<Estimate, 'cutting' | 'tracks'>): PieceMarks {
  const marks = new Map<CutPiece, string>()
  const pieces = cutting.sticks.flatMap((stick) => stick.pieces).sort((a, b) => a.fromMm - b.fromMm)
  for (const [number, { name }] of tracks.entries())
    for (const side of ['left', 'right'] as const) {
      const prefix = `${tracks.length > 1 ? `${number + 1}-` : ''}${side === 'left' ? 'L' : 'R'}`
      const along = pieces.filter(({ track, rail }) => track === name && rail === side)
      for (const [index, piece] of along.entries()) marks.set(piece, `${prefix}${index + 1}`)
    }
  return marks
}

/** Marks in a row; a line may break between two but not within one. */
export function markRow(marks: readonly (string | undefined)[]): Html[] {
  return marks.map((mark, index) => html`${index > 0 && ', '}<b class="one">${mark}</b>`)
}
