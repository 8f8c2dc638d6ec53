import type { PegInput } from '../../plan/rows/pegs.ts'
import { pegOutOf } from '../../survey/peg-out.ts'
import { elevationOn } from '../../track/grade.ts'
import { elementAt, poseOn } from '../../track/place.ts'
import type { Point } from '../../track/sample.ts'
import { legOf } from '../../track/turnout/special-track.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import type { PeggedPlace, PlacedPegAnswer } from './answer.ts'
import { placedPegs, TAPE_ERROR_MM } from './placed-pegs.ts'

/** What of an estimate there is only where the plan has pegs. */
export interface PegAnswers {
  readonly pegs?: PlacedPegAnswer[]
  readonly pegOuts?: PeggedPlace[]
}

export function pegAnswers(drawn: readonly LaidTrack[], given: readonly PegInput[]): PegAnswers {
  const pegs = placedPegs(given)
  if (pegs.length === 0) return {}
  return {
    pegs: pegs.map(({ name, xMm, yMm, errorMm }) => ({ name, xMm, yMm, errorMm })),
    pegOuts: drawn
      .filter(({ state }) => state !== 'lifted')
      .flatMap((track) =>
        placesOn(track).map(({ what, element, atMm, at }) => {
          const elevationMm = elevationOn(track.profile, atMm)
          const pegOut = pegOutOf(at, elevationMm, pegs, TAPE_ERROR_MM)
          return { track: track.name, what, element, atMm, xMm: at.xMm, yMm: at.yMm, elevationMm, pegOut }
        }),
      ),
  }
}

interface Place extends Pick<PeggedPlace, 'what' | 'element' | 'atMm'> {
  readonly at: Point
}

/** Where elements begin, the middles of curves, the other legs of turnouts, the end, and stations asked for. */
function placesOn({ placed, turnouts, closed, lengthMm, end, levelsAtMm }: LaidTrack): Place[] {
  const ofElements = placed.flatMap((element): Place[] => {
    const { index, kind, fromMm, lengthMm: ownMm } = element
    const places: Place[] = [{ what: 'start', element: index, atMm: fromMm, at: element.start }]
    const middleMm = fromMm + ownMm / 2
    if (kind === 'arc') places.push({ what: 'middle', element: index, atMm: middleMm, at: poseOn(element, middleMm) })
    const turnout = turnouts.find((each) => each.element === index)
    if (turnout) {
      const atMm = turnout.enters === 'points' ? turnout.fromMm : turnout.toMm
      const other = legOf(turnout) === 'through' ? 'diverging' : 'through'
      places.push({ what: 'leg', element: index, atMm, at: turnout.ends[other] })
    }
    return places
  })
  const stations = [...new Set(levelsAtMm)].map((atMm): Place => {
    return { what: 'station', element: null, atMm, at: poseOn(elementAt(placed, atMm), atMm) }
  })
  return [
    ...ofElements,
    ...(closed ? [] : [{ what: 'end' as const, element: null, atMm: lengthMm, at: end }]),
    ...stations,
  ]
}
