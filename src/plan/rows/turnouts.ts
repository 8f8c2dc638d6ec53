import type { Open, OpenItem, Whole, WholeItem } from '../fields/field.ts'
import { choice, exactlyOneOf, length, name, number, only, part, radiusOrDiameter, shape } from '../fields/kinds.ts'
import { buyable, label, onHand, priceOfPack } from './words.ts'

/* Kinds of turnout, and turnouts and crossings as elements of a track. */

const LONGEST_NAME = 100

/** Frogs sharper or flatter than this are not built. */
const frogNumberSpec = {
  component: 'FrogNumber',
  least: 1,
  most: 100,
  unit: 'as a plain number',
  says: 'Number of the frog; numbering says how it counts',
  label: 'Frog number',
  called: 'frog number',
} as const

export const frogNumberField = number(frogNumberSpec)

export const frogAngleField = number({
  component: 'FrogAngle',
  least: 0.3,
  most: 60,
  unit: 'in degrees',
  says: 'An angle of a turnout, degrees',
  label: 'Angle °',
  called: 'angle',
})

export const numberingField = choice({
  component: 'Numbering',
  words: {
    'half-cot': '½ cot F/2 (North America)',
    cot: 'cot F ("1 in N")',
    'half-cosec': '½ cosec F/2',
  },
  what: 'a numbering of frogs',
  usual: 'half-cot',
  says: 'How the frog number N gives the angle F: half-cot, N = ½ cot(F/2); cot, N = cot F ("1 in N"); half-cosec, N = ½ cosec(F/2)',
  label: 'Frog numbering, N =',
})

export const formField = choice({
  component: 'TurnoutForm',
  words: {
    'straight-frog': 'Straight through the frog',
    'curved-frog': 'Curved through the frog',
    'both-curved': 'Both legs curved to one side',
  },
  what: 'a form of turnout',
  usual: 'straight-frog',
  says: 'straight-frog: the diverging leg is straight from the toe of the frog on; curved-frog: one radius through the frog; both-curved: both legs curve to the same side',
  label: 'Form',
})

export const heelSpreadField = length({
  note: 'Distance between the gauge lines of stock rail and switch rail at the heel of the switch.',
  label: 'Heel spread',
})

export const heelAngleField = number({
  component: 'HeelAngle',
  least: 0,
  most: 30,
  unit: 'in degrees',
  says: 'Angle between stock rail and straight switch rail, degrees',
  label: 'Heel angle °',
  called: 'heel angle',
})

export const pointLengthField = length({
  note: 'Length of the switch rail, from the points to the heel.',
  label: 'Switch rail length',
})

export const toeLengthField = length({
  may: 'zero or more',
  note: 'Straight from the toe of the frog to its theoretical point.',
  label: 'Frog toe length',
})

export const outerRadiusField = length({
  note: 'Only with form both-curved: radius of the centre line of the through leg, which curves to the same side.',
  label: 'Radius of the outer leg',
})

const MEASURED = shape(
  'MeasuredTurnout',
  'A turnout as measured. Both legs are taken to end at the same distance from the points.',
  {
    length: length({ required: true, label: 'Length', note: 'From the points to the ends of the legs.' }),
    divergingAngle: number({
      component: 'DivergingAngle',
      required: true,
      least: 0.3,
      most: 90,
      unit: 'in degrees',
      says: 'Angle between the two legs at their ends, degrees',
      label: 'Diverging angle °',
      called: 'diverging angle',
    }),
    divergingOffset: length({
      required: true,
      note: 'Distance of the end of the diverging leg from the straight centre line, square to it.',
      label: 'Diverging offset',
    }),
    radius: radiusOrDiameter({ label: 'Curve size' }),
  },
)

export const TURNOUT_TYPE = shape(
  'TurnoutType',
  'A kind of turnout, used by any number of elements. Its size is given by number, by radius and angle, or by measured; both-curved needs outerRadius, radius and angle. With heel and toe lengths the closure between them is worked out; without them the curve is tangent to the track at the points.',
  {
    id: name({
      component: 'TurnoutTypeId',
      required: true,
      longest: LONGEST_NAME,
      says: 'Name of this kind of turnout, unique in the plan',
      label: 'Name',
    }),
    hand: choice({
      component: 'Hand',
      required: true,
      words: { left: 'Left', right: 'Right', wye: 'Wye' },
      what: 'a hand',
      says: 'Side to which the diverging leg leaves, seen from the points. Of a wye both legs leave by half the angle; the left one is called diverging, the right one through',
      label: 'Hand',
    }),
    number: frogNumberField,
    numbering: numberingField,
    form: formField,
    radius: {
      ...radiusOrDiameter({ label: 'Diverging curve' }),
      note: 'Radius of the centre line of the diverging leg.',
    },
    angle: {
      ...frogAngleField,
      note: 'Angle through which the diverging leg turns; with a straight frog that is the angle of the frog, of a wye the angle between its legs.',
    },
    outerRadius: outerRadiusField,
    heelSpread: heelSpreadField,
    heelAngle: heelAngleField,
    pointLength: pointLengthField,
    toeLength: toeLengthField,
    measured: part(MEASURED, { label: 'As measured' }),
    length: length({
      note: 'Length of the turnout from the points to the ends of its legs, along the through leg. When left out, the legs end where their centre lines are two gauges apart, and of a curved leg with an angle at that angle.',
      label: 'Length',
    }),
    frog: choice({
      component: 'Frog',
      words: { insulated: 'Insulated, not fed', live: 'One piece of metal, fed by itself' },
      what: 'a frog',
      says: 'Only where trains take their power from the rails. live: the frog is one piece of metal, parted from the other rails by insulated joiners and fed through a switch that is thrown with the points, all on the bill; insulated: it needs nothing. Nothing is counted when left out',
      label: 'Frog',
      called: 'frog',
    }),
    price: priceOfPack('Price each'),
    onHand: onHand(),
    buyable: { ...buyable, note: 'False, and none on hand: the turnout is built by hand, and its rails are cut.' },
  },
  exactlyOneOf('number', 'angle', 'measured'),
)

export const TURNOUT = shape(
  'Turnout',
  'A turnout that the track passes through, from end to end of one of its legs.',
  {
    kind: only('turnout', 'Turnout', 'Kind'),
    name: name({
      component: 'TurnoutName',
      required: true,
      longest: LONGEST_NAME,
      says: 'Name of this turnout or crossing, unique in the plan',
      label: 'Name',
    }),
    type: name({
      component: 'TurnoutTypeName',
      required: true,
      longest: LONGEST_NAME,
      says: 'The id of one of turnoutTypes',
      label: 'Kind of turnout',
    }),
    enters: choice({
      component: 'TurnoutEnd',
      required: true,
      words: { points: 'At the points', through: 'By the through leg', diverging: 'By the diverging leg' },
      what: 'an end of a turnout',
      says: 'The end at which the track, from its start on, comes to the turnout',
      label: 'Enters',
    }),
    leaves: choice({
      component: 'TurnoutLeg',
      words: { through: 'By the through leg', diverging: 'By the diverging leg' },
      what: 'a leg of a turnout',
      says: 'The leg by which the track goes on; only if it enters at the points, through when left out',
      label: 'Leaves',
    }),
    label,
  },
)

export const CROSSING = shape(
  'Crossing',
  'A crossing on the level, straight; the other track goes over it, or has a crossing of the same name and angle.',
  {
    kind: only('crossing', 'Crossing', 'Kind'),
    name: name({
      component: 'CrossingName',
      required: true,
      longest: LONGEST_NAME,
      says: 'Name of this crossing; two tracks that cross may each have one of the same name',
      label: 'Name',
    }),
    angle: number({
      component: 'CrossingAngle',
      required: true,
      least: 5,
      most: 90,
      unit: 'in degrees',
      says: 'Angle at which the two tracks cross, degrees',
      label: 'Angle °',
      called: 'angle',
    }),
    label,
  },
)

/** A track that leaves a turnout, or comes to it. */
export const LEG_PLACE = shape('TurnoutLegPlace', 'An end of a turnout.', {
  turnout: name({
    component: 'OtherTurnoutName',
    required: true,
    longest: LONGEST_NAME,
    says: 'Name of a turnout of the plan',
    label: 'Turnout',
  }),
  leg: choice({
    component: 'TurnoutLegEnd',
    required: true,
    words: { through: 'Through leg', diverging: 'Diverging leg', points: 'Points' },
    what: 'an end of a turnout',
    says: 'Which end of the turnout',
    label: 'End of the turnout',
  }),
})

export interface TurnoutTypeInput extends Open<typeof TURNOUT_TYPE.fields> {}
export interface TurnoutType extends Whole<typeof TURNOUT_TYPE.fields> {}
export type TurnoutInput = OpenItem<typeof TURNOUT>
export type Turnout = WholeItem<typeof TURNOUT>
export type TurnoutEnd = Turnout['enters']
export interface LegPlace extends Whole<typeof LEG_PLACE.fields> {}
