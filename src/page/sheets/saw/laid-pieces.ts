import type { CoveredStretchAnswer, Estimate, UsedPanelAnswer } from '../../../estimate/answer.ts'

/** A ready-made piece in its place. */
export type LaidPiece = CoveredStretchAnswer['pieces'][number] & {
  /** The mark to chalk on it: its number along its track, such as `P3`. */
  readonly mark: string
  /** Number of its track, from 0. */
  readonly track: number
  readonly element: number
}

/** A ready-made piece as bought or in stock, and the parts of it that are laid. */
export interface UsedPiece extends Pick<UsedPanelAnswer, 'panel' | 'name' | 'fromStock' | 'offcutMm'> {
  readonly laid: readonly LaidPiece[]
}

/** Ready-made pieces in the order of laying; with several tracks the track's number comes first: `2-P3`. */
export function laidPieces({ readyMade, tracks }: Pick<Estimate, 'readyMade' | 'tracks'>): LaidPiece[] {
  return tracks.flatMap(({ name }, track) => {
    const stretches = readyMade?.stretches.filter((stretch) => stretch.track === name) ?? []
    const pieces = stretches.flatMap(({ element, pieces }) => pieces.map((piece) => ({ ...piece, element })))
    return pieces.map((piece, index) => ({
      ...piece,
      track,
      mark: `${tracks.length > 1 ? `${track + 1}-` : ''}P${index + 1}`,
    }))
  })
}

/** Every piece that is used, with the parts cut from it. Identical pieces are interchangeable. */
export function usedPieces(estimate: Pick<Estimate, 'readyMade' | 'tracks'>): UsedPiece[] {
  const left = new Map<string, LaidPiece[]>()
  const comparisonKey = (track: string, element: number, panel: number, lengthMm: number) =>
    JSON.stringify([track, element, panel, lengthMm.toFixed(6)])
  for (const piece of laidPieces(estimate)) {
    const key = comparisonKey(estimate.tracks[piece.track]!.name, piece.element, piece.panel, piece.lengthMm)
    left.set(key, [...(left.get(key) ?? []), piece])
  }
  return (estimate.readyMade?.panels ?? []).map(({ panel, name, fromStock, offcutMm, pieces }) => ({
    ...{ panel, name, fromStock, offcutMm },
    laid: pieces.map(
      ({ track, element, lengthMm }) => left.get(comparisonKey(track, element, panel, lengthMm))!.shift()!,
    ),
  }))
}
