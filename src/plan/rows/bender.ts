import type { Open, Whole } from '../fields/field.ts'
import { choice, length, number, part, shape } from '../fields/kinds.ts'

/* What one bends with. */

const whatHandsDo = 'what hands do evenly, common practice'

/** What a person can be asked to do; every figure can be overridden. Common practice, no source. */
export const METHOD_LIMITS = shape(null, undefined, {
  overbendRatio: number({
    component: 'OverbendLimit',
    least: 1e-9,
    most: 1e6,
    unit: 'alone',
    usual: 2,
    because: whatHandsDo,
    shown: 'bent up to 2 times as tight as it stays',
    says: 'Largest overbending that can be done evenly by hand: the ratio of bent to remaining curvature',
    label: 'Bent as many times as tight',
    called: 'overbending',
  }),
  grip: length({
    usual: 300,
    because: whatHandsDo,
    shown: 'hands 300 mm apart',
    label: 'Grip between the hands',
    called: 'grip',
  }),
  handForceN: number({
    component: 'HandForceLimit',
    least: 1e-9,
    most: 1e6,
    unit: 'in newtons',
    usual: 100,
    because: whatHandsDo,
    shown: '100 N of each',
    says: 'Comfortable force of one hand, N',
    label: 'Force of each hand, newtons',
    called: 'force of a hand',
  }),
  jointFlat: length({
    usual: 2,
    because: whatHandsDo,
    shown: '2 mm off the curve at a joint',
    label: 'Off the curve at a joint',
  }),
})

export const BENDER = shape(
  'Bender',
  'How the rail is bent. For a roller bender give span, outerRollerRadius, bearsOn and mode together.',
  {
    work: choice({
      component: 'BenderWork',
      words: { 'loose-rail': 'Loose rail', assembled: 'Assembled track, both rails at once' },
      what: 'a kind of work',
      usual: 'loose-rail',
      because: 'rail is bent before it is laid on its ties',
      says: 'What is bent: loose rail, or assembled track with both rails at once',
      label: 'What is bent',
    }),
    span: length({ label: 'Span of the rollers', hint: 'between the centres of the outer two' }),
    outerRollerRadius: length({
      may: 'zero or more',
      label: 'Radius of the outer rollers',
      hint: '0 for knife edges',
    }),
    bearsOn: choice({
      component: 'BearsOn',
      words: { head: 'The head', web: 'The web', foot: 'The foot' },
      what: 'a part of the rail',
      says: 'The part of the rail that the rollers touch',
      label: 'Rollers bear on',
    }),
    mode: choice({
      component: 'BenderMode',
      words: { rolled: 'Rolled: drawn through under load', pressed: 'Pressed, then moved on' },
      what: 'a way of bending',
      says: 'How the bender works: rolled (drawn through under load), or pressed (pressed, then moved on)',
      label: 'Way of bending',
    }),
    maxPerPass: length({ label: 'Deepest step of a pass', blank: 'all in one pass' }),
    screwPitch: length({ label: 'Pitch of the screw', blank: 'no turns are told' }),
    ends: choice({
      component: 'BenderEnds',
      words: {
        trim: 'Cut off',
        'finish-by-hand': 'Finished by hand',
        'join-and-roll-through': 'Joined first, rolled through',
      },
      what: 'a way to treat the ends',
      usual: 'finish-by-hand',
      because: 'rollers leave half their span straight at each end',
      says: 'What to do with the half span at each end that rollers leave straight',
      label: 'Ends that stay straight',
    }),
    fixedEnd: choice({
      component: 'FixedEnd',
      words: { start: 'Its start', end: 'Its end' },
      what: 'an end',
      usual: 'start',
      because: 'the inner rail creeps out at the end',
      says: 'For assembled track: the end at which both rails are held',
      label: 'Assembled track is held at',
      hint: 'the inner rail creeps out at the other end',
      called: 'end that is held',
    }),
    limits: part(METHOD_LIMITS, {
      always: true,
      note: 'Limits of bending by hand.',
      label: 'Up to where you bend by hand',
      called: 'what hands can do',
    }),
  },
)

/** The figures that make a roller bender: all or none of them are given (see faults/rail.ts). */
export const ROLLER_FIELDS = ['span', 'outerRollerRadius', 'bearsOn', 'mode'] as const

export type BenderInput = Open<typeof BENDER.fields>
export type WholeBender = Whole<typeof BENDER.fields>
export type MethodLimits = Whole<typeof METHOD_LIMITS.fields>
