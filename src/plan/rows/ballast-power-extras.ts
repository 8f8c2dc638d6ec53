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
  'A bag of ballast, given by volume or mass. price and onHand are for bags.',
  {
    volumeL: number({
      component: 'Litres',
      least: 1e-3,
      most: LIMITS.pieces,
      unit: 'in litres',
      says: 'Volume, L',
      label: 'Bag size, litres',
      called: 'litres',
    }),
    massKg: number({
      component: 'Kilograms',
      least: 1e-3,
      most: LIMITS.pieces,
      unit: 'in kg',
      says: 'Mass, kg',
      label: 'or kilograms',
      hint: 'leave both blank for loose ballast',
      called: 'kilograms',
    }),
    price: priceOfPack('Price per bag'),
    onHand: { ...onHand('Bags on hand'), usual: NONE },
    sparePct: spare('Spares, %'),
  },
  exactlyOneOf('volumeL', 'massKg'),
)

const TIE_SIZE = shape(null, undefined, {
  length: length({ required: true, label: 'Tie length' }),
  width: length({ required: true, label: 'Tie width' }),
  height: length({ required: true, label: 'Tie height' }),
})

export const ROADBED = shape(
  'Roadbed',
  'The ballast, the same under all tracks: crownWidth is its width at the top, depthUnderTie its depth below the bottoms of the ties. It is bought loose, by the litre, unless bag is given.',
  {
    kind: choice({
      component: 'RoadbedKind',
      required: true,
      words: { raised: 'Raised bed', trench: 'In a trench' },
      what: 'a kind of roadbed',
      says: 'raised: heaped up on the ground; trench: filled into a trench',
      label: 'Type of bed',
    }),
    crownWidth: length({ required: true, label: 'Top width' }),
    depthUnderTie: length({ required: true, label: 'Depth under the ties' }),
    shoulderSlope: number({
      component: 'ShoulderSlope',
      least: 0,
      most: 20,
      unit: 'alone',
      follows: '1.25; a trench 0',
      says: 'Slope of the sides, run over rise: 1.25 means 1:1.25. A raised bed gets wider downwards, a trench narrower; 1.25 for a raised bed and 0 for a trench when left out',
      label: 'Side slope, run over rise',
      called: 'side slope',
    }),
    filledTo: choice({
      component: 'FilledTo',
      words: { 'tie-top': 'Tops of the ties', 'tie-bottom': 'Bottoms of the ties' },
      what: 'a height',
      follows: 'the tops of the ties; in a trench their bottoms',
      says: 'How far up the ballast goes; tie-top for a raised bed and tie-bottom for a trench when left out',
      label: 'Ballast up to',
    }),
    tie: part(TIE_SIZE, {
      note: 'Size of a tie, to subtract its volume from the bed. Required if ballast goes up to the tops of the ties.',
      label: 'Tie size',
    }),
    shrinkagePct: number({
      component: 'ShrinkagePct',
      least: 0,
      most: 90,
      unit: 'in percent',
      usual: 15,
      because: 'loose ballast settles by 12 to 15 % (MIL-HDBK-1005/6)',
      sign: ' %',
      says: 'How much loose ballast settles, percent of its volume',
      label: 'Settlement, %',
    }),
    densityKgM3: number({
      component: 'BallastDensityKgM3',
      least: 1,
      most: 30_000,
      unit: 'in kg/m³',
      usual: 1600,
      because: 'loose crushed stone, common practice',
      sign: ' kg/m³',
      says: 'Density of loose ballast, kg/m³',
      label: 'Loose density, kg/m³',
    }),
    bag: part(BALLAST_BAG, { label: 'Ballast bags' }),
  },
)

/** Run over rise of the sides of a raised bed (NEM 122). */
export const RAISED_SLOPE = 1.25

const FEEDER = shape(
  'Feeder',
  'The copper wire from the supply to the rails, given by awg or areaMm2. length is one way; a feeder takes twice that. pricePerM and onHand are for single wire.',
  {
    awg: count({
      component: 'Awg',
      least: 0,
      most: 40,
      says: 'Wire size, American wire gauge',
      label: 'Feeder wire size, AWG',
    }),
    areaMm2: number({
      component: 'WireAreaMm2',
      least: 0.001,
      most: 1000,
      unit: 'in mm²',
      says: 'Cross-section of one conductor, mm²',
      label: 'or cross-section, mm²',
    }),
    length: length({ required: true, label: 'Distance from supply to rails', hint: 'one way' }),
    pricePerM: price({ label: 'Price per metre', hint: 'single wire' }),
    onHand: length({ may: 'zero or more', usual: 0, label: 'Wire on hand', hint: 'single wire' }),
    sparePct: spare('Spares, %'),
  },
  exactlyOneOf('awg', 'areaMm2'),
)

export const POWER_SUPPLY = shape(
  'PowerSupply',
  'Power that the trains take from the rails.',
  {
    currentA: number({
      component: 'CurrentA',
      least: 1e-3,
      most: 1000,
      unit: 'in amperes',
      says: 'Largest current the trains draw together, A',
      label: 'Total train current, A',
      blank: 'battery or steam, or no power calculation',
    }),
    train: name({
      component: 'TrainWithPower',
      longest: 100,
      says: 'In place of currentA: the name of one of trains, whose current on its hardest stretch is taken; it needs masses, a speed, and an engine fed from the rails',
      label: 'or the current of train',
      called: 'train',
    }),
    supplyVoltageV: number({
      component: 'SupplyVoltageV',
      least: 0.1,
      most: 1000,
      unit: 'in volts',
      usual: 18,
      because: 'common practice',
      sign: ' V',
      says: 'Voltage of the supply, V',
      label: 'Supply voltage, V',
    }),
    maximumDropPct: number({
      component: 'MaximumDropPct',
      least: 1e-3,
      most: 99,
      unit: 'in percent',
      usual: 5,
      because: 'the usual limit, common practice',
      sign: ' %',
      says: 'Largest voltage drop allowed from supply to train, percent of the supply voltage',
      label: 'Allowed voltage drop, %',
    }),
    maximumDropV: number({
      component: 'MaximumDropV',
      least: 1e-3,
      most: 1000,
      unit: 'in volts',
      says: 'Largest voltage drop allowed, V; in place of maximumDropPct',
      label: 'or in volts',
    }),
    jointResistanceOhm: number({
      component: 'JointResistanceOhm',
      least: 0,
      most: 1000,
      unit: 'in ohms',
      usual: 0,
      because: 'joints are assumed to conduct as well as the rail; measure one',
      sign: ' Ω',
      says: 'Resistance of one joint in one rail, Ω',
      label: 'Resistance of one rail joint, Ω',
    }),
    feeder: part(FEEDER, { label: 'Feeders' }),
  },
  exactlyOneOf('currentA', 'train'),
  atMostOneOf('maximumDropV', 'maximumDropPct'),
)

const noPower = choice({
  component: 'NoPower',
  words: { none: 'None' },
  what: 'a kind of power',
  says: 'Battery, steam or clockwork: no current in the rails',
})

export const POWER = variants('Power', [noPower, POWER_SUPPLY] as const, (value) => (typeof value === 'string' ? 0 : 1))

export const EXTRA = shape('Extra', 'Any other item for the bill.', {
  item: name({
    component: 'ExtraItem',
    required: true,
    longest: 200,
    says: 'Name of the item on the bill',
    label: 'Item',
  }),
  per: choice({
    component: 'ExtraPer',
    required: true,
    words: { m: 'per metre of track', each: 'in total' },
    what: 'a measure',
    says: 'm: quantity is for each metre of track, along the centre line; each: quantity is for the whole plan',
    label: 'Counted',
  }),
  quantity: number({
    component: 'ExtraQuantity',
    required: true,
    least: 0,
    most: LIMITS.pieces,
    unit: 'alone',
    says: 'How many; the total is rounded up',
    label: 'Quantity',
  }),
  price: priceOfPack(),
  packSize: packSize('Pack size'),
  onHand: onHand(),
  sparePct: spare(),
  massEachG,
})

export interface Roadbed extends Whole<typeof ROADBED.fields> {}
export interface RoadbedInput extends Open<typeof ROADBED.fields> {}
export interface PowerSupply extends Whole<typeof POWER_SUPPLY.fields> {}
export interface PowerInput extends Open<typeof POWER_SUPPLY.fields> {}
export interface Extra extends Whole<typeof EXTRA.fields> {}
