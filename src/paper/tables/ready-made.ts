import type { CoveredStretchAnswer, ElementAnswer, Estimate, UsedPanelAnswer } from '../../estimate/answer.ts'
import { COVERED_STRETCH, LAID_PANEL, USED_PANEL } from '../../estimate/ready-made/answer.ts'
import { ELEMENT } from '../../estimate/track/answer.ts'
import { columnsOf } from '../columns.ts'
import { type ColumnOf, count, text } from '../table.ts'

interface Row {
  readonly stretch: CoveredStretchAnswer
  readonly element: ElementAnswer
  /** Counted from 1 along its track, like the marks on the printed sheet. */
  readonly pieceNumber: number
  readonly piece: CoveredStretchAnswer['pieces'][number]
  readonly panel: UsedPanelAnswer
}

const ofStretch = columnsOf(COVERED_STRETCH, ({ stretch }: Row) => stretch)
const ofElement = columnsOf(ELEMENT, ({ element }: Row) => element)
const ofPiece = columnsOf(LAID_PANEL, ({ piece }: Row) => piece)
const ofPanel = columnsOf(USED_PANEL, ({ panel }: Row) => panel)

export const READY_MADE_COLUMNS: readonly ColumnOf<Row>[] = [
  ...ofStretch('track', 'element', 'radiusMm'),
  ...ofElement('turn'),
  ...ofPiece('fromMm', 'toMm'),
  count('piece', 'Piece', ({ pieceNumber }) => pieceNumber),
  ...ofPanel('name'),
  ...ofPiece('lengthMm', 'angleDeg'),
  text('whole', 'Whole or cut', ({ piece }) => (piece.whole ? 'whole' : 'cut')),
]

/** Every ready-made piece, in the order in which they are laid along each track. */
export function readyMadeRows({ readyMade, tracks }: Estimate): Row[] {
  if (!readyMade) return []
  const used = new Map(readyMade.panels.map((panel) => [panel.panel, panel] as const))
  return tracks.flatMap((track) =>
    readyMade.stretches
      .filter((stretch) => stretch.track === track.name)
      .flatMap((stretch) => stretch.pieces.map((piece) => ({ stretch, piece })))
      .map(({ stretch, piece }, index) => ({
        ...{ stretch, piece },
        element: track.elements[stretch.element]!,
        pieceNumber: index + 1,
        panel: used.get(piece.panel)!,
      })),
  )
}
