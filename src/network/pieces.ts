import type { LinePiece } from '../room/line.ts'
import { type PlacedElement, partsOf } from '../track/types.ts'

/** An element of a stretch, or a part of a turnout, in the order of the stations. */
export interface Piece extends LinePiece {
  /** Index of its element. */
  readonly element: number
  /** Where it begins; of a leg that no track runs along, the station of the points. */
  readonly fromMm: number
  readonly toMm: number
  readonly easement: boolean
  readonly inTurnout: boolean
}

export function piecesOf(elements: readonly PlacedElement[]): Piece[] {
  return elements.flatMap((element) =>
    partsOf(element).map(
      (part): Piece => ({
        element: element.index,
        fromMm: part.fromMm,
        toMm: part.toMm,
        lengthMm: part.lengthMm,
        startCurvature: part.startCurvature,
        endCurvature: part.endCurvature,
        start: part.start,
        end: part.end,
        easement: element.kind === 'easement',
        inTurnout: element.kind === 'turnout',
      }),
    ),
  )
}

/** @param placed the leg from the points on, where it lies */
export function piecesOfLeg(placed: PlacedElement, element: number, pointsMm: number): Piece[] {
  return partsOf(placed).map(({ lengthMm, startCurvature, endCurvature, start, end }) => ({
    element,
    fromMm: pointsMm,
    toMm: pointsMm,
    lengthMm,
    startCurvature,
    endCurvature,
    start,
    end,
    easement: false,
    inTurnout: true,
  }))
}
