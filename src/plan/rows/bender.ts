import type { Open, Whole } from '../fields/field.ts'
import { atMostOneOf, choice, length, number, part, shape } from '../fields/kinds.ts'

/* What one bends with. */

const handLimit = 'limit for even bending by hand, common practice'
const springLimit = 'limit for springing rail in, common practice, no source'

/** What people and ties can be asked to do; every figure can be overridden. Common practice, no source. */
export const METHOD_LIMITS = shape(null, undefined, {
  overbendRatio: number({
    component: 'OverbendLimit',
    least: 1e-9,
    most: 1e6,
    unit: 'alone',
    usual: 2,
    because: handLimit,
    shown: 'overbend ratio up to 2',
    says: 'Largest overbending that can be done evenly by hand: the ratio of bent to remaining curvature',
    label: 'Overbend ratio',
  }),
  grip: length({
    usual: 300,
    because: handLimit,
    shown: 'hands 300 mm apart',
    label: 'Distance between hands',
  }),
  handForceN: number({
    component: 'HandForceLimit',
    least: 1e-9,
    most: 1e6,
    unit: 'in newtons',
    usual: 100,
    because: handLimit,
    shown: '100 N from each hand',
    says: 'Comfortable force of one hand, N',
    label: 'Force per hand, N',
    called: 'force per hand',
  }),
  jointFlat: length({
    usual: 2,
    because: handLimit,
    shown: '2 mm off the curve at a joint',
    label: 'Allowed deviation at a joint',
  }),
  setShare: number({
    component: 'SetShareLimit',
    least: 0,
    most: 1,
    unit: 'alone',
    usual: 0.1,
    because: springLimit,
    shown: 'rail sprung in keeps up to a tenth of the curvature',
    says: 'Largest share of the curvature that rail may keep when it is sprung in; beyond it the rail is bent, not sprung',
    label: 'Share that may set when sprung in',
    hint: '0.1 is a tenth of the curvature',
    called: 'share that may set',
  }),
  tieForceN: number({
    component: 'TieForceLimit',
    least: 1e-9,
    most: 1e6,
    unit: 'in newtons',
    usual: 60,
    because: springLimit,
    shown: '60 N on a tie',
    says: 'Sideways force of one rail that a tie and its fasteners hold, N',
    label: 'Force a tie holds, N',
    hint: 'sideways, from one rail',
    called: 'force a tie holds',
  }),
  jointForceN: number({
    component: 'JointForceLimit',
    least: 1e-9,
    most: 1e6,
    unit: 'in newtons',
    usual: 20,
    because: springLimit,
    shown: '20 N at a joint with set ends',
    says: 'Sideways force of a sprung rail end, set to the radius, that keeps a joint from kinking, N',
    label: 'Force at a joint with set ends, N',
    called: 'force at a joint',
  }),
})

export const BENDER = shape(
  'Bender',
  'How the rail is bent. For a roller bender give span, outerRollerRadius, bearsOn and mode together.',
  {
    work: choice({
      component: 'BenderWork',
      words: { 'loose-rail': 'Loose rail', assembled: 'Assembled track, both rails together' },
      what: 'a kind of work',
      usual: 'loose-rail',
      because: 'rail is bent before it is laid on its ties',
      says: 'What is bent: loose rail, or assembled track with both rails at once',
      label: 'What is bent',
    }),
    span: length({ label: 'Roller span', hint: 'between the centres of the outer rollers' }),
    outerRollerRadius: length({
      may: 'zero or more',
      label: 'Outer roller radius',
      hint: '0 for knife edges',
    }),
    bearsOn: choice({
      component: 'BearsOn',
      words: { head: 'Head', web: 'Web', foot: 'Foot' },
      what: 'a part of the rail',
      says: 'The part of the rail that the rollers touch',
      label: 'Rollers bear on',
    }),
    mode: choice({
      component: 'BenderMode',
      words: { rolled: 'Rolled: drawn through under load', pressed: 'Pressed step by step' },
      what: 'a way of bending',
      says: 'How the bender works: rolled (drawn through under load), or pressed (pressed, then moved on)',
      label: 'Bending method',
    }),
    maxPerPass: length({ label: 'Largest depth step per pass', blank: 'all in one pass' }),
    screwPitch: length({ label: 'Screw pitch', blank: 'turns are not shown' }),
    turnsPerInch: number({
      component: 'TurnsPerInch',
      least: 0.1,
      most: 1000,
      unit: 'per inch',
      says: 'Turns of the screw that move it by one inch; instead of screwPitch',
      label: 'or turns of the screw per inch',
      called: 'turns per inch',
      blank: 'turns are not shown',
    }),
    ends: choice({
      component: 'BenderEnds',
      words: {
        trim: 'Cut off',
        'finish-by-hand': 'Finished by hand',
        'join-and-roll-through': 'Sticks joined first, then rolled through',
      },
      what: 'a way to treat the ends',
      usual: 'finish-by-hand',
      because: 'rollers leave half their span straight at each end',
      says: 'What to do with the half span at each end that rollers leave straight',
      label: 'Straight ends left by the rollers',
    }),
    fixedEnd: choice({
      component: 'FixedEnd',
      words: { start: 'Start', end: 'End' },
      what: 'an end',
      usual: 'start',
      because: 'the inner rail creeps out at the end',
      says: 'For assembled track: the end at which both rails are held',
      label: 'Fixed end of assembled track',
      hint: 'the inner rail creeps out at the other end',
      called: 'fixed end',
    }),
    limits: part(METHOD_LIMITS, {
      always: true,
      note: 'Limits of bending by hand and of springing in.',
      label: 'Limits for bending by hand and springing in',
    }),
  },
  atMostOneOf('screwPitch', 'turnsPerInch'),
)

/** The figures that make a roller bender: all or none of them are given (see faults/rail.ts). */
export const ROLLER_FIELDS = ['span', 'outerRollerRadius', 'bearsOn', 'mode'] as const
/** What means nothing without those. */
export const OF_ROLLERS = ['maxPerPass', 'screwPitch', 'turnsPerInch', 'ends'] as const

export type BenderInput = Open<typeof BENDER.fields>
export type WholeBender = Whole<typeof BENDER.fields>
export type MethodLimits = Whole<typeof METHOD_LIMITS.fields>
