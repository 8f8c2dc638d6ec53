import type { z } from '@hono/zod-openapi'
import { DEFAULTS } from '../../estimate/complete-plan.ts'
import type { ExtraInput, PackInput, PowerInput, RoadbedInput, TiesInput } from '../../estimate/plan.ts'
import { byShape, refTo } from './by-shape.ts'
import { fields } from './fields.ts'
import { countLeaf, numberLeaf } from './measures.ts'
import { atMostOneOf, exactlyOneOf } from './one-of.ts'
import { FastenersPerTie, Flag, Length, LengthOrZero, OnHand, PackSize, Price, TieSpacing } from './plan-fields.ts'
import { choiceLeaf, nameLeaf } from './words.ts'

/* What the rails lie on and what runs in them: ties, ballast, feeders, and whatever else goes on the list. */

const GREATEST = 1_000_000

const SparePct = numberLeaf(
  'SparePct',
  { least: 0, most: 100 },
  'in percent',
  'What is bought beyond what is required, percent of it; whole pieces, rounded up. None when left out.',
)
export const MassEachG = numberLeaf(
  'MassEachG',
  { least: 1e-6, most: GREATEST },
  'in grams',
  'What one piece weighs, g.',
)

export const pack = {
  packSize: PackSize.optional(),
  pricePerPack: Price.optional(),
  onHand: OnHand.optional(),
  sparePct: SparePct.optional(),
  massEachG: MassEachG.optional(),
}

export const Pack = fields(pack).openapi('Pack', { description: 'A thing that is counted singly and sold in packs.' })

export const TieCount = countLeaf('TieCount', { least: 1, most: GREATEST }, 'A number of ties.')

const TieStrip = fields({
  ties: TieCount,
  price: Price.optional(),
  packSize: PackSize.optional(),
  onHand: OnHand.optional(),
  sparePct: SparePct.optional(),
  massEachG: MassEachG.optional(),
}).openapi('TieStrip', {
  description:
    'Ties moulded together, sold by the strip and cut to what is needed; stock and mass are those of strips.',
})

export const Ties = fields({
  ...pack,
  spacing: TieSpacing.optional(),
  perLength: fields({ count: TieCount, length: Length })
    .optional()
    .openapi({ description: 'So many ties to a length, such as 24 to 39 ft; in place of the spacing.' }),
  strip: TieStrip.optional(),
  fastenersPerTie: FastenersPerTie.optional(),
  jointTies: Flag.optional().openapi({
    description:
      'true: ties are added so that every joint hangs between two, on either side one within half a spacing. None are added when left out.',
  }),
})
  .check(
    atMostOneOf('perLength', 'spacing'),
    ...(['packSize', 'pricePerPack', 'onHand', 'sparePct', 'massEachG'] as const).map((name) =>
      atMostOneOf(name, 'strip'),
    ),
  )
  .openapi('Ties', {
    description:
      'Ties, their spacing centre to centre, and what fastens the rails to them; strip stands in place of the fields of a pack.',
  })

export const TaxRatePct = numberLeaf(
  'TaxRatePct',
  { least: 0, most: 100 },
  'in percent',
  'Tax on top of all prices, percent; without it no tax is worked out.',
)

const Slope = numberLeaf(
  'ShoulderSlope',
  { least: 0, most: 20 },
  'alone',
  `Run over rise of the sides: 1.25 stands for 1:1.25. A raised bed widens downwards, a trench narrows; ${DEFAULTS.shoulderSlope} for a raised bed and 0 for a trench when left out.`,
)
const ShrinkagePct = numberLeaf(
  'ShrinkagePct',
  { least: 0, most: 90 },
  'in percent',
  `By how much of itself loose ballast settles, percent; ${DEFAULTS.shrinkagePct} when left out.`,
)
const BallastDensity = numberLeaf(
  'BallastDensityKgM3',
  { least: 1, most: 30_000 },
  'in kg/m³',
  `Of loose ballast, kg/m³; ${DEFAULTS.ballastKgM3} when left out.`,
)
const Litres = numberLeaf('Litres', { least: 1e-3, most: GREATEST }, 'in litres', 'A volume, L.')
const Kilograms = numberLeaf('Kilograms', { least: 1e-3, most: GREATEST }, 'in kg', 'A mass, kg.')

const BallastBag = fields({
  volumeL: Litres.optional(),
  massKg: Kilograms.optional(),
  price: Price.optional(),
  onHand: OnHand.optional(),
  sparePct: SparePct.optional(),
})
  .check(exactlyOneOf('volumeL', 'massKg'))
  .openapi('BallastBag', { description: 'A bag by its volume or by its mass; onHand counts bags.' })

export const RoadbedSchema = fields({
  kind: choiceLeaf(
    'RoadbedKind',
    ['raised', 'trench'],
    'a kind of roadbed',
    'Heaped up on the ground, or filled into a trench.',
  ),
  crownWidth: Length,
  depthUnderTie: Length,
  shoulderSlope: Slope.optional(),
  filledTo: choiceLeaf(
    'FilledTo',
    ['tie-top', 'tie-bottom'],
    'a height',
    'How far up the ballast goes: to the tops of the ties in a raised bed, to their bottoms in a trench when left out.',
  ).optional(),
  tie: fields({ length: Length, width: Length, height: Length })
    .optional()
    .openapi({ description: 'One tie: what it takes up of the bed. Needed where ballast goes up to the tops.' }),
  shrinkagePct: ShrinkagePct.optional(),
  densityKgM3: BallastDensity.optional(),
  bag: BallastBag.optional(),
}).openapi('Roadbed', {
  description:
    'The bed of ballast, the same under all tracks: crownWidth at its top, depthUnderTie from the bottoms of the ties down. Without bag it is bought loose, by the litre.',
})

const Amperes = numberLeaf(
  'CurrentA',
  { least: 1e-3, most: 1000 },
  'in amperes',
  'The most the trains draw at once, A.',
)
const Volts = numberLeaf(
  'SupplyVoltageV',
  { least: 0.1, most: 1000 },
  'in volts',
  `At the supply, V; ${DEFAULTS.supplyVoltageV} when left out.`,
)
const DropPct = numberLeaf(
  'MaximumDropPct',
  { least: 1e-3, most: 99 },
  'in percent',
  `What may be lost on the way to the train, percent of the supply's voltage; ${DEFAULTS.maximumDropPct} when neither drop is given.`,
)
const DropV = numberLeaf('MaximumDropV', { least: 1e-3, most: 1000 }, 'in volts', 'The same in volts.')
const JointOhm = numberLeaf(
  'JointResistanceOhm',
  { least: 0, most: 1000 },
  'in ohms',
  'Of one joint of one rail, Ω; 0 when left out.',
)
const Awg = countLeaf('Awg', { least: 0, most: 40 }, 'Size by the American wire gauge.')
const AreaMm2 = numberLeaf(
  'WireAreaMm2',
  { least: 0.001, most: 1000 },
  'in mm²',
  'Cross-section of one conductor, mm².',
)

const Feeder = fields({
  awg: Awg.optional(),
  areaMm2: AreaMm2.optional(),
  length: Length,
  pricePerM: Price.optional(),
  onHand: LengthOrZero.optional(),
  sparePct: SparePct.optional(),
})
  .check(exactlyOneOf('awg', 'areaMm2'))
  .openapi('Feeder', {
    description:
      'The copper wire from the supply to the rails: awg or areaMm2; length is one way, a feeder takes it twice. Price and onHand are of single wire.',
  })

const PowerSupply = fields({
  currentA: Amperes,
  supplyVoltageV: Volts.optional(),
  maximumDropPct: DropPct.optional(),
  maximumDropV: DropV.optional(),
  jointResistanceOhm: JointOhm.optional(),
  feeder: Feeder.optional(),
})
  .check(atMostOneOf('maximumDropV', 'maximumDropPct'))
  .openapi('PowerSupply', { description: 'Current that comes to the trains through the rails.' })

const NoPower = choiceLeaf(
  'NoPower',
  ['none'],
  'a kind of power',
  'Battery, steam or clockwork: no current in the rails.',
)

export const PowerSchema = byShape<'none' | z.output<typeof PowerSupply>>(
  'Power',
  (value) => (typeof value === 'string' ? NoPower : PowerSupply),
  { oneOf: [refTo('NoPower'), refTo('PowerSupply')] },
)

export const ExtraSchema = fields({
  item: nameLeaf('ExtraItem', 200, 'What it is, as it shall stand on the bill.'),
  per: choiceLeaf(
    'ExtraPer',
    ['m', 'each'],
    'a measure',
    'm: quantity is for each metre of track, centre line; each: it is for the whole plan.',
  ),
  quantity: numberLeaf('ExtraQuantity', { least: 0, most: GREATEST }, 'alone', 'How many; the sum is rounded up.'),
  price: Price.optional(),
  packSize: PackSize.optional(),
  onHand: OnHand.optional(),
  sparePct: SparePct.optional(),
  massEachG: MassEachG.optional(),
}).openapi('Extra', { description: 'Anything else for the list.' })

/** Components that only a `$ref` names. */
export const WAY_COMPONENTS = { NoPower, PowerSupply }

type PackFields = Omit<z.output<typeof Pack>, 'pricePerPack'> & {
  pricePerPack?: string | undefined
  price?: string | undefined
}

export function toPack({ packSize, pricePerPack, price, onHand, sparePct, massEachG }: PackFields): PackInput {
  return {
    packSize,
    pricePerPack: pricePerPack ?? price,
    onHand,
    sparePct,
    massEachG,
  }
}

export function toTies(ties: z.output<typeof Ties>): TiesInput {
  const { spacing, perLength, strip, fastenersPerTie, jointTies } = ties
  return {
    ...toPack(ties),
    spacing: spacing,
    perLength: perLength && { count: perLength.count, length: perLength.length },
    strip: strip && { ties: strip.ties, ...toPack(strip) },
    fastenersPerTie,
    jointTies,
  }
}

export function toRoadbed({
  kind,
  crownWidth,
  depthUnderTie,
  shoulderSlope,
  filledTo,
  tie,
  shrinkagePct,
  densityKgM3,
  bag,
}: z.output<typeof RoadbedSchema>): RoadbedInput {
  return {
    kind,
    crownWidth: crownWidth,
    depthUnderTie: depthUnderTie,
    shoulderSlope,
    filledTo,
    tie: tie && { length: tie.length, width: tie.width, height: tie.height },
    shrinkagePct,
    densityKgM3,
    bag,
  }
}

export function toPower(power: z.output<typeof PowerSchema>): 'none' | PowerInput {
  if (power === 'none') return power
  const { feeder, ...rest } = power
  if (!feeder) return rest
  const { length, onHand, ...wire } = feeder
  return { ...rest, feeder: { ...wire, length: length, onHand: onHand } }
}

export function toExtra(extra: z.output<typeof ExtraSchema>): ExtraInput {
  const { item, per, quantity } = extra
  return { item, per, quantity, ...toPack(extra) }
}
