import type { Open, OpenItem, Whole, WholeItem } from '../fields/field.ts'
import {
  bothOrNeither,
  byWord,
  choice,
  exactlyOneOf,
  flag,
  length,
  list,
  name,
  number,
  only,
  part,
  radiusOrDiameter,
  shape,
  variants,
} from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'
import { materialName, sectionId } from './rail.ts'
import { label, turn, turnSpec } from './words.ts'

/* A track and its elements. */

/** A hundred turns: enough for any helix. */
const GREATEST_ANGLE_DEG = 36_000

const TANGENT = shape('Tangent', 'A straight.', {
  kind: only('tangent', 'Straight', 'Kind'),
  length: length({ required: true, label: 'Length' }),
  label,
})

const EASEMENT = shape(
  'Easement',
  'A clothoid: its curvature runs linearly from that of the element before to that of the element after. Without a neighbour on one side it runs from or to straight.',
  { kind: only('easement', 'Easement', 'Kind'), length: length({ required: true, label: 'Length' }), label },
)

export const ARC = shape(
  'Arc',
  'A circular arc of the centre line: exactly one of radius and diameter, exactly one of angle and length.',
  {
    kind: only('arc', 'Curve', 'Kind'),
    radius: radiusOrDiameter({ required: true, label: 'Curve size' }),
    angle: number({
      component: 'Angle',
      least: 1e-6,
      most: GREATEST_ANGLE_DEG,
      outside: 'an angle is over zero; which way it goes is said by turn',
      unit: 'in degrees',
      says: 'The angle an arc turns through, degrees, more than one turn allowed',
      label: 'Angle °',
      called: 'angle',
    }),
    length: length({ label: 'Length' }),
    turn,
    label,
  },
  exactlyOneOf('angle', 'length'),
)

export const ELEMENT = byWord(
  'Element',
  'kind',
  [TANGENT, EASEMENT, ARC] as const,
  'One element of a track, in the order it is met.',
)

export const GRADE_POINT = shape(
  'GradePoint',
  "The track's height at a station; between points the grade is straight.",
  {
    at: length({ required: true, may: 'zero or more', label: 'Distance from the start' }),
    elevation: length({ required: true, may: 'of either sign', label: 'Elevation' }),
  },
)

export const START = shape('Start', 'Where on the sheet a track begins, and which way it sets out.', {
  x: length({ may: 'of either sign', usual: 0, label: 'x' }),
  y: length({ may: 'of either sign', usual: 0, label: 'y' }),
  heading: number({
    component: 'Heading',
    least: -GREATEST_ANGLE_DEG,
    most: GREATEST_ANGLE_DEG,
    unit: 'in degrees',
    usual: 0,
    says: 'A direction on the sheet, degrees counter-clockwise from +x',
    label: 'Heading, degrees',
  }),
  elevation: length({ may: 'of either sign', label: 'Elevation' }),
})

const TRACK_THERE = shape(
  'TrackThere',
  'The track that is joined: its rail, and its curve where the two meet (straight when left out), the turn as one goes along the new track from its start to its end. Another section takes a transition joiner on each rail.',
  {
    section: sectionId,
    material: materialName,
    radius: length({ label: 'Radius' }),
    turn: choice(turnSpec),
  },
  bothOrNeither('radius', 'turn'),
)

/** True, false, or what is there. */
export const JOINED_END = variants(
  'JoinedEnd',
  [TRACK_THERE, flag({})] as const,
  (value) => (typeof value === 'boolean' ? 1 : 0),
  'Whether this end joins track that is already laid, or what that track is.',
)

const JOINS_EXISTING = shape('JoinsExisting', 'Which ends join track that is already laid.', {
  start: part(JOINED_END, { label: 'Starts at existing track' }),
  end: part(JOINED_END, { label: 'Ends at existing track' }),
})

/**
 * What divides both rails of a track at a station, whatever the sticks are like:
 * - `turnout`: the rails end at a turnout, which brings its own joiners;
 * - `insulated`: an insulated joiner on each rail;
 * - `bridge-end`: an ordinary joint that must fall there;
 * - `expansion-joint`: a made-up joint that takes more movement than a joiner can.
 */
export const BREAK = shape(
  'Break',
  'A station, along the centre line, at which both rails are divided whatever the sticks are like. A closed track may have one at 0, where its ends meet; an open one at an end that joins other track.',
  {
    at: length({ required: true, may: 'zero or more', label: 'Distance from the start' }),
    kind: choice({
      component: 'BreakKind',
      required: true,
      words: {
        turnout: 'Turnout',
        insulated: 'Insulated joint',
        'bridge-end': 'Bridge end',
        'expansion-joint': 'Expansion joint',
      },
      what: 'a kind of break',
      says: 'turnout: the rails end at one, which brings its own joiners; insulated: an insulated joiner in each rail; bridge-end: an ordinary joint that must fall there; expansion-joint: one in each rail',
      label: 'Type of break',
    }),
  },
)

export const KEEP_OUT = shape(
  'KeepOut',
  'A stretch of the track, by stations on the centre line, in which no joint may lie: a bridge, a road.',
  {
    from: length({ required: true, may: 'zero or more', label: 'From', called: 'start' }),
    to: length({ required: true, may: 'zero or more', label: 'To', called: 'end' }),
    reason: { ...label, label: 'Reason' },
  },
)

export const TRACK = shape('Track', 'A track: elements joined end to end.', {
  name: name({
    component: 'TrackName',
    required: true,
    longest: 100,
    says: 'The name of a track, its own in the plan',
    label: 'Track name',
  }),
  label: { ...label, hint: 'printed next to the name' },
  start: part(START, { always: true, label: 'Start position' }),
  closed: flag({ usual: false, label: 'Closed loop: the end joins the start' }),
  state: choice({
    component: 'TrackState',
    words: { new: 'New', existing: 'Existing, stays in place', lifted: 'Existing, to be lifted' },
    what: 'a state of track',
    usual: 'new',
    says: 'New track is built and bought. Existing track stays: it counts in geometry and checks, not in cut plan, joints, ties and bill. Lifted track goes: its rail, ties and joiners are on hand for the new track, and what that leaves goes into the shed once it is built',
    label: 'Track status',
  }),
  joinsExisting: part(JOINS_EXISTING, { label: 'Track ends' }),
  gradeLine: list(GRADE_POINT, {
    most: LIMITS.gradePoints,
    label: 'Grade line',
    entry: 'grade line point',
  }),
  breaks: list(BREAK, { most: LIMITS.breaks, label: 'Breaks in the rails', entry: 'break' }),
  keepOut: list(KEEP_OUT, {
    most: LIMITS.keepOut,
    label: 'Stretches without joints',
    entry: 'stretch without joints',
  }),
  elements: list(ELEMENT, {
    required: true,
    least: 1,
    most: LIMITS.elements,
    label: 'Elements',
    entry: 'element',
  }),
})

export type TrackInput = Open<typeof TRACK.fields>
export type WholeTrack = Whole<typeof TRACK.fields>
export type Element = WholeItem<typeof ELEMENT>
export type ElementInput = OpenItem<typeof ELEMENT>
export type GradePoint = Whole<typeof GRADE_POINT.fields>
export type Break = Whole<typeof BREAK.fields>
export type BreakKind = Break['kind']
export type KeepOut = Whole<typeof KEEP_OUT.fields>
export type KeepOutInput = Open<typeof KEEP_OUT.fields>
export type TrackState = WholeTrack['state']
/** Which way a curve turns, seen along the track from its start. */
export const TURNS = ['left', 'right'] as const

export type Turn = (typeof TURNS)[number]
export type TrackThere = Whole<typeof TRACK_THERE.fields>

/** Whether an end of a track joins track that is already laid. */
export function joinsAt({ joinsExisting }: Pick<WholeTrack, 'joinsExisting'>, end: 'start' | 'end'): boolean {
  return Boolean(joinsExisting?.[end])
}

/** What lies beyond an end of a track; null where the plan does not say. */
export function thereAt({ joinsExisting }: Pick<WholeTrack, 'joinsExisting'>, end: 'start' | 'end'): TrackThere | null {
  const there = joinsExisting?.[end]
  return typeof there === 'object' ? there : null
}
