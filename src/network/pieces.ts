import { type PlacedElement, partsOf, type Shape } from '../track/types.ts'

/** An element of a stretch, or a part of a turnout, in the order of the stations. */
export interface Piece {
  /** Index of its element. */
  readonly element: number
  /** Where it begins; of a leg that no track runs along, the station of the points. */
  readonly fromMm: number
  readonly toMm: number
  readonly lengthMm: number
  readonly startCurvature: number
  readonly endCurvature: number
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
        easement: element.kind === 'easement',
        inTurnout: element.kind === 'turnout',
      }),
    ),
  )
}

export function piecesOfLeg(parts: readonly Shape[], element: number, pointsMm: number): Piece[] {
  return parts.map(({ lengthMm, startCurvature, endCurvature }) => ({
    element,
    fromMm: pointsMm,
    toMm: pointsMm,
    lengthMm,
    startCurvature,
    endCurvature,
    easement: false,
    inTurnout: true,
  }))
}
