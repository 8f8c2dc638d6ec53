import type { Open, Whole } from '../fields/field.ts'
import { choice, flag, length, shape, temperature, temperatureDifference } from '../fields/kinds.ts'

/* The weather, and what joints can take. Usual values: common practice, no source. */

export const CLIMATE = shape(
  'Climate',
  'The rail’s temperature when it is laid, and the coldest and hottest the air gets there. With it the gap in every joint is told, and taken off the pieces.',
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
      says: 'By how much rail in the sun is hotter than the air',
      label: 'Added by the sun',
      hint: 'rail above air temperature, for example 36 F',
    }),
  },
)

export const JOINTS = shape('Joints', 'How rail is joined, and what its joints can take.', {
  arrangement: choice({
    component: 'JointsArrangement',
    words: { staggered: 'Staggered', square: 'Square: opposite each other' },
    what: 'an arrangement of joints',
    usual: 'staggered',
    says: 'square: the joints of the two rails opposite each other, as assembled track has them',
    label: 'Joint arrangement',
  }),
  stagger: length({
    component: 'Stagger',
    may: 'zero or more',
    says: 'How far along the track the joints of the two rails are kept apart. Not kept apart when left out',
    label: 'Minimum stagger',
    hint: 'along the track',
    blank: 'no minimum',
    called: 'stagger',
  }),
  betweenTies: flag({
    usual: false,
    note: 'Joints lie midway between two ties, the first tie at station 0. No when left out.',
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
    note: 'Clamped rail is kept from moving altogether, not left to float.',
    label: 'Clamped rail is held in place',
    called: 'clamped rail held in place',
  }),
  gapLimit: length({
    component: 'GapLimit',
    may: 'zero or more',
    usual: 2.5,
    because: 'the widest gap a joiner can take, common practice, no source',
    says: 'The widest gap a joiner can take',
    label: 'Maximum gap at a joiner',
  }),
  expansionJointLimit: length({
    component: 'ExpansionJointLimit',
    may: 'zero or more',
    usual: 10,
    because: 'the widest gap an expansion joint can take, common practice, no source',
    says: 'The widest gap an expansion joint can take',
    label: 'Maximum gap at an expansion joint',
  }),
  insulatorThickness: length({
    component: 'InsulatorThickness',
    may: 'zero or more',
    usual: 1,
    because: 'space an insulated joiner keeps between rail ends, common practice, no source',
    says: 'What an insulated joiner keeps between the rail ends',
    label: 'Insulator thickness',
  }),
})

export interface ClimateInput extends Open<typeof CLIMATE.fields> {}
export interface Climate extends Whole<typeof CLIMATE.fields> {}
export interface JointsInput extends Open<typeof JOINTS.fields> {}
export interface Joints extends Whole<typeof JOINTS.fields> {}
