import type { Open, Whole } from '../fields/field.ts'
import {
  atMostOneOf,
  choice,
  count,
  exactlyOneOf,
  length,
  name,
  number,
  part,
  price,
  shape,
  variants,
} from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'
import { massEachG, spare } from './supplies.ts'
import { onHand, packSize, priceOfPack } from './words.ts'

/* Ballast, power, and other things on the shopping list. */

/** Bought as it is needed: that there is none on hand is no assumption. */
const NONE = { value: 0, because: null }

const BALLAST_BAG = shape(
  'BallastBag',
  'A bag by its volume or by its mass; onHand counts bags.',
  {
    volumeL: number({
      component: 'Litres',
      least: 1e-3,
      most: LIMITS.pieces,
      unit: 'in litres',
      says: 'A volume, L',
      label: 'A bag holds, litres',
      called: 'litres',
    }),
    massKg: number({
      component: 'Kilograms',
      least: 1e-3,
      most: LIMITS.pieces,
      unit: 'in kg',
      says: 'A mass, kg',
      label: 'or kilograms',
      hint: 'both blank: bought loose',
      called: 'kilograms',
    }),
    price: priceOfPack('Price of a bag'),
    onHand: { ...onHand('Bags on hand'), usual: NONE },
    sparePct: spare('Spare, percent'),
  },
  exactlyOneOf('volumeL', 'massKg'),
)

const TIE_SIZE = shape(null, undefined, {
  length: length({ required: true, label: 'Length of a tie' }),
  width: length({ required: true, label: 'Width of a tie' }),
  height: length({ required: true, label: 'Height of a tie' }),
})

export const ROADBED = shape(
  'Roadbed',
  'The bed of ballast, the same under all tracks: crownWidth at its top, depthUnderTie from the bottoms of the ties down. Without bag it is bought loose, by the litre.',
  {
    kind: choice({
      component: 'RoadbedKind',
      required: true,
      words: { raised: 'Heaped up, raised bed', trench: 'Filled into a trench' },
      what: 'a kind of roadbed',
      says: 'Heaped up on the ground, or filled into a trench',
      label: 'Ballast',
    }),
    crownWidth: length({ required: true, label: 'Width at the top' }),
    depthUnderTie: length({ required: true, label: 'Depth under the ties' }),
    shoulderSlope: number({
      component: 'ShoulderSlope',
      least: 0,
      most: 20,
      unit: 'alone',
      follows: '1.25; a trench 0',
      says: 'Run over rise of the sides: 1.25 stands for 1:1.25. A raised bed widens downwards, a trench narrows; 1.25 for a raised bed and 0 for a trench when left out',
      label: 'Slope of the sides, run to 1',
      called: 'slope of the sides',
    }),
    filledTo: choice({
      component: 'FilledTo',
      words: { 'tie-top': 'The tops of the ties', 'tie-bottom': 'Their bottoms' },
      what: 'a height',
      follows: 'the tops of the ties; in a trench their bottoms',
      says: 'How far up the ballast goes: to the tops of the ties in a raised bed, to their bottoms in a trench when left out',
      label: 'Ballast goes up to',
    }),
    tie: part(TIE_SIZE, {
      note: 'One tie: what it takes up of the bed. Needed where ballast goes up to the tops.',
      label: 'Size of a tie',
    }),
    shrinkagePct: number({
      component: 'ShrinkagePct',
      least: 0,
      most: 90,
      unit: 'in percent',
      usual: 15,
      because: 'loose ballast settles by 12 to 15 % (MIL-HDBK-1005/6)',
      sign: ' %',
      says: 'By how much of itself loose ballast settles, percent',
      label: 'Settles by, percent',
    }),
    densityKgM3: number({
      component: 'BallastDensityKgM3',
      least: 1,
      most: 30_000,
      unit: 'in kg/m³',
      usual: 1600,
      because: 'loose crushed stone, common practice',
      sign: ' kg/m³',
      says: 'Of loose ballast, kg/m³',
      label: 'Weight when loose, kg/m³',
    }),
    bag: part(BALLAST_BAG, { label: 'How ballast is sold' }),
  },
)

/** Run over rise of the sides of a raised bed (NEM 122). */
export const RAISED_SLOPE = 1.25

const FEEDER = shape(
  'Feeder',
  'The copper wire from the supply to the rails: awg or areaMm2; length is one way, a feeder takes it twice. Price and onHand are of single wire.',
  {
    awg: count({
      component: 'Awg',
      least: 0,
      most: 40,
      says: 'Size by the American wire gauge',
      label: 'Feeder wire, gauge (AWG)',
    }),
    areaMm2: number({
      component: 'WireAreaMm2',
      least: 0.001,
      most: 1000,
      unit: 'in mm²',
      says: 'Cross-section of one conductor, mm²',
      label: 'or section, mm²',
    }),
    length: length({ required: true, label: 'Supply to rails', hint: 'one way' }),
    pricePerM: price({ label: 'Price of a metre', hint: 'single wire' }),
    onHand: length({ may: 'zero or more', usual: 0, label: 'Wire on hand', hint: 'single wire' }),
    sparePct: spare('Spare, percent'),
  },
  exactlyOneOf('awg', 'areaMm2'),
)

export const POWER_SUPPLY = shape(
  'PowerSupply',
  'Current that comes to the trains through the rails.',
  {
    currentA: number({
      component: 'CurrentA',
      required: true,
      least: 1e-3,
      most: 1000,
      unit: 'in amperes',
      says: 'The most the trains draw at once, A',
      label: 'Trains draw, amperes',
      blank: 'battery, steam, or not asked for',
    }),
    supplyVoltageV: number({
      component: 'SupplyVoltageV',
      least: 0.1,
      most: 1000,
      unit: 'in volts',
      usual: 18,
      because: 'common practice',
      sign: ' V',
      says: 'At the supply, V',
      label: 'Supply, volts',
    }),
    maximumDropPct: number({
      component: 'MaximumDropPct',
      least: 1e-3,
      most: 99,
      unit: 'in percent',
      usual: 5,
      because: 'the usual limit, common practice',
      sign: ' %',
      says: "What may be lost on the way to the train, percent of the supply's voltage",
      label: 'May lose, percent',
    }),
    maximumDropV: number({
      component: 'MaximumDropV',
      least: 1e-3,
      most: 1000,
      unit: 'in volts',
      says: 'The same in volts',
      label: 'or volts',
    }),
    jointResistanceOhm: number({
      component: 'JointResistanceOhm',
      least: 0,
      most: 1000,
      unit: 'in ohms',
      usual: 0,
      because: 'joints are assumed to conduct as well as the rail; measure one',
      sign: ' Ω',
      says: 'Of one joint of one rail, Ω',
      label: 'One joint of a rail, ohms',
    }),
    feeder: part(FEEDER, { label: 'Feeders' }),
  },
  atMostOneOf('maximumDropV', 'maximumDropPct'),
)

const noPower = choice({
  component: 'NoPower',
  words: { none: 'None' },
  what: 'a kind of power',
  says: 'Battery, steam or clockwork: no current in the rails',
})

export const POWER = variants('Power', [noPower, POWER_SUPPLY] as const, (value) => (typeof value === 'string' ? 0 : 1))

export const EXTRA = shape('Extra', 'Anything else for the list.', {
  item: name({
    component: 'ExtraItem',
    required: true,
    longest: 200,
    says: 'What it is, as it shall stand on the bill',
    label: 'Item',
  }),
  per: choice({
    component: 'ExtraPer',
    required: true,
    words: { m: 'for each metre of track', each: 'in all' },
    what: 'a measure',
    says: 'm: quantity is for each metre of track, centre line; each: it is for the whole plan',
    label: 'Counted',
  }),
  quantity: number({
    component: 'ExtraQuantity',
    required: true,
    least: 0,
    most: LIMITS.pieces,
    unit: 'alone',
    says: 'How many; the sum is rounded up',
    label: 'How many',
  }),
  price: priceOfPack(),
  packSize: packSize('Pack of'),
  onHand: onHand(),
  sparePct: spare(),
  massEachG,
})

export type Roadbed = Whole<typeof ROADBED.fields>
export type RoadbedInput = Open<typeof ROADBED.fields>
export type PowerSupply = Whole<typeof POWER_SUPPLY.fields>
export type PowerInput = Open<typeof POWER_SUPPLY.fields>
export type Extra = Whole<typeof EXTRA.fields>
