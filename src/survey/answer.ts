import {
  type Answer,
  component,
  count,
  flag,
  length,
  list,
  nullable,
  number,
  object,
  text,
  word,
} from '../plan/fields/answer.ts'
import { ASSUMPTION } from '../plan/fields/assumption.ts'

const TAPE_FROM = component('TapeFrom', 'A distance from a peg.', {
  peg: text(),
  levelMm: length('With the tape held level, mm.'),
  slopeMm: nullable(length('With the tape along the slope, mm; null if an elevation is not known.')),
})

export const PEG_OUT = component('PegOut', 'How to mark a point with two tapes.', {
  first: TAPE_FROM,
  second: TAPE_FROM,
  side: word(['left', 'right'], 'Side of the line from the first peg to the second, as you look along it.'),
  errorMm: length(
    'How far from its place the mark comes to stand because of the tapes alone, one standard deviation, mm.',
  ),
})

const ELLIPSE = component(
  'ErrorEllipse',
  'The error of a place, from the errors stated for tape and level. The point lies within the ellipse with a probability of 39 %, within one 2.45 times as large with 95 %.',
  {
    majorMm: length('Longer half axis, one standard deviation, mm.'),
    minorMm: length('Shorter half axis, mm.'),
    directionDeg: number('Direction of the longer axis, degrees counter-clockwise from +x, in [0, 180).'),
    radiusMm: length('The error as one number: the square root of the sum of the squares of the half axes, mm.'),
  },
)

const HEIGHT = {
  elevationMm: nullable(length('Null if no rise connects it with a known elevation, mm.')),
  elevationErrorMm: nullable(length('One standard deviation; 0 for an elevation that is given, mm.')),
  noElevation: nullable(text('Why there is no elevation; null if there is one.')),
}

const POINT = component('PointAnswer', 'A point of a survey.', {
  name: text(),
  xMm: nullable(length()),
  yMm: nullable(length()),
  error: nullable(ELLIPSE),
  noPlace: nullable(text('Why there is no position; null if there is one.')),
  ...HEIGHT,
  pegOut: nullable(
    PEG_OUT,
    'The distances from the two pegs that mark it best; null without a position, or if no two pegs see it at an angle of 10° or more.',
  ),
})

const PEG = component('PegAnswer', 'A peg of a survey, with the elevation that was given or levelled.', {
  name: text(),
  xMm: length(),
  yMm: length(),
  ...HEIGHT,
})

const READING = component('ReadingAnswer', 'A reading beside all the others.', {
  kind: word(['distance', 'rise', 'line'], 'A line of stations counts as one rise from end to end.'),
  index: count('Its place in distances, levels or lines of the request, from 0.'),
  from: text(),
  to: text(),
  measuredMm: length(),
  adjustedMm: nullable(length('Null if an end has no position or elevation, so that the reading was not used, mm.')),
  residualMm: nullable(length('Adjusted minus measured, mm.')),
  redundancy: nullable(
    number('Share of an error of this reading that shows in its residual, 0 to 1. At 0 nothing checks it.'),
  ),
  test: nullable(
    number('The residual in its own standard deviations (Baarda’s w); null if nothing checks the reading.'),
  ),
  isSuspect: flag('Whether the test is over 3.29, which by chance happens once in a thousand readings.'),
})

const STATION = component('LineStation', 'A station of a line. Stations can be sent as `ground` of a track.', {
  index: count(),
  atMm: length('From the start of the line, mm.'),
  elevationMm: length(),
  errorMm: length('One standard deviation, mm.'),
})

export type StationAnswer = Answer<typeof STATION>

const LINE = component('LineAnswer', 'A line of stations.', {
  name: text(),
  from: text(),
  to: nullable(text()),
  lengthMm: length(),
  riseMm: length('Sum of its rises as read, mm.'),
  misclosureMm: nullable(
    length(
      'Rise as read minus the difference in elevation of its ends, spread over its steps; null without an end, mm.',
    ),
  ),
  noElevation: nullable(text('Why its stations have no elevation; null if they have.')),
  stations: list(STATION),
})

export const SURVEY_ANSWER = component('SurveyAnswer', 'Where everything in a survey is.', {
  pegs: list(PEG),
  points: list(POINT),
  lines: list(LINE),
  readings: list(READING),
  redundancy: number('Readings that were used, less the unknowns they determine: how many could be left out.'),
  fit: nullable(
    number(
      'Size of the residuals compared with the errors stated: about 1 if those are right; null without a reading too many.',
    ),
  ),
  suspects: list(
    object({
      reading: count('Its place in readings, from 0.'),
      message: text(),
    }),
    'Suspect readings, the worst first. Measure that one again before you doubt the next.',
  ),
  assumptions: list(ASSUMPTION),
})

export type SurveyAnswer = Answer<typeof SURVEY_ANSWER>
