import type { CoveredStretchAnswer, Estimate } from '../../estimate/answer.ts'
import { type ColumnOf, count, length, number, text } from '../table.ts'

interface Row {
  readonly stretch: CoveredStretchAnswer
  readonly turn: string | null
  /** Counted from 1 along its track, as the marks on the printed sheet. */
  readonly pieceNumber: number
  readonly piece: CoveredStretchAnswer['pieces'][number]
  readonly name: string
}

export const READY_MADE_COLUMNS: readonly ColumnOf<Row>[] = [
  text('track', 'Track', ({ stretch }) => stretch.track),
  count('element', 'Element', ({ stretch }) => stretch.element),
  length('radiusMm', 'Radius', ({ stretch }) => stretch.radiusMm),
  text('turn', 'Turn', ({ turn }) => turn),
  length('fromMm', 'From', ({ piece }) => piece.fromMm),
  length('toMm', 'To', ({ piece }) => piece.toMm),
  count('piece', 'Piece', ({ pieceNumber }) => pieceNumber),
  text('name', 'What it is', ({ name }) => name),
  length('lengthMm', 'Length', ({ piece }) => piece.lengthMm),
  number('angleDeg', 'Angle (°)', ({ piece }) => piece.angleDeg),
  text('whole', 'Whole or cut', ({ piece }) => (piece.whole ? 'whole' : 'cut')),
]

/** Every ready-made piece, in the order in which they are laid along each track. */
export function readyMadeRows({ readyMade, tracks }: Estimate): Row[] {
  if (!readyMade) return []
  const names = new Map(readyMade.panels.map(({ panel, name }) => [panel, name] as const))
  return tracks.flatMap((track) =>
    readyMade.stretches
      .filter((stretch) => stretch.track === track.name)
      .flatMap((stretch) => stretch.pieces.map((piece) => ({ stretch, piece })))
      .map(({ stretch, piece }, index) => ({
        ...{ stretch, piece },
        turn: track.elements[stretch.element]!.turn,
        pieceNumber: index + 1,
        name: names.get(piece.panel)!,
      })),
  )
}
