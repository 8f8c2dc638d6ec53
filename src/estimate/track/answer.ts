import {
  type Answer,
  component,
  count,
  extended,
  length,
  list,
  nullable,
  number,
  object,
  optional,
  part,
  text,
  word,
} from '../../plan/fields/answer.ts'
import { TURNS } from '../../plan/rows/track.ts'
import { PROFILE } from '../../track/profile.ts'
import { TURNOUT_FIGURES } from '../../track/turnout/figures.ts'
import { TURNOUT_LEGS, TURNOUT_RAIL_PARTS } from '../../track/turnout/rails.ts'
import { ELEMENT_NUMBER } from '../../track/types.ts'
import { PROFILE_POINT } from '../../track/vertical-curve.ts'
import { EARTHWORKS } from '../earthworks/answer.ts'
import { EFFECTIVE_GRADE } from '../trains/answer.ts'

export const POSE = component('PoseAnswer', 'A position on the sheet, and the heading of the track there.', {
  xMm: length(),
  yMm: length(),
  headingDeg: number('Degrees counter-clockwise from +x, in [0, 360).'),
})

export type PoseAnswer = Answer<typeof POSE>

const PLACE = component('PlaceAnswer', 'A position and heading with the elevation.', {
  ...POSE.fields,
  elevationMm: length(),
})

const FROG = object({ xMm: length(), yMm: length() })

export const TURNOUT_RAIL = component('TurnoutRailAnswer', 'A rail of a turnout that is built by hand.', {
  parts: list(word(TURNOUT_RAIL_PARTS), 'What it is, from the points on; several where they are one piece.'),
  leg: word(TURNOUT_LEGS, { title: 'Leg' }),
  side: word(TURNS, { says: 'Of its leg, seen from the points.', title: 'Side' }),
  fromMm: length('Where it begins: along the centre line of its leg, from the points, mm.'),
  lengthMm: length({ says: 'Along the middle of its head, from joint to joint, mm.', title: 'Length' }),
  gapAheadMm: optional(
    length('The gap to the rail that follows it in the turnout, mm; only where one does and gaps are known.'),
  ),
  kinks: list(
    object({
      atMm: length('From its end nearer the points.'),
      angleDeg: number('Degrees, above 0.'),
      turn: word(TURNS),
    }),
    'Where it is bent in one place: a stock rail at the points beside a straight switch rail, a wing rail at the throat of the frog.',
  ),
})

export const TURNOUT_ANSWER = extended(
  TURNOUT_FIGURES,
  'TurnoutAnswer',
  'A turnout of a track, with the places of its ends.',
  {
    name: text({ title: 'Turnout' }),
    type: text({ title: 'Kind of turnout' }),
    hand: word(['left', 'right', 'wye'], { title: 'Hand' }),
    enters: word(['points', 'through', 'diverging'], { title: 'Enters' }),
    leaves: word(['points', 'through', 'diverging'], { title: 'Leaves' }),
    points: part(POSE, 'The points, and the heading out of the turnout there.'),
    throughEnd: part(POSE, 'The end of the through leg, and the heading out of the turnout there.'),
    divergingEnd: part(POSE, 'The end of the diverging leg, and the heading out of the turnout there.'),
    frog: part(FROG, 'The theoretical point of the frog on the sheet.'),
    ties: list(
      object({ atMm: length(), lengthMm: length() }),
      'Ties under both legs, by distance from the points along each leg.',
    ),
    rails: optional(
      list(
        TURNOUT_RAIL,
        'Only of a turnout that is built by hand: its rails, which the cut plan has instead of those of its track. Point rails begin at the theoretical point of the frog; in the cut plan the rails are shorter by the gaps between them.',
      ),
    ),
    onBillAs: nullable(
      text({
        says: 'The description of its line in the bill; null if it is built by hand, or its track is not new.',
        title: 'On the shopping list as',
      }),
    ),
  },
)

export type TurnoutAnswer = Answer<typeof TURNOUT_ANSWER>

export const CROSSING_ANSWER = object({
  name: text({ title: 'Crossing' }),
  angleDeg: number({ says: 'Angle at which the two tracks cross, degrees.', title: 'Angle of the crossing (°)' }),
})

export const RAIL_OF_ELEMENT = component('RailOfElement', 'One rail along one element.', {
  lengthMm: length('Length of the rail as laid, including the grade, mm.'),
  radiusMm: nullable(length('Radius of the middle line of the rail, mm; null unless the element is an arc.')),
})

export const ELEMENT = component('ElementAnswer', 'An element of a track, with its position.', {
  index: ELEMENT_NUMBER,
  kind: word(['tangent', 'easement', 'arc', 'turnout', 'crossing'], { title: 'Kind', extensible: true }),
  label: nullable(text({ title: 'Remark' })),
  fromMm: length({ says: 'Station of its start, measured horizontally, mm.', title: 'From' }),
  toMm: length({ title: 'To' }),
  lengthMm: length({ title: 'Length' }),
  radiusMm: nullable(
    length({ says: 'Radius of the centre line, mm; null for tangents and easements.', title: 'Radius' }),
  ),
  startRadiusMm: optional(
    nullable(length({ says: 'Only for easements, mm; null where it is straight.', title: 'Radius at its start' })),
  ),
  endRadiusMm: optional(
    nullable(length({ says: 'Only for easements, mm; null where it is straight.', title: 'Radius at its end' })),
  ),
  angleDeg: number({
    says: 'Degrees: the angle of an arc, above 0; the turn of an easement, positive to the left; 0 for a tangent.',
    title: 'Angle (°)',
  }),
  turn: nullable(word(TURNS, { title: 'Turn' })),
  rails: object({ left: RAIL_OF_ELEMENT, right: RAIL_OF_ELEMENT }),
  start: POSE,
  end: POSE,
  turnout: optional(TURNOUT_ANSWER),
  crossing: optional(CROSSING_ANSWER),
})

export type ElementAnswer = Answer<typeof ELEMENT>

const LAID_RAIL = object({ lengthMm: length() })

export const TRACK = component('TrackAnswer', 'A track as laid.', {
  name: text({ title: 'Track' }),
  label: nullable(text()),
  state: word(['new', 'existing', 'lifted'], {
    says: 'Track that is not new has no ties or joints here and is not cut, bent or bought.',
    title: 'New, existing or lifted',
  }),
  lengthMm: length('Length of the centre line, measured horizontally, mm.'),
  turnedDeg: number('Total turn, degrees, positive to the left, not reduced to one turn: a turn and an eighth is 405.'),
  rails: object({ left: LAID_RAIL, right: LAID_RAIL }),
  start: PLACE,
  end: PLACE,
  closure: nullable(
    object({
      gapMm: length(),
      headingDeg: nullable(
        number('Heading of the end minus that required, degrees, in (−180, 180]; null if the plan requires none.'),
      ),
      elevationMm: nullable(length('Elevation of the end minus that required, mm; null if the plan requires none.')),
    }),
    'How far the end of the track misses where it must be: the start of a closed track, or what the plan gives as `end`. Null for an end that is free.',
  ),
  grades: list(
    object({
      fromMm: length(),
      toMm: length(),
      gradePct: number(),
      endGradePct: optional(
        number('Only of a vertical curve, along which the grade changes evenly: the grade at its end.'),
      ),
    }),
    'The stretches of constant grade and the vertical curves, in order.',
  ),
  profile: PROFILE,
  levels: list(PROFILE_POINT, 'Elevation and grade at the stations of levelsAt.'),
  ties: count(),
  tieSpacingMm: length(),
  jointTies: count('Ties added beside joints if supplies.ties.jointTies is true; not included in ties.'),
  joints: count(),
  elements: list(ELEMENT),
  earthworks: optional(
    part(EARTHWORKS, 'Only of new track that gives its ground: cut and fill between the ground and the formation.'),
  ),
  effectiveGrade: optional(
    part(EFFECTIVE_GRADE, 'Only if trains say what they weigh, or standards.curveResistancePct is given.'),
  ),
})

export const EXTENT = component(
  'Extent',
  'The smallest rectangle around the centre lines of all tracks, those to be lifted included. The ties reach further by half their length.',
  { minXMm: length(), maxXMm: length(), minYMm: length(), maxYMm: length() },
)

export type TrackAnswer = Answer<typeof TRACK>
