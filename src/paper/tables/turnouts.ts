import type { ElementAnswer, Estimate, TrackAnswer } from '../../estimate/answer.ts'
import { ELEMENT, POSE, TRACK, TURNOUT_ANSWER, type TurnoutAnswer } from '../../estimate/track/answer.ts'
import { columnsOf } from '../columns.ts'
import { type ColumnOf, length } from '../table.ts'

interface Row {
  readonly track: TrackAnswer
  readonly element: ElementAnswer
  readonly turnout: TurnoutAnswer
}

const ofTrack = columnsOf(TRACK, ({ track }: Row) => track)
const ofElement = columnsOf(ELEMENT, ({ element }: Row) => element)
const ofTurnout = columnsOf(TURNOUT_ANSWER, ({ turnout }: Row) => turnout)
const ofPoints = columnsOf(POSE, ({ turnout }: Row) => turnout.points)
const ofThrough = columnsOf(POSE, ({ turnout }: Row) => turnout.throughEnd)
const ofDiverging = columnsOf(POSE, ({ turnout }: Row) => turnout.divergingEnd)

export const TURNOUT_COLUMNS: readonly ColumnOf<Row>[] = [
  ...ofTrack({ of: 'name', key: 'track' }),
  ...ofElement({ of: 'index', key: 'element' }),
  ...ofTurnout('name', 'type', 'hand', 'enters', 'leaves'),
  ...ofElement('fromMm', 'toMm'),
  ...ofTurnout('frogAngleDeg', 'leadMm', 'closureRadiusMm', 'lengthMm'),
  ...ofPoints(
    { of: 'xMm', key: 'pointsXMm', title: 'Points x' },
    { of: 'yMm', key: 'pointsYMm', title: 'Points y' },
    { of: 'headingDeg', key: 'pointsHeadingDeg', title: 'Heading out at the points (°)' },
  ),
  length('frogXMm', 'Frog x', ({ turnout }) => turnout.frog.xMm),
  length('frogYMm', 'Frog y', ({ turnout }) => turnout.frog.yMm),
  ...ofThrough(
    { of: 'xMm', key: 'throughXMm', title: 'Through end x' },
    { of: 'yMm', key: 'throughYMm', title: 'Through end y' },
    { of: 'headingDeg', key: 'throughHeadingDeg', title: 'Heading out of the through leg (°)' },
  ),
  ...ofDiverging(
    { of: 'xMm', key: 'divergingXMm', title: 'Diverging end x' },
    { of: 'yMm', key: 'divergingYMm', title: 'Diverging end y' },
    { of: 'headingDeg', key: 'divergingHeadingDeg', title: 'Heading out of the diverging leg (°)' },
  ),
  ...ofTurnout('onBillAs'),
]

/** Every turnout, in the order of the tracks. */
export function turnoutRows({ tracks }: Estimate): Row[] {
  return tracks.flatMap((track) =>
    track.elements.flatMap((element) => (element.turnout ? [{ track, element, turnout: element.turnout }] : [])),
  )
}
