import type { Open, Whole } from '../fields/field.ts'
import { choice, flag, length, shape, temperature, temperatureDifference } from '../fields/kinds.ts'

/* The weather, and what joints can take. Usual values: common practice, no source. */

export const CLIMATE = shape(
  'Climate',
  'The temperature of the rail when it is laid, and the lowest and highest temperature of the air. From these the gap in every joint is worked out, and pieces are cut shorter by it.',
  {
    laying: temperature({
      required: true,
      label: 'Rail temperature when laid',
      hint: 'in °C, or with a unit: 65 F',
    }),
    coldest: temperature({ required: true, label: 'Lowest air temperature' }),
    hottest: temperature({ required: true, label: 'Highest air temperature' }),
    sunAllowance: temperatureDifference({
      component: 'SunAllowance',
      usual: 20,
      because: 'rail in the sun is hotter than the air, common practice, no source',
      says: 'How much hotter than the air rail in the sun gets',
      label: 'Added by the sun',
      hint: 'rail above air temperature, for example 36 F',
    }),
  },
)

export const JOINTS = shape('Joints', 'How rail is joined, and the limits of the joints.', {
  arrangement: choice({
    component: 'JointsArrangement',
    words: { staggered: 'Staggered', square: 'Square: opposite each other' },
    what: 'an arrangement of joints',
    usual: 'staggered',
    says: 'How the joints of the two rails lie: staggered, or square (opposite each other, as in assembled track)',
    label: 'Joint arrangement',
  }),
  stagger: length({
    component: 'Stagger',
    may: 'zero or more',
    says: 'Smallest distance along the track between joints of the two rails. No minimum when left out',
    label: 'Minimum stagger',
    hint: 'along the track',
    blank: 'no minimum',
    called: 'stagger',
  }),
  betweenTies: flag({
    usual: false,
    note: 'true: joints lie midway between two ties, counted from a first tie at station 0. false when left out.',
    label: 'Every joint midway between two ties',
  }),
  kind: choice({
    component: 'JointsKind',
    words: { sliding: 'Sliding joiners', clamped: 'Rigid clamps' },
    what: 'a kind of joints',
    usual: 'sliding',
    because: 'sliding joiners, common practice, no source',
    says: 'Joiners in which the rail slides, or rigid clamps',
    label: 'Joint type',
  }),
  held: flag({
    usual: false,
    note: 'true: clamped rail is held and cannot move. false when left out: it floats.',
    label: 'Clamped rail is held in place',
    called: 'clamped rail held in place',
  }),
  gapLimit: length({
    component: 'GapLimit',
    may: 'zero or more',
    usual: 2.5,
    because: 'the widest gap a joiner can take, common practice, no source',
    says: 'The widest gap that a joiner allows',
    label: 'Maximum gap at a joiner',
  }),
  expansionJointLimit: length({
    component: 'ExpansionJointLimit',
    may: 'zero or more',
    usual: 10,
    because: 'the widest gap an expansion joint can take, common practice, no source',
    says: 'The widest gap that an expansion joint allows',
    label: 'Maximum gap at an expansion joint',
  }),
  insulatorThickness: length({
    component: 'InsulatorThickness',
    may: 'zero or more',
    usual: 1,
    because: 'space an insulated joiner keeps between rail ends, common practice, no source',
    says: 'Thickness of an insulated joiner between the rail ends',
    label: 'Insulator thickness',
  }),
})

export interface ClimateInput extends Open<typeof CLIMATE.fields> {}
export interface Climate extends Whole<typeof CLIMATE.fields> {}
export interface JointsInput extends Open<typeof JOINTS.fields> {}
export interface Joints extends Whole<typeof JOINTS.fields> {}
