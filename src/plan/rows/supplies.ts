import { MM_PER_FOOT } from '../../measure/length.ts'
import type { Open, OpenItem, Whole, WholeItem } from '../fields/field.ts'
import {
  atMostOneOf,
  choice,
  count,
  currency,
  flag,
  length,
  list,
  name,
  number,
  part,
  price,
  radiusOrDiameter,
  shape,
  variants,
} from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'
import { railPartLabel } from './parts.ts'
import { hasField } from './rail.ts'
import { buyable, onHand, packSize, priceOfPack } from './words.ts'

/* What can be bought, what lies in the shed, and how it is cut. */

const sparePct = (label = 'Spares, %') =>
  number({
    component: 'SparePct',
    least: 0,
    most: 100,
    unit: 'in percent',
    usual: 0,
    says: 'Spares to buy, percent of what is required, rounded up to whole pieces. None when left out',
    label,
    called: 'spares',
  })

export const spare = sparePct

export const massEachG = number({
  component: 'MassEachG',
  least: 1e-6,
  most: LIMITS.pieces,
  unit: 'in grams',
  says: 'Mass of one piece, g',
})

const pack = {
  packSize: packSize('Pack size'),
  pricePerPack: priceOfPack(),
  onHand: onHand(),
  sparePct: sparePct(),
  massEachG,
}

/** A thing that is counted singly and sold in packs. */
export const PACK = shape('Pack', 'Parts that are counted singly and sold in packs.', pack)

export const tieCountSpec = {
  component: 'TieCount',
  required: true,
  least: 1,
  most: LIMITS.pieces,
  says: 'Number of ties',
} as const

const TIE_STRIP = shape(
  'TieStrip',
  'Ties moulded together, sold in strips and cut as needed. onHand and massEachG are for strips.',
  {
    ties: count({ ...tieCountSpec, label: 'Ties per strip', blank: 'ties are sold singly' }),
    price: priceOfPack('Price per pack of strips'),
    packSize: packSize('Strips per pack'),
    onHand: onHand('Strips on hand'),
    sparePct: sparePct('Spare strips, %'),
    massEachG,
  },
)

export const TIES = shape(
  'Ties',
  'Ties, their spacing and their fasteners. If ties are sold in strips, give strip in place of the fields of a pack.',
  {
    ...pack,
    spacing: length({
      component: 'TieSpacing',
      usual: 45,
      because: 'not given; centre to centre',
      says: 'Distance between ties, centre to centre',
      label: 'Tie spacing',
      hint: 'centre to centre',
    }),
    perLength: part(
      shape(null, undefined, {
        count: count({
          ...tieCountSpec,
          label: 'Number of ties',
          hint: 'instead of the spacing',
        }),
        length: length({ required: true, label: 'Per length of', called: 'length' }),
      }),
      {
        note: 'Number of ties in a given length, such as 24 in 39 ft; in place of spacing.',
        label: 'Ties per length',
      },
    ),
    strip: part(TIE_STRIP, { label: 'Tie strips' }),
    fastenersPerTie: count({
      component: 'FastenersPerTie',
      least: 0,
      most: 100,
      usual: 4,
      because: 'two per rail and tie, common practice',
      says: 'Spikes or screws in each tie',
      label: 'Fasteners per tie',
    }),
    jointTies: flag({
      usual: false,
      note: 'true: ties are added so that every joint lies between two ties, each within half a spacing of it. No ties are added when left out.',
      label: 'Add ties where needed on both sides of each joint',
    }),
  },
  atMostOneOf('perLength', 'spacing'),
  ...Object.keys(pack).map((field) => atMostOneOf(field, 'strip')),
)

export const STICK = shape('Stick', 'A length of rail that can be bought or is on hand. The price is for one pack.', {
  length: length({ required: true, label: 'Stick length' }),
  price: priceOfPack(),
  packSize: packSize('Sticks per pack'),
  onHand: onHand(),
  buyable,
})

const LONG_TIE = shape(
  'LongTie',
  'Ties of one length for turnouts that are built by hand. The price is for one pack.',
  {
    length: length({ required: true, label: 'Length of the ties' }),
    ...pack,
  },
)

const ofAnyPanel = {
  name: name({
    component: 'PanelName',
    longest: 100,
    says: 'Name of the piece, in addition to its size',
    label: 'Name',
  }),
  ties: count({
    component: 'PanelTies',
    least: 0,
    most: 100_000,
    usual: 0,
    because: 'two rails without ties',
    says: 'Ties that come with one piece',
    label: 'Ties included',
  }),
  joiners: count({
    component: 'PanelJoiners',
    least: 0,
    most: 1_000,
    usual: 0,
    because: 'none in the pack',
    says: 'Joiners that come with one piece',
    label: 'Joiners included',
  }),
  price: priceOfPack(),
  packSize: packSize('Pieces per pack'),
  onHand: onHand(),
  buyable,
  massEachG,
}

const STRAIGHT_PANEL = shape('StraightPanel', 'A straight piece of ready-made track, given by its length.', {
  length: length({ required: true, label: 'Length' }),
  ...ofAnyPanel,
})

export const panelAngleSpec = {
  component: 'PanelAngle',
  least: 1e-3,
  most: 360,
  outside: 'the angle one piece turns through',
  unit: 'in degrees',
  says: 'The angle one curved piece turns through, degrees',
  label: 'Angle °',
  called: 'angle',
} as const

const CURVED_PANEL = shape(
  'CurvedPanel',
  'A curved piece of ready-made track, given by radius or diameter of its centre line and its angle. It can be laid as a left or a right curve.',
  {
    radius: radiusOrDiameter({ required: true, label: 'or curve size', called: 'curve size' }),
    angle: number({ ...panelAngleSpec, required: true }),
    ...ofAnyPanel,
  },
)

export const PANEL = variants(
  'Panel',
  [STRAIGHT_PANEL, CURVED_PANEL] as const,
  (value) => (hasField(value, 'radius', 'diameter', 'angle') ? 1 : 0),
  'A piece of ready-made track in the rail of the plan, straight or of one radius, with or without ties. The price is for one pack.',
)

/** Joiners may be sold two and two. */
const JOINERS = shape('Joiners', 'Rail joiners, counted singly.', {
  ...pack,
  pieces: count({
    component: 'JoinersInPiece',
    least: 1,
    most: 100,
    usual: 1,
    says: 'How many joiners one piece in a pack is: 2 where a pack holds pairs. Everything else counts joiners one by one',
    label: 'Joiners per piece',
    hint: '2 if joiners are sold in pairs',
  }),
  length: length({
    component: 'JoinerLength',
    may: 'zero or more',
    usual: 30,
    because: 'a joiner of usual length, common practice, no source',
    says: 'Length of a joiner along the rail. Joints stay half of it away from stretches without joints',
    label: 'Joiner length',
    hint: 'along the rail',
  }),
})

const FIVE_FEET_MM = 5 * MM_PER_FOOT

const BRIDGES = shape(
  'Bridges',
  'Bridges where a track passes over another: one on the bill for each, as long as its clear span along the upper track.',
  {
    pricePerM: price({
      label: 'Price per metre of bridge',
      hint: 'clear span, with ties and deck',
    }),
  },
)

export const SUPPLIES = shape('Supplies', 'What can be bought, what is on hand, and how rail is cut.', {
  currency: currency({
    component: 'Currency',
    usual: 'USD',
    because: 'not given',
    says: 'Currency of all prices, ISO 4217 code',
    label: 'Currency',
    hint: 'three letters',
  }),
  taxRatePct: number({
    component: 'TaxRatePct',
    least: 0,
    most: 100,
    unit: 'in percent',
    says: 'Tax added to all prices, percent; no tax is worked out when left out',
    label: 'Tax, %',
    hint: 'added to all prices',
    blank: 'none',
    called: 'tax',
  }),
  sticks: list(STICK, {
    least: 1,
    most: LIMITS.stickLengths,
    usual: [{ length: FIVE_FEET_MM, price: null, packSize: 1, onHand: 0, buyable: true }],
    because: 'no sticks given',
    shown: 'one length of 5 ft (1524 mm), sold singly, none on hand, unpriced',
    label: 'Sticks',
    entry: 'stick',
  }),
  panels: list(PANEL, { most: LIMITS.panels, label: 'Ready-made pieces', entry: 'ready-made piece' }),
  readyMade: choice({
    component: 'ReadyMade',
    words: { cheapest: 'Where it is cheaper', always: 'Wherever it fits', never: 'Never' },
    what: 'a choice',
    usual: 'cheapest',
    because: 'ready-made pieces where the bill is lower',
    says: 'Where to use ready-made pieces in place of loose rail: where that makes the bill lower, wherever one fits, or never',
    label: 'Use ready-made track',
    called: 'ready-made track',
  }),
  joiners: part(JOINERS, { always: true, label: railPartLabel('joiners', 'many') }),
  transitionJoiners: part(PACK, { always: true, label: railPartLabel('transitionJoiners', 'many') }),
  ties: part(TIES, { always: true, label: 'Ties' }),
  fasteners: part(PACK, { always: true, label: 'Fasteners' }),
  longTies: list(LONG_TIE, {
    most: LIMITS.stickLengths,
    note: 'Lengths in which long ties are sold or on hand. Each tie of a turnout that is built by hand is cut from the shortest that is long enough; those longer than all of them are on the bill without a price.',
    label: 'Long ties for turnouts',
    entry: 'length of long tie',
  }),
  throws: part(PACK, {
    note: 'Throws that move the points. Where it is given, the bill has one for each turnout of new track.',
    label: 'Throws for turnouts',
  }),
  frogSwitches: part(PACK, {
    note: 'Switches that are thrown with the points and feed a live frog; see frog of turnoutTypes.',
    label: 'Switches for live frogs',
  }),
  insulatedJoiners: part(PACK, { always: true, label: railPartLabel('insulatedJoiners', 'many') }),
  expansionJoints: part(PACK, { always: true, label: railPartLabel('expansionJoints', 'many') }),
  bridges: part(BRIDGES, { label: 'Bridges' }),
  cutting: choice({
    component: 'CuttingStyle',
    words: { 'whole-sticks': 'Whole sticks, few saw cuts', 'even-pieces': 'Pieces as even as possible' },
    what: 'a way to cut',
    usual: 'whole-sticks',
    because: 'whole sticks need the fewest saw cuts',
    says: 'Which of the plans that cost least, with the fewest joints, is taken: the one with the fewest sawn ends and the longest offcuts, or the one whose shortest piece is longest',
    label: 'How to cut',
    called: 'way to cut',
  }),
  kerf: length({
    component: 'Kerf',
    may: 'zero or more',
    usual: 1,
    because: 'a thin saw or cutting disc',
    says: 'Width of a saw cut',
    label: 'Saw cut width (kerf)',
  }),
  minimumPiece: length({
    component: 'MinimumPiece',
    may: 'zero or more',
    usual: 150,
    because: 'shorter pieces do not stay in line',
    says: 'Length of the shortest piece of rail to lay',
    label: 'Shortest rail piece',
  }),
})

export interface Pack extends Whole<typeof PACK.fields> {}
export interface Stick extends Whole<typeof STICK.fields> {}
export interface StickInput extends Open<typeof STICK.fields> {}
export interface Ties extends Whole<typeof TIES.fields> {}
export interface TiesInput extends Open<typeof TIES.fields> {}
export type Panel = WholeItem<typeof PANEL>
export type PanelInput = OpenItem<typeof PANEL>
export interface Supplies extends Whole<typeof SUPPLIES.fields> {}
export interface SuppliesInput extends Open<typeof SUPPLIES.fields> {}
