import type { Open, Whole } from '../fields/field.ts'
import { choice, flag, length, shape, temperature, temperatureDifference } from '../fields/kinds.ts'

/* The weather, and what joints can take. Usual values: common practice, no source. */

export const CLIMATE = shape(
  'Climate',
  'The temperature of the rail when it is laid, and the lowest and highest temperature of the air. From these the gap in every joint is worked out, and pieces are cut shorter by it.',
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
      says: 'How much hotter than the air rail in the sun gets',
      label: 'Hotter in the sun by',
      hint: 'such as 36 F',
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
    label: 'Joints of the two rails',
  }),
  stagger: length({
    component: 'Stagger',
    may: 'zero or more',
    says: 'Smallest distance along the track between joints of the two rails. No minimum when left out',
    label: 'Stagger, at least',
    hint: 'along the track',
    blank: 'they lie as they fall',
    called: 'stagger',
  }),
  betweenTies: flag({
    usual: false,
    note: 'true: joints lie midway between two ties, counted from a first tie at station 0. false when left out.',
    label: 'Each joint lies midway between two ties',
  }),
  kind: choice({
    component: 'JointsKind',
    words: { sliding: 'Joiners that slide', clamped: 'Rigid clamps' },
    what: 'a kind of joints',
    usual: 'sliding',
    because: 'joiners in which the rail slides, common practice, no source',
    says: 'Joiners in which the rail slides, or rigid clamps',
    label: 'How rails are joined',
  }),
  held: flag({
    usual: false,
    note: 'true: clamped rail is held and cannot move. false when left out: it floats.',
    label: 'Clamped rail is held and cannot move',
    called: 'rail is held',
  }),
  gapLimit: length({
    component: 'GapLimit',
    may: 'zero or more',
    usual: 2.5,
    because: 'the widest gap a joiner can take, common practice, no source',
    says: 'The widest gap that a joiner allows',
    label: 'Widest gap of a joiner',
  }),
  expansionJointLimit: length({
    component: 'ExpansionJointLimit',
    may: 'zero or more',
    usual: 10,
    because: 'the widest gap an expansion joint can take, common practice, no source',
    says: 'The widest gap that an expansion joint allows',
    label: 'Widest gap of an expansion joint',
  }),
  insulatorThickness: length({
    component: 'InsulatorThickness',
    may: 'zero or more',
    usual: 1,
    because: 'what an insulated joiner keeps between the rail ends, common practice, no source',
    says: 'Thickness of an insulated joiner between the rail ends',
    label: 'Thickness of an insulator',
  }),
})

export type ClimateInput = Open<typeof CLIMATE.fields>
export type Climate = Whole<typeof CLIMATE.fields>
export type JointsInput = Open<typeof JOINTS.fields>
export type Joints = Whole<typeof JOINTS.fields>
