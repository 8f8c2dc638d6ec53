import {
  type Answer,
  component,
  count,
  length,
  list,
  nullable,
  number,
  object,
  optional,
  text,
  word,
} from '../../plan/fields/answer.ts'
import { TURNS } from '../../plan/rows/track.ts'
import { ELEMENT_NUMBER } from '../../track/types.ts'

export const POSE = component('PoseAnswer', 'A place on the sheet, and which way the track runs there.', {
  xMm: length(),
  yMm: length(),
  headingDeg: number('Counter-clockwise from +x, in [0, 360).'),
})

export type PoseAnswer = Answer<typeof POSE>

const PLACE = component('PlaceAnswer', 'A pose with its elevation.', { ...POSE.fields, elevationMm: length() })

export const RAIL_OF_ELEMENT = component('RailOfElement', 'A rail along one element.', {
  lengthMm: length('As laid, grade included.'),
  radiusMm: nullable(length("Of the rail's own line; null unless an arc.")),
})

export const ELEMENT = component('ElementAnswer', 'An element of a track, put in its place.', {
  index: ELEMENT_NUMBER,
  kind: word(['tangent', 'easement', 'arc'], { title: 'Kind' }),
  label: nullable(text({ title: 'Remark' })),
  fromMm: length({ says: 'Station of its start, horizontal.', title: 'From' }),
  toMm: length({ title: 'To' }),
  lengthMm: length({ title: 'Length' }),
  radiusMm: nullable(length({ says: 'Of the centre line; null on tangents and easements.', title: 'Radius' })),
  startRadiusMm: optional(
    nullable(length({ says: 'Easements only; null where it is straight.', title: 'Radius at its start' })),
  ),
  endRadiusMm: optional(
    nullable(length({ says: 'Easements only; null where it is straight.', title: 'Radius at its end' })),
  ),
  angleDeg: number({
    says: "An arc's own angle, > 0; an easement's turn, left positive; 0 on a tangent.",
    title: 'Angle (°)',
  }),
  turn: nullable(word(TURNS, { title: 'Turn' })),
  rails: object({ left: RAIL_OF_ELEMENT, right: RAIL_OF_ELEMENT }),
  start: POSE,
  end: POSE,
})

export type ElementAnswer = Answer<typeof ELEMENT>

const LAID_RAIL = object({ lengthMm: length() })

export const TRACK = component('TrackAnswer', 'A track as it is laid.', {
  name: text({ title: 'Track' }),
  label: nullable(text()),
  state: word(['new', 'existing', 'lifted'], {
    says: 'Track that is not new has no ties and joints here, and is not cut, bent or bought.',
    title: 'New, existing or lifted',
  }),
  lengthMm: length('Of the centre line, horizontal.'),
  turnedDeg: number('Signed, left positive, not reduced: a turn and an eighth is 405.'),
  rails: object({ left: LAID_RAIL, right: LAID_RAIL }),
  start: PLACE,
  end: PLACE,
  closure: nullable(
    object({ gapMm: length(), headingDeg: number('In (−180, 180].'), elevationMm: length('End − start.') }),
    'For a closed track, how far its end misses its start.',
  ),
  grades: list(
    object({ fromMm: length(), toMm: length(), gradePct: number() }),
    'The straight grades the track is laid on, in order.',
  ),
  ties: count(),
  tieSpacingMm: length(),
  jointTies: count('Added beside joints, where supplies.ties.jointTies asks for it; not among ties.'),
  joints: count(),
  elements: list(ELEMENT),
})

export type TrackAnswer = Answer<typeof TRACK>
