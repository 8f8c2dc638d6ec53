import type { ElementAnswer, Estimate, TrackAnswer } from '../../estimate/answer.ts'
import { CROSSING_ANSWER, ELEMENT, POSE, RAIL_OF_ELEMENT, TRACK, TURNOUT_ANSWER } from '../../estimate/track/answer.ts'
import { columnsOf } from '../columns.ts'
import { text } from '../table.ts'

interface Row {
  readonly track: TrackAnswer
  readonly element: ElementAnswer
}

const ofTrack = columnsOf(TRACK, ({ track }: Row) => track)
const ofElement = columnsOf(ELEMENT, ({ element }: Row) => element)
const ofLeft = columnsOf(RAIL_OF_ELEMENT, ({ element }: Row) => element.rails.left)
const ofRight = columnsOf(RAIL_OF_ELEMENT, ({ element }: Row) => element.rails.right)
const ofStart = columnsOf(POSE, ({ element }: Row) => element.start)
const ofEnd = columnsOf(POSE, ({ element }: Row) => element.end)

const TRACK_AND_KIND = [
  ...ofTrack({ of: 'name', key: 'track' }, 'state'),
  ...ofElement(
    { of: 'index', key: 'element' },
    'kind',
    'label',
    'fromMm',
    'toMm',
    'lengthMm',
    'radiusMm',
    'startRadiusMm',
    'endRadiusMm',
    'angleDeg',
    'turn',
  ),
]

const OF_RAILS = [
  ...ofLeft(
    { of: 'lengthMm', key: 'leftLengthMm', title: 'Length of the left rail' },
    { of: 'radiusMm', key: 'leftRadiusMm', title: 'Radius of the left rail' },
  ),
  ...ofRight(
    { of: 'lengthMm', key: 'rightLengthMm', title: 'Length of the right rail' },
    { of: 'radiusMm', key: 'rightRadiusMm', title: 'Radius of the right rail' },
  ),
]

const OF_START = [
  ...ofStart(
    { of: 'xMm', key: 'startXMm', title: 'Start x' },
    { of: 'yMm', key: 'startYMm', title: 'Start y' },
    { of: 'headingDeg', key: 'startHeadingDeg', title: 'Heading at its start (°)' },
  ),
]

const OF_END = [
  ...ofEnd(
    { of: 'xMm', key: 'endXMm', title: 'End x' },
    { of: 'yMm', key: 'endYMm', title: 'End y' },
    { of: 'headingDeg', key: 'endHeadingDeg', title: 'Heading at its end (°)' },
  ),
]

/** Which turnout or crossing it is, and how the track runs through it. */
const OF_SPECIAL = [
  text('name', 'Turnout or crossing', ({ element }: Row) => (element.turnout ?? element.crossing)?.name ?? null),
  ...columnsOf(TURNOUT_ANSWER, ({ element }: Row) => element.turnout)('type', 'enters', 'leaves'),
  ...columnsOf(CROSSING_ANSWER, ({ element }: Row) => element.crossing)({ of: 'angleDeg', key: 'crossingAngleDeg' }),
]

export const ELEMENT_COLUMNS = [...TRACK_AND_KIND, ...OF_RAILS, ...OF_START, ...OF_END, ...OF_SPECIAL]

/** The same in two: what the elements are and where they start, and their rails and where they end. */
export const SHEET_ELEMENT_COLUMNS = [...TRACK_AND_KIND, ...OF_START, ...OF_SPECIAL]
export const RAIL_COLUMNS = [
  ...ofTrack({ of: 'name', key: 'track' }),
  ...ofElement({ of: 'index', key: 'element' }, 'kind'),
  ...OF_RAILS,
  ...OF_END,
]

/** Every element of every track, in order. */
export function elementRows({ tracks }: Estimate): Row[] {
  return tracks.flatMap((track) => track.elements.map((element) => ({ track, element })))
}
