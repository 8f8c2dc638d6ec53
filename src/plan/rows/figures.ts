import type { Open } from '../fields/field.ts'
import {
  atMostOneOf,
  choice,
  count,
  flag,
  length,
  list,
  name,
  number,
  part,
  radiusOrDiameter,
  shape,
  text,
} from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'
import { PLAN } from './plan.ts'
import { RAIL } from './rail.ts'
import { ELEMENT, START } from './track.ts'
import { turn } from './words.ts'

/* Figures of track, which are worked out and then put into a plan. */

export const FIGURE_WORDS = {
  crossover: 'Crossover',
  ladder: 'Yard',
  'passing-loop': 'Passing loop',
  'reverse-loop': 'Reverse loop',
  wye: 'Wye',
  parallel: 'Double track',
  junction: 'Junction',
} as const

export type FigureName = keyof typeof FIGURE_WORDS

const kindOfHand = (hand: string, also = '') =>
  name({
    component: 'FigureTurnoutId',
    longest: 100,
    says: 'The id of one of turnoutTypes',
    note: `${hand}${also}; the first of that hand when left out.`,
    label: hand,
  })

/** The curve of the track that a figure lies on. */
const BASE_CURVE = shape('FigureCurve', 'The curve of the track that a crossover starts from.', {
  radius: radiusOrDiameter({ required: true, label: 'Curve size' }),
  turn,
})

const FIGURE_START = shape('FigureStart', 'Where the figure starts, and the heading of its track there.', {
  x: START.fields.x,
  y: START.fields.y,
  heading: START.fields.heading,
})

const { gauge, turnoutTypes, standards, power } = PLAN.fields

export const FIGURE = shape(
  'FigureRequest',
  `A figure of track and its measures; a field that has no effect on the figure is refused. At most ${LIMITS.figureTracks} tracks of a yard and ${LIMITS.figureElements} elements of a track to be doubled.`,
  {
    figure: choice({
      component: 'FigureName',
      required: true,
      words: FIGURE_WORDS,
      what: 'a figure',
      says: 'crossover: from a track to a parallel one; ladder: a yard; passing-loop: a siding with a turnout at either end; reverse-loop: a loop back to its own turnout; wye: three turnouts to turn on; parallel: a second track beside a given one; junction: a branch of single or double track',
      label: 'Figure',
    }),
    gauge,
    rail: part(RAIL, { label: 'Rail' }),
    turnoutTypes,
    standards,
    power,
    start: part(FIGURE_START, { label: 'Start' }),
    prefix: text({
      component: 'FigurePrefix',
      longest: 60,
      says: 'What the names of the tracks and turnouts of a figure begin with, so that they differ from others in the plan',
      label: 'Names begin with',
    }),
    side: choice({
      component: 'FigureSide',
      words: { left: 'Left', right: 'Right' },
      what: 'a side',
      says: 'The side of the track on which the figure lies, seen from its start; the left when left out, unless all turnouts are right-handed',
      label: 'Side',
      blank: 'the left',
    }),
    left: kindOfHand('Left-hand turnout'),
    right: kindOfHand('Right-hand turnout'),
    wye: kindOfHand(
      'Wye turnout',
      ', for the turnout of a reverse loop or the one at the tail of a wye; without one they have a left-hand or right-hand turnout',
    ),
    spacing: length({
      component: 'FigureSpacing',
      says: 'Distance of the centre lines of parallel tracks; of a junction that of its double track, which is single when left out',
      label: 'Track spacing',
      blank: '200 mm',
    }),
    fouling: length({
      component: 'FigureFouling',
      says: 'Distance of two centre lines from which on a car on one of them stands clear of the other; the track spacing when left out',
      label: 'Clear from',
    }),
    clear: length({
      component: 'FigureClear',
      says: 'Wanted length of track that stands clear: of a passing loop between its two fouling points, of each track of a yard from its fouling point to its end, of a wye the tail',
      label: 'Clear length',
    }),
    clears: list(length({}), {
      least: 2,
      most: LIMITS.figureTracks,
      note: 'Only of a ladder: the clear length of each track of the yard, the straight one first. With clear and count all have the same.',
      label: 'Clear lengths',
    }),
    count: count({
      component: 'FigureCount',
      least: 2,
      most: LIMITS.figureTracks,
      says: 'How many tracks a yard has, the straight one among them',
      label: 'Tracks',
    }),
    doubleEnded: flag({
      note: 'Only of a ladder: another ladder joins the tracks at their other end. How much they differ follows from the ladders, so none stands clear for less than is wanted and one for no more.',
      label: 'A ladder at both ends',
    }),
    radius: {
      ...radiusOrDiameter({ label: 'Curve size', blank: 'that of the turnouts, if the minimum is not larger' }),
      note: 'Of the curves of the figure. When left out, the larger one of the minimum radius and the radius of the turnouts.',
    },
    angle: number({
      component: 'FigureAngle',
      least: 1,
      most: 180,
      unit: 'in degrees',
      says: 'Through which angle a branch turns away from its line, degrees; 90 when left out',
      label: 'Angle °',
      blank: '90',
    }),
    curve: part(BASE_CURVE, {
      label: 'Curve of the track',
      note: 'Only of a crossover: the track is straight when left out.',
    }),
    elements: list(ELEMENT, {
      least: 1,
      most: LIMITS.figureElements,
      note: 'Only of parallel: the track to be doubled, of straights, arcs and easements.',
      label: 'Elements',
      entry: 'element',
    }),
  },
  atMostOneOf('clears', 'clear'),
  atMostOneOf('clears', 'count'),
)

export interface FigureAsked extends Open<typeof FIGURE.fields> {}

/** The fields that have an effect on each figure, beside those that all have. */
export const FIELDS_OF_FIGURE: Readonly<Record<FigureName, readonly (keyof FigureAsked)[]>> = {
  crossover: ['left', 'right', 'spacing', 'curve'],
  ladder: ['left', 'right', 'spacing', 'fouling', 'clear', 'clears', 'count', 'doubleEnded', 'radius'],
  'passing-loop': ['left', 'right', 'spacing', 'fouling', 'clear', 'radius'],
  'reverse-loop': ['left', 'right', 'wye', 'radius'],
  wye: ['left', 'right', 'wye', 'clear', 'radius'],
  parallel: ['spacing', 'elements'],
  junction: ['left', 'right', 'spacing', 'radius', 'angle'],
}
