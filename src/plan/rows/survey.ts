import type { Open, Whole } from '../fields/field.ts'
import { choice, flag, length, list, name, shape } from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'

/* What was measured in the garden with a tape and a level. */

const surveyed = (label: string) => ({
  component: 'SurveyedName',
  longest: 100,
  says: 'Name of a peg or a point of the survey',
  label,
})

const from = name({ ...surveyed('From'), required: true })
const to = name({ ...surveyed('To'), required: true })

const elevation = { may: 'of either sign', label: 'Elevation' } as const

const PEG = shape('KnownPeg', 'A mark whose place on the sheet is known; taken as exact.', {
  name: name({ ...surveyed('Peg'), required: true }),
  x: length({ required: true, may: 'of either sign', label: 'x' }),
  y: length({ required: true, may: 'of either sign', label: 'y' }),
  elevation: length(elevation),
})

const TAPED = shape('TapedDistance', 'A distance by tape between two pegs or points.', {
  from,
  to,
  length: length({ required: true, label: 'Distance' }),
  slope: flag({
    usual: false,
    note: 'Whether the tape lay along the slope instead of level. It is then reduced by the difference in height, so both ends need an elevation.',
    label: 'Along the slope',
  }),
})

const rise = (label: string) =>
  length({
    component: 'Rise',
    required: true,
    may: 'of either sign',
    says: 'How much higher the far end is than the near end; negative where it is lower',
    label,
  })

const LEVELLED = shape('LevelledRise', 'A difference in height between two pegs or points.', {
  from,
  to,
  rise: rise('Rise'),
})

const LEVEL_STEP = shape('LevelStep', 'One step along a line, a level laid down once: how far, and how much higher.', {
  length: length({ required: true, label: 'Length' }),
  rise: rise('Rise'),
})

const LEVEL_LINE = shape(
  'LevelLine',
  'A line of stations, levelled step by step from a peg or a point. If it ends at one, what it misses that end by is spread over its steps.',
  {
    name: name({
      component: 'LineName',
      required: true,
      longest: 100,
      says: 'Name of the line, unique in the survey',
      label: 'Line',
    }),
    from,
    to: name(surveyed('To')),
    readings: list(LEVEL_STEP, { required: true, least: 1, most: LIMITS.lineReadings, label: 'Steps' }),
  },
)

const SURVEYED_POINT = shape(
  'SurveyedPoint',
  'On which side a point lies, where its distances leave two possible places: of the line from the far end of the first distance listed for it to the far end of the second, as you look along that line.',
  {
    name: name({ ...surveyed('Point'), required: true }),
    side: choice({ component: 'Side', words: { left: 'Left', right: 'Right' }, what: 'a side', label: 'Side' }),
  },
)

/** Error of one distance by tape, and of one reading of a level, mm: one standard deviation. */
const TAPE_ERROR_MM = 10
const LEVEL_ERROR_MM = 2

export const SURVEY = shape(
  'Survey',
  `Pegs and what was measured from them. At most ${LIMITS.surveyPoints} pegs and points in all, ${LIMITS.distances} distances, ${LIMITS.rises} rises and ${LIMITS.levelLines} lines.`,
  {
    pegs: list(PEG, { required: true, least: 1, most: LIMITS.surveyPoints, label: 'Pegs', entry: 'peg' }),
    distances: list(TAPED, { most: LIMITS.distances, label: 'Distances', entry: 'distance' }),
    levels: list(LEVELLED, { most: LIMITS.rises, label: 'Heights', entry: 'rise' }),
    lines: list(LEVEL_LINE, { most: LIMITS.levelLines, label: 'Lines of stations', entry: 'line' }),
    points: list(SURVEYED_POINT, { most: LIMITS.surveyPoints, label: 'Sides', entry: 'point' }),
    tapeError: length({
      component: 'TapeError',
      usual: TAPE_ERROR_MM,
      because: 'a tape held by hand in a garden, common practice',
      says: 'Error of one distance, one standard deviation',
      label: 'Tape error',
      hint: 'plus or minus',
    }),
    levelError: length({
      component: 'LevelError',
      usual: LEVEL_ERROR_MM,
      because: 'a level read with care, common practice',
      says: 'Error of one rise, and of each step of a line, one standard deviation',
      label: 'Level error',
      hint: 'plus or minus, each reading',
    }),
  },
)

export interface SurveyInput extends Open<typeof SURVEY.fields> {}
export interface WholeSurvey extends Whole<typeof SURVEY.fields> {}
export type LevelLine = WholeSurvey['lines'][number]
export type Side = 'left' | 'right'
