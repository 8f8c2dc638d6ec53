import type { Open, Whole } from '../fields/field.ts'
import { choice, flag, length, shape, temperature, temperatureDifference } from '../fields/kinds.ts'

/* The weather, and what joints can take. Usual values: common practice, no source. */

export const CLIMATE = shape(
  'Climate',
  'The rail’s temperature when it is laid, and the coldest and hottest the air gets there. With it the gap in every joint is told, and taken off the pieces.',
  {
    laying: temperature({
      required: true,
      label: 'The rail, when you lay it',
      hint: 'in °C, or with its unit: 65 F',
      called: 'the rail when laid',
    }),
    coldest: temperature({ required: true, label: 'Coldest the air gets' }),
    hottest: temperature({ required: true, label: 'Hottest the air gets' }),
    sunAllowance: temperatureDifference({
      component: 'SunAllowance',
      usual: 20,
      because: 'rail in the sun is hotter than the air, common practice, no source',
      says: 'By how much rail in the sun is hotter than the air',
      label: 'Hotter in the sun by',
      hint: 'such as 36 F',
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
    label: 'Joints of the two rails',
  }),
  stagger: length({
    component: 'Stagger',
    may: 'zero or more',
    says: 'How far along the track the joints of the two rails are kept apart. Not kept apart when left out',
    label: 'Stagger, at least',
    hint: 'along the track',
    blank: 'they lie as they fall',
    called: 'stagger',
  }),
  betweenTies: flag({
    usual: false,
    note: 'Joints lie midway between two ties, the first tie at station 0. No when left out.',
    label: 'Each joint lies midway between two ties',
  }),
  kind: choice({
    component: 'JointsKind',
    words: { sliding: 'Joiners that slide', clamped: 'Rigid clamps' },
    what: 'a kind of joints',
    usual: 'sliding',
    because: 'sliding joiners, common practice, no source',
    says: 'Joiners in which the rail slides, or rigid clamps',
    label: 'How rails are joined',
  }),
  held: flag({
    usual: false,
    note: 'Clamped rail is kept from moving altogether, not left to float.',
    label: 'Clamped rail is held and cannot move',
    called: 'rail is held',
  }),
  gapLimit: length({
    component: 'GapLimit',
    may: 'zero or more',
    usual: 2.5,
    because: 'the widest gap a joiner can take, common practice, no source',
    says: 'The widest gap a joiner can take',
    label: 'Widest gap of a joiner',
  }),
  expansionJointLimit: length({
    component: 'ExpansionJointLimit',
    may: 'zero or more',
    usual: 10,
    because: 'the widest gap an expansion joint can take, common practice, no source',
    says: 'The widest gap an expansion joint can take',
    label: 'Widest gap of an expansion joint',
  }),
  insulatorThickness: length({
    component: 'InsulatorThickness',
    may: 'zero or more',
    usual: 1,
    because: 'space an insulated joiner keeps between rail ends, common practice, no source',
    says: 'What an insulated joiner keeps between the rail ends',
    label: 'Thickness of an insulator',
  }),
})

export type ClimateInput = Open<typeof CLIMATE.fields>
export type Climate = Whole<typeof CLIMATE.fields>
export type JointsInput = Open<typeof JOINTS.fields>
export type Joints = Whole<typeof JOINTS.fields>
