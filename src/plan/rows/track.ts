import type { Open, OpenItem, Whole, WholeItem } from '../fields/field.ts'
import {
  bothOrNeither,
  byWord,
  choice,
  exactlyOneOf,
  FIT,
  flag,
  length,
  list,
  name,
  number,
  only,
  orDegree,
  orFit,
  part,
  radiusOrDiameter,
  shape,
  variants,
} from '../fields/kinds.ts'
import { GROUND_POINT } from './earthworks.ts'
import { LIMITS } from './limits.ts'
import { materialName, sectionId } from './rail.ts'
import { maximumGradePct } from './standards.ts'
import { CROSSING, LEG_PLACE, TURNOUT } from './turnouts.ts'
import { label, turn, turnSpec } from './words.ts'

/* A track and its elements. */

/** A hundred turns: enough for any helix. */
const GREATEST_ANGLE_DEG = 36_000

/**
 * The steepest grade that is read, rise over level run: 100 %, or 45°. The steepest rack railway climbs 48 % (from memory),
 * and wheels alone a fifth of that, so a steeper grade is a mistake in a number or its unit. It also bounds the length of
 * a rail: at 45° it is √2 times as long as its plan.
 */
export const STEEPEST_PCT = 100

/** A station at which elevation and grade are wanted. */
export const levelStation = length({
  component: 'LevelStation',
  required: true,
  may: 'zero or more',
  says: 'A station on the centre line whose elevation and grade are wanted',
})

/** Characters of the name of a track. */
const LONGEST_NAME = 100

/** The length of an element. */
const lengthOrFit = <const S extends { readonly required?: true }>(spec: S) =>
  orFit(length({ ...spec, label: 'Length', hint: FIT_HINT }), 'LengthOrFit')

/** How the form says it. */
const FIT_HINT = `${FIT}: as the end of the track needs it`

const TANGENT = shape('Tangent', 'A straight.', {
  kind: only('tangent', 'Straight', 'Kind'),
  length: lengthOrFit({ required: true }),
  label,
})

const EASEMENT = shape(
  'Easement',
  'A clothoid: its curvature changes linearly from that of the element before it to that of the element after it. If one of them is missing, that end is straight.',
  { kind: only('easement', 'Easement', 'Kind'), length: lengthOrFit({ required: true }), label },
)

/** The angle of an arc. */
export const arcAngle = number({
  component: 'Angle',
  least: 1e-6,
  most: GREATEST_ANGLE_DEG,
  outside: 'give an angle above zero; turn says which way the curve goes',
  unit: 'in degrees',
  says: 'Angle of the arc, degrees; more than one turn is allowed',
  label: 'Angle °',
  called: 'angle',
})

const ARC = shape(
  'Arc',
  'A circular arc of the centre line. Give exactly one of radius, diameter and degree (with its chord), and exactly one of angle and length.',
  {
    kind: only('arc', 'Curve', 'Kind'),
    radius: orDegree(orFit(radiusOrDiameter({ required: true, label: 'Curve size', hint: FIT_HINT }), 'RadiusOrFit')),
    angle: orFit({ ...arcAngle, hint: FIT_HINT }, 'AngleOrFit'),
    length: lengthOrFit({}),
    turn,
    label,
  },
  exactlyOneOf('angle', 'length'),
)

const CONNECT = shape(
  'Connect',
  'A path to be found from the end of the element before it to the start of the element after it, or to where the track must end: arcs and straights, the shortest that keeps the rules. At most one in a track, which is closed or has an end with a heading.',
  {
    kind: only('connect', 'Connection', 'Kind'),
    minimumRadius: length({
      component: 'ConnectRadius',
      required: true,
      says: 'The least radius of its curves',
      label: 'Least radius',
    }),
    easement: length({
      component: 'ConnectEasement',
      says: 'Length of an easement on either side of each of its curves',
      label: 'Easement at its curves',
      blank: 'none',
    }),
    minimumTangent: length({
      component: 'ConnectTangent',
      may: 'zero or more',
      says: 'The least straight between curves to different sides; standards.minimumTangentBetweenReverseCurves when left out',
      label: 'Least straight between reverse curves',
      blank: 'as the track standards say',
    }),
    label,
  },
)

export const ELEMENT = byWord(
  'Element',
  'kind',
  [TANGENT, EASEMENT, ARC, TURNOUT, CROSSING, CONNECT] as const,
  'One element of a track; elements are listed in order along it.',
)

export const GRADE_POINT = shape(
  'GradePoint',
  'A station where the grade changes: the elevation of the track there, or the grade from there to the next point. Between points the grade is constant, but for vertical curves.',
  {
    at: length({ required: true, may: 'zero or more', label: 'Distance from the start' }),
    elevation: length({ may: 'of either sign', label: 'Elevation' }),
    gradePct: number({
      component: 'GradePct',
      least: -STEEPEST_PCT,
      most: STEEPEST_PCT,
      unit: 'in percent',
      sign: ' %',
      says: 'Grade from this point to the next one, or to the end of the track, percent: rise over level run, negative where the track falls',
      label: 'or grade from here, %',
      called: 'grade',
    }),
    verticalCurve: length({
      component: 'VerticalCurveLength',
      says: 'Length of the vertical curve (a parabola) that is centred here and leads from one grade to the other, measured horizontally',
      label: 'Vertical curve',
    }),
  },
  exactlyOneOf('elevation', 'gradePct'),
)

export const GRADE_LIMIT = shape(
  'GradeLimit',
  'A stretch of the track, between two stations on the centre line, with its own steepest grade, such as a hidden one that has to be level. Where stretches overlap, the first in the list counts.',
  {
    from: length({ required: true, may: 'zero or more', label: 'From', called: 'start' }),
    to: length({ required: true, may: 'zero or more', label: 'To', called: 'end' }),
    maximumGradePct: number({
      ...maximumGradePct,
      component: 'GradeLimitPct',
      required: true,
      label: 'Maximum grade, %',
    }),
    reason: { ...label, label: 'Reason' },
  },
)

/** A track of the plan, by its name. */
const trackCalled = (label: string, hint: string) =>
  name({
    component: 'OtherTrackName',
    longest: LONGEST_NAME,
    says: 'Name of another track of the plan',
    label,
    hint,
  })

const heading = {
  component: 'Heading',
  least: -GREATEST_ANGLE_DEG,
  most: GREATEST_ANGLE_DEG,
  unit: 'in degrees',
  says: 'Heading on the sheet, degrees counter-clockwise from +x',
  label: 'Heading, degrees',
} as const

export const START = shape(
  'Start',
  'Where on the sheet the track starts, and its heading there; or the track from whose end it continues, or the turnout it leaves; these give its position, heading and elevation.',
  {
    after: trackCalled('Continue from track', 'name of another track; leave the position blank'),
    from: part(LEG_PLACE, { label: 'Leave a turnout' }),
    x: length({ may: 'of either sign', usual: 0, label: 'x' }),
    y: length({ may: 'of either sign', usual: 0, label: 'y' }),
    heading: number({ ...heading, usual: 0 }),
    elevation: length({ may: 'of either sign', label: 'Elevation' }),
  },
)

const END_PLACE = shape(
  'EndPlace',
  'A position on the sheet. Heading and elevation are checked only if they are given.',
  {
    x: length({ required: true, may: 'of either sign', label: 'x' }),
    y: length({ required: true, may: 'of either sign', label: 'y' }),
    heading: number({ ...heading, component: 'EndHeading' }),
    elevation: length({ may: 'of either sign', label: 'Elevation' }),
  },
)

export const END = shape(
  'End',
  'Where the end of the track must be: at a position, at the start of another track, or at a leg of a turnout. tracks[].closure answers how far the track misses it. Give exactly one of at, before and to.',
  {
    before: trackCalled('Meet start of track', 'name of another track; leave the position blank'),
    to: part(LEG_PLACE, { label: 'Come to a turnout' }),
    at: part(END_PLACE, { label: 'End position' }),
  },
  exactlyOneOf('at', 'before', 'to'),
)

const TRACK_THERE = shape(
  'TrackThere',
  'The track that is joined: its rail, and its curve where the two meet (straight when left out). Give turn as seen along the new track from its start to its end. If the sections differ, each rail needs a transition joiner.',
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
  'Whether this end joins track that is already laid, or a description of that track.',
)

const JOINS_EXISTING = shape('JoinsExisting', 'Which ends join track that is already laid. Neither when left out.', {
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
  'A station on the centre line at which both rails must be divided. A closed track may have one at 0, where its ends meet; an open track may have one at an end that joins other track.',
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
      says: 'turnout: the rails end at a turnout, which comes with its joiners; insulated: an insulated joiner in each rail; bridge-end: an ordinary joint at the end of a bridge; expansion-joint: an expansion joint in each rail',
      label: 'Type of break',
    }),
  },
)

export const KEEP_OUT = shape(
  'KeepOut',
  'A stretch of the track, between two stations on the centre line, where no joint may be, such as a bridge or a path.',
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
    longest: LONGEST_NAME,
    says: 'Name of the track, unique in the plan',
    label: 'Track name',
  }),
  label: { ...label, hint: 'printed next to the name' },
  start: part(START, { always: true, label: 'Start position' }),
  end: part(END, { label: 'Where the end must be' }),
  closed: flag({ usual: false, label: 'Closed loop: the end joins the start' }),
  state: choice({
    component: 'TrackState',
    words: { new: 'New', existing: 'Existing, stays in place', lifted: 'Existing, to be lifted' },
    what: 'a state of track',
    usual: 'new',
    says: 'new: track to build and buy. existing: track that stays; it counts in geometry and checks, but not in cut plan, joints, ties and bill. lifted: track to be removed; its rail, ties and joiners are on hand for the new track, and what is left goes into the shed after building',
    label: 'Track status',
  }),
  interlaced: flag({
    usual: false,
    note: 'Whether it lies within another track that is interlaced too, as where two tracks share a narrow place: cars on both never pass each other there, and their spacing is not checked.',
    label: 'Interlaced with another track: one train at a time',
  }),
  joinsExisting: part(JOINS_EXISTING, { label: 'Track ends' }),
  gradeLine: list(GRADE_POINT, {
    most: LIMITS.gradePoints,
    label: 'Grade line',
    entry: 'grade line point',
  }),
  limits: list(GRADE_LIMIT, {
    most: LIMITS.gradeLimits,
    label: 'Stretches with their own maximum grade',
    entry: 'stretch with its own maximum grade',
  }),
  levelsAt: list(levelStation, { most: LIMITS.levels }),
  ground: list(GROUND_POINT, {
    most: LIMITS.groundPoints,
    note: 'The ground along the centre line as it is, for cut and fill: from the first station to the last.',
    label: 'Ground',
    entry: 'ground point',
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

/** An element as it was sent: its length or angle may be open, and it may stand for a whole path. */
export type ElementAsSent = OpenItem<typeof ELEMENT>
export type Connect = Extract<ElementAsSent, { kind: 'connect' }>

/** Without what is still to be worked out. */
type Fitted<E> = E extends { readonly kind: 'connect' } ? never : { readonly [K in keyof E]: Exclude<E[K], typeof FIT> }

/** With everything worked out that an element left to be fitted (see `fitPlan`). */
export type ElementInput = Fitted<ElementAsSent>
export type Element = Fitted<WholeItem<typeof ELEMENT>>

export interface TrackAsSent extends Open<typeof TRACK.fields> {}
export interface TrackInput extends Omit<TrackAsSent, 'elements'> {
  readonly elements: readonly ElementInput[]
}
export interface WholeTrack extends Omit<Whole<typeof TRACK.fields>, 'elements'> {
  readonly elements: readonly Element[]
}
export interface GradePoint extends Open<typeof GRADE_POINT.fields> {}
export interface GradeLimit extends Whole<typeof GRADE_LIMIT.fields> {}
export interface GradeLimitInput extends Open<typeof GRADE_LIMIT.fields> {}
export interface Break extends Whole<typeof BREAK.fields> {}
export type BreakKind = Break['kind']
export interface KeepOut extends Whole<typeof KEEP_OUT.fields> {}
export interface KeepOutInput extends Open<typeof KEEP_OUT.fields> {}
/** Which way a curve turns, seen along the track from its start. */
export const TURNS = ['left', 'right'] as const

export type Turn = (typeof TURNS)[number]
export interface TrackThere extends Whole<typeof TRACK_THERE.fields> {}

/** Whether an end of a track joins track that is already laid. */
export function joinsAt({ joinsExisting }: Pick<WholeTrack, 'joinsExisting'>, end: 'start' | 'end'): boolean {
  return Boolean(joinsExisting?.[end])
}

/** What lies beyond an end of a track; null where the plan does not say. */
export function thereAt({ joinsExisting }: Pick<WholeTrack, 'joinsExisting'>, end: 'start' | 'end'): TrackThere | null {
  const there = joinsExisting?.[end]
  return typeof there === 'object' ? there : null
}
