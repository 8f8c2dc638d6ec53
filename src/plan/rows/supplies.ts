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
  radiusOrDiameter,
  shape,
  variants,
} from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'
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
    says: 'What is bought beyond what is required, percent of it; whole pieces, rounded up. None when left out',
    label,
    called: 'spares',
  })

export const spare = sparePct

export const massEachG = number({
  component: 'MassEachG',
  least: 1e-6,
  most: LIMITS.pieces,
  unit: 'in grams',
  says: 'What one piece weighs, g',
})

const pack = {
  packSize: packSize('Pack size'),
  pricePerPack: priceOfPack(),
  onHand: onHand(),
  sparePct: sparePct(),
  massEachG,
}

/** A thing that is counted singly and sold in packs. */
export const PACK = shape('Pack', 'A thing that is counted singly and sold in packs.', pack)

export const tieCountSpec = {
  component: 'TieCount',
  required: true,
  least: 1,
  most: LIMITS.pieces,
  says: 'A number of ties',
} as const

const TIE_STRIP = shape(
  'TieStrip',
  'Ties moulded together, sold by the strip and cut to what is needed; stock and mass are those of strips.',
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
  'Ties, their spacing centre to centre, and what fastens the rails to them; strip stands in place of the fields of a pack.',
  {
    ...pack,
    spacing: length({
      component: 'TieSpacing',
      usual: 45,
      because: 'not given; centre to centre',
      says: 'Between the middles of neighbouring ties',
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
      { note: 'So many ties to a length, such as 24 to 39 ft; in place of the spacing.', label: 'Ties per length' },
    ),
    strip: part(TIE_STRIP, { label: 'Tie strips' }),
    fastenersPerTie: count({
      component: 'FastenersPerTie',
      least: 0,
      most: 100,
      usual: 4,
      because: 'two a rail a tie, common practice',
      says: 'Spikes or screws in each tie',
      label: 'Fasteners per tie',
    }),
    jointTies: flag({
      usual: false,
      note: 'true: ties are added so that every joint hangs between two, on either side one within half a spacing. None are added when left out.',
      label: 'Add ties where needed on both sides of each joint',
    }),
  },
  atMostOneOf('perLength', 'spacing'),
  ...Object.keys(pack).map((field) => atMostOneOf(field, 'strip')),
)

export const STICK = shape('Stick', 'A length rail is sold in. The price is that of one pack.', {
  length: length({ required: true, label: 'Stick length' }),
  price: priceOfPack(),
  packSize: packSize('Sticks per pack'),
  onHand: onHand(),
  buyable,
})

const ofAnyPanel = {
  name: name({
    component: 'PanelName',
    longest: 100,
    says: 'How it is called, besides its measures',
    label: 'Name',
  }),
  ties: count({
    component: 'PanelTies',
    least: 0,
    most: 100_000,
    usual: 0,
    because: 'two rails without ties',
    says: 'Ties that come with one piece, two rails alone having none',
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

const STRAIGHT_PANEL = shape('StraightPanel', 'A straight piece of ready-made track, by its length.', {
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
  'A curved piece of ready-made track: radius or diameter of its centre line, and its angle. It fits either turn.',
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
  "Two rails of the plan's own rail as one piece, straight or of one radius, with ties or without; the price is that of one pack.",
)

const FIVE_FEET_MM = 5 * MM_PER_FOOT

export const SUPPLIES = shape('Supplies', 'What can be bought, what lies in the shed, and how it is cut.', {
  currency: currency({
    component: 'Currency',
    usual: 'USD',
    because: 'not given',
    says: 'ISO 4217 code of the currency all prices are in',
    label: 'Currency',
    hint: 'three letters',
  }),
  taxRatePct: number({
    component: 'TaxRatePct',
    least: 0,
    most: 100,
    unit: 'in percent',
    says: 'Tax on top of all prices, percent; without it no tax is worked out',
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
    says: 'Whether ready-made pieces take the place of loose rail: where the bill is lower, wherever one fits, or nowhere',
    label: 'Use ready-made track',
    called: 'ready-made track',
  }),
  joiners: part(PACK, { always: true, label: 'Rail joiners' }),
  transitionJoiners: part(PACK, { always: true, label: 'Transition joiners, to another rail section' }),
  ties: part(TIES, { always: true, label: 'Ties' }),
  fasteners: part(PACK, { always: true, label: 'Fasteners' }),
  insulatedJoiners: part(PACK, { always: true, label: 'Insulated joiners' }),
  expansionJoints: part(PACK, { always: true, label: 'Expansion joints' }),
  kerf: length({
    component: 'Kerf',
    may: 'zero or more',
    usual: 1,
    because: 'a thin saw or cutting disc',
    says: 'What one cut takes',
    label: 'Saw cut width (kerf)',
  }),
  minimumPiece: length({
    component: 'MinimumPiece',
    may: 'zero or more',
    usual: 150,
    because: 'shorter pieces hold no line',
    says: 'The shortest piece that is laid',
    label: 'Shortest rail piece',
  }),
})

export type Pack = Whole<typeof PACK.fields>
export type Stick = Whole<typeof STICK.fields>
export type StickInput = Open<typeof STICK.fields>
export type Ties = Whole<typeof TIES.fields>
export type TiesInput = Open<typeof TIES.fields>
export type Panel = WholeItem<typeof PANEL>
export type PanelInput = OpenItem<typeof PANEL>
export type Supplies = Whole<typeof SUPPLIES.fields>
export type SuppliesInput = Open<typeof SUPPLIES.fields>
export type ReadyMadeChoice = Supplies['readyMade']
