import type { PlanToDraw, TrackToDraw } from '../../page/drawing/drawn-plan.ts'
import { type LengthsIn, lengthText } from '../../page/show-length.ts'
import type { CoupledCar } from '../../room/coupled-cars.ts'
import { Line } from '../../room/line.ts'
import { sweptHalfWidths } from '../../room/swept-width.ts'
import { beside } from '../../track/place.ts'
import { railOffsetMm } from '../../track/rails.ts'
import { type PlacedElement, type Pose, partsOf } from '../../track/types.ts'
import { LINE_ERROR_MM, radiusText, type Template, type TemplateLabel, type TemplateLine } from './template.ts'

/** From so many lengths of the car before the curve to so many after its beginning. */
const BEFORE = 0.5
const AFTER = 1.5

/** No two places are further apart, mm. */
const MOST_STEP_MM = 5

interface EnvelopeToPrint {
  readonly name: string
  readonly car: CoupledCar
  readonly lengthsIn: LengthsIn
}

/** A station of the track with how far the car reaches there. */
interface Swept {
  readonly pose: Pose
  readonly leftMm: number
  readonly rightMm: number
}

/**
 * The room that a car takes on a curve: how far it reaches to either side, from where it comes onto the curve until it
 * stands on it altogether. What lies before is that of the track; where it begins with the curve, straight track.
 * Null: the car is too long for the curve.
 */
export function envelopeTemplate(
  track: TrackToDraw,
  element: PlacedElement,
  drawn: Pick<PlanToDraw, 'gaugeMm' | 'headWidthMm'>,
  { name, car, lengthsIn }: EnvelopeToPrint,
): Template | null {
  const line = new Line(track.placed.flatMap(partsOf), track.closed)
  const fromMm = element.fromMm - BEFORE * car.lengthMm
  const toMm = Math.min(element.toMm, element.fromMm + AFTER * car.lengthMm)
  const count = Math.ceil((toMm - fromMm) / stepOf(line))
  const swept: Swept[] = []
  for (let index = 0; index <= count; index++) {
    const atMm = fromMm + ((toMm - fromMm) * index) / count
    const reach = sweptHalfWidths(line, car, atMm)
    if (!reach) return null
    swept.push({ pose: line.poseAt(atMm), ...reach })
  }
  const level = levelling(swept[0]!.pose, swept.at(-1)!.pose)
  const poses = swept.map((each) => ({ ...each, pose: level(each.pose) }))
  const along = (look: TemplateLine['look'], leftOf: (each: Swept) => number): TemplateLine => ({
    look,
    points: poses.map((each) => beside(each.pose, leftOf(each))),
  })
  const railMm = railOffsetMm(drawn.gaugeMm, drawn.headWidthMm)
  const begins = level(line.poseAt(element.fromMm))
  const [first, last] = [poses[0]!, poses.at(-1)!]
  return {
    title: name,
    facts: factsOf(element, poses, car, lengthsIn),
    lines: [
      along('cut', ({ leftMm }) => leftMm),
      along('cut', ({ rightMm }) => -rightMm),
      along('rail', () => railMm),
      along('rail', () => -railMm),
      along('centre', () => 0),
      ...[first, last].map(
        ({ pose, leftMm, rightMm }): TemplateLine => ({
          look: 'mark',
          points: [beside(pose, leftMm), beside(pose, -rightMm)],
        }),
      ),
      { look: 'mark', points: [beside(begins, railMm * 1.5), beside(begins, -railMm * 1.5)] },
    ],
    labels: labelsOf(begins),
  }
}

/** So close that a line between two places is within the error of a template: c = √(8 R e) for the sharpest curve. */
function stepOf(line: Line): number {
  const sharpest = Math.max(
    ...line.pieces.flatMap(({ startCurvature, endCurvature }) => [Math.abs(startCurvature), Math.abs(endCurvature)]),
  )
  return sharpest === 0 ? MOST_STEP_MM : Math.min(MOST_STEP_MM, Math.sqrt((8 * LINE_ERROR_MM) / sharpest) / 2)
}

/** Turns the sheet so that two places on it are level. */
function levelling(from: Pose, to: Pose): (pose: Pose) => Pose {
  const turnRad = -Math.atan2(to.yMm - from.yMm, to.xMm - from.xMm)
  const [cos, sin] = [Math.cos(turnRad), Math.sin(turnRad)]
  return ({ xMm, yMm, headingRad }) => {
    const [x, y] = [xMm - from.xMm, yMm - from.yMm]
    return { xMm: x * cos - y * sin, yMm: x * sin + y * cos, headingRad: headingRad + turnRad }
  }
}

function factsOf(
  { startCurvature, endCurvature }: PlacedElement,
  swept: readonly Swept[],
  car: CoupledCar,
  lengthsIn: LengthsIn,
): string {
  const sharpest = Math.max(Math.abs(startCurvature), Math.abs(endCurvature))
  const left = Math.max(...swept.map(({ leftMm }) => leftMm))
  const right = Math.max(...swept.map(({ rightMm }) => rightMm))
  const [inside, outside] = startCurvature + endCurvature > 0 ? [left, right] : [right, left]
  const mm = (value: number) => radiusText(value, lengthsIn)
  return `${car.name}, ${lengthText(car.lengthMm, lengthsIn)} long, trucks ${lengthText(car.truckCentresMm, lengthsIn)} apart, ${lengthText(car.widthMm, lengthsIn)} wide, on R ${radiusText(1 / sharpest, lengthsIn)}. From the centre line it reaches ${mm(inside)} to the inside and ${mm(outside)} to the outside. Thick outer lines are its room without any play: keep what stands beside the track further off.`
}

function labelsOf(begins: Pose): TemplateLabel[] {
  return [{ at: beside(begins, -9), text: 'the curve begins' }]
}
