import type { ElementAnswer, Estimate, TrackAnswer } from '../../estimate/answer.ts'
import { type ColumnOf, elementNumber, length, number, text } from '../table.ts'

interface Row {
  readonly track: TrackAnswer
  readonly element: ElementAnswer
}

export const ELEMENT_COLUMNS: readonly ColumnOf<Row>[] = [
  text('track', 'Track', ({ track }) => track.name),
  text('state', 'New, there or lifted', ({ track }) => track.state),
  elementNumber(({ element }) => element.index),
  text('kind', 'Kind', ({ element }) => element.kind),
  text('label', 'Remark', ({ element }) => element.label),
  length('fromMm', 'From', ({ element }) => element.fromMm),
  length('toMm', 'To', ({ element }) => element.toMm),
  length('lengthMm', 'Length', ({ element }) => element.lengthMm),
  length('radiusMm', 'Radius', ({ element }) => element.radiusMm),
  length('startRadiusMm', 'Radius at its start', ({ element }) => element.startRadiusMm ?? null),
  length('endRadiusMm', 'Radius at its end', ({ element }) => element.endRadiusMm ?? null),
  number('angleDeg', 'Angle (°)', ({ element }) => element.angleDeg),
  text('turn', 'Turn', ({ element }) => element.turn),
  length('leftLengthMm', 'Length of the left rail', ({ element }) => element.rails.left.lengthMm),
  length('leftRadiusMm', 'Radius of the left rail', ({ element }) => element.rails.left.radiusMm),
  length('rightLengthMm', 'Length of the right rail', ({ element }) => element.rails.right.lengthMm),
  length('rightRadiusMm', 'Radius of the right rail', ({ element }) => element.rails.right.radiusMm),
  length('startXMm', 'Start x', ({ element }) => element.start.xMm),
  length('startYMm', 'Start y', ({ element }) => element.start.yMm),
  number('startHeadingDeg', 'Heading at its start (°)', ({ element }) => element.start.headingDeg),
  length('endXMm', 'End x', ({ element }) => element.end.xMm),
  length('endYMm', 'End y', ({ element }) => element.end.yMm),
  number('endHeadingDeg', 'Heading at its end (°)', ({ element }) => element.end.headingDeg),
]

/** Every element of every track, in order. */
export function elementRows({ tracks }: Estimate): Row[] {
  return tracks.flatMap((track) => track.elements.map((element) => ({ track, element })))
}
