import type { ElementAnswer, PoseAnswer, TrackAnswer } from '../../estimate/answer.ts'
import { toRadians } from '../../measure/angle.ts'
import { placeShapes } from '../../track/place.ts'
import { poseReversed } from '../../track/turnout/leg.ts'
import { legOf, type SpecialTrack, turnoutShape } from '../../track/turnout/special-track.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import type { TurnoutToDraw } from './drawn-plan.ts'

type Turnout = NonNullable<ElementAnswer['turnout']>

/** A turnout as its track runs through it. */
export function placedTurnout(element: ElementAnswer, turnout: Turnout, special: SpecialTrack): PlacedElement {
  const { index, fromMm, toMm, start } = element
  const shape = turnoutShape(special.turnouts.get(turnout.type)!, passed(turnout))
  const [placed] = placeShapes(poseOf(start), [{ kind: 'turnout', label: element.label, ...shape }])
  const parts = placed!.parts!.map((part) => ({
    ...part,
    ...{ index, fromMm: part.fromMm + fromMm, toMm: part.toMm + fromMm },
  }))
  return { ...placed!, index, fromMm, toMm, parts }
}

/** What is drawn of the turnouts of a track beside the legs it runs along. */
export function turnoutsToDraw({ elements }: TrackAnswer, special: SpecialTrack): TurnoutToDraw[] {
  return elements.flatMap(({ turnout }): TurnoutToDraw[] => {
    if (!turnout) return []
    const points = poseOf(turnout.points)
    const leaves = legOf(passed(turnout)) === 'through' ? 'diverging' : 'through'
    const shape = turnoutShape(special.turnouts.get(turnout.type)!, { enters: 'points', leaves })
    const otherLeg = placeShapes(poseReversed(points), [{ kind: 'turnout', label: null, ...shape }])
    return [{ name: turnout.name, otherLeg, points, frog: turnout.frog }]
  })
}

function passed({ enters, leaves }: Turnout) {
  return { enters, leaves: leaves === 'points' ? null : leaves }
}

/** A place of the answer. */
export function poseOf({ xMm, yMm, headingDeg }: PoseAnswer): Pose {
  return { xMm, yMm, headingRad: toRadians(headingDeg) }
}
