import type { CutPiece, Estimate } from '../../../estimate/answer.ts'
import { type Html, html } from '../../html.ts'

/** The mark to chalk on each piece: its rail and its number along that rail, such as `L3`. */
export type PieceMarks = ReadonlyMap<CutPiece, string>

/** Marks of all pieces; with several tracks the track's number comes first: `2-L3`. Rails of turnouts have their own. */
export function pieceMarks({ cutting, tracks }: Pick<Estimate, 'cutting' | 'tracks'>): PieceMarks {
  const marks = new Map<CutPiece, string>()
  const pieces = cutting.sticks.flatMap((stick) => stick.pieces).sort((a, b) => a.fromMm - b.fromMm)
  for (const [number, { name }] of tracks.entries())
    for (const side of ['left', 'right'] as const) {
      const prefix = `${tracks.length > 1 ? `${number + 1}-` : ''}${side === 'left' ? 'L' : 'R'}`
      const along = pieces.filter((piece) => piece.track === name && piece.rail === side && !piece.turnout)
      for (const [index, piece] of along.entries()) marks.set(piece, `${prefix}${index + 1}`)
    }
  const ofTurnouts = pieces.flatMap((piece) => (piece.turnout ? [{ ...piece.turnout, piece }] : []))
  for (const { name, rail, piece } of ofTurnouts.toSorted((a, b) => a.rail - b.rail)) {
    const parts = ofTurnouts.filter((other) => other.name === name && other.rail === rail)
    const part = parts.length > 1 ? `.${parts.findIndex((other) => other.piece === piece) + 1}` : ''
    marks.set(piece, `${turnoutRailMark(name, rail)}${part}`)
  }
  return marks
}

/** The mark of a rail of a turnout that is built by hand: the turnout and the number of the rail, such as `W1-3`. */
export function turnoutRailMark(turnout: string, rail: number): string {
  return `${turnout}-${rail + 1}`
}

/** Marks in a row; a line may break between two but not within one. */
export function markRow(marks: readonly (string | undefined)[]): Html[] {
  return marks.map((mark, index) => html`${index > 0 && ', '}<b class="one">${mark}</b>`)
}
