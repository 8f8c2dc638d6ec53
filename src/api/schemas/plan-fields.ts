import { MATERIAL_SPELLINGS, MATERIALS } from '../../catalogue/materials.ts'
import { SECTIONS } from '../../catalogue/sections.ts'
import { DEFAULTS } from '../../estimate/complete-plan.ts'
import { formatMm } from '../../measure/length.ts'
import { parseMoney } from '../../measure/money.ts'
import { accepted, leaf, notA, type Read, refused, shown } from './leaf.ts'
import { COORDINATE, countLeaf, DIAMETER, LENGTH, LENGTH_OR_ZERO, lengthLeaf, numberLeaf } from './measures.ts'
import { choiceLeaf, flagLeaf, nameLeaf, textLeaf } from './words.ts'

/*
 * The single values a plan is made of. Each is a component of the OpenAPI document; one that has a default says so
 * there, which is why some lengths have a component of their own.
 */

export const Title = textLeaf('Title', 200, 'What the plan is called.')
export const Label = textLeaf('Label', 200, 'A free text, echoed in the answer.')
export const TrackName = nameLeaf('TrackName', 100, 'The name of a track, its own in the plan.')
export const Flag = flagLeaf('Flag', 'Yes or no.')
export const TrackStateName = choiceLeaf(
  'TrackState',
  ['new', 'existing', 'lifted'],
  'a state of track',
  'New track is built and bought. Existing track stays: it counts in geometry and checks, not in cut plan, joints, ties and bill. Lifted track goes: its rail, ties and joiners are on hand for the new track, and what that leaves goes into the shed once it is built. `new` when left out.',
)
export const Turn = choiceLeaf('Turn', ['left', 'right'], 'a turn', 'Which way, seen along the track from its start.')

/** How hard to look for a cut plan. */
export const EffortName = choiceLeaf(
  'EffortName',
  ['quick', 'thorough'],
  'an effort',
  `How hard to look for the best cut plan: "quick" answers at once, "thorough" takes up to some seconds; ${DEFAULTS.effort} when left out.`,
)

export const SECTION_IDS = SECTIONS.map(({ id }) => id)
export const MATERIAL_NAMES = [...MATERIALS.map(({ id }) => id), ...Object.keys(MATERIAL_SPELLINGS)]

export const SectionId = choiceLeaf(
  'SectionId',
  SECTION_IDS,
  'a rail section',
  'A section of the catalogue, by its code.',
)
export const MaterialName = choiceLeaf('MaterialName', MATERIAL_NAMES, 'a material', 'A material of the catalogue.')
export const TemperName = textLeaf('TemperName', 60, 'A temper of the material, by its id in the catalogue.')

export const Length = lengthLeaf('Length', LENGTH, 'A length over zero.')
export const LengthOrZero = lengthLeaf('LengthOrZero', LENGTH_OR_ZERO, 'A length, zero allowed.')
export const Coordinate = lengthLeaf('Coordinate', COORDINATE, 'A length of either sign.')
export const Diameter = lengthLeaf('Diameter', DIAMETER, 'The diameter of a curve, as the trade quotes it.')

export const Gauge = lengthLeaf(
  'Gauge',
  LENGTH,
  `Between the inner faces of the rail heads; ${formatMm(DEFAULTS.gaugeMm)} when left out.`,
)
export const Kerf = lengthLeaf(
  'Kerf',
  LENGTH_OR_ZERO,
  `What one cut takes; ${formatMm(DEFAULTS.kerfMm)} when left out.`,
)
export const MinimumPiece = lengthLeaf(
  'MinimumPiece',
  LENGTH_OR_ZERO,
  `The shortest piece that is laid; ${formatMm(DEFAULTS.minimumPieceMm)} when left out.`,
)
export const TieSpacing = lengthLeaf(
  'TieSpacing',
  LENGTH,
  `Between the middles of neighbouring ties; ${formatMm(DEFAULTS.tieSpacingMm)} when left out.`,
)
export const ClosureGap = lengthLeaf(
  'ClosureGap',
  LENGTH_OR_ZERO,
  `What a closed track may miss its start by; ${formatMm(DEFAULTS.closureGapMm)} when left out.`,
)

export const Resolution = lengthLeaf(
  'Resolution',
  LENGTH,
  `How far an ordinate may be misread, either way; ${formatMm(DEFAULTS.resolutionMm)} when left out.`,
)

/** A hundred turns: enough for any helix. */
const GREATEST_ANGLE_DEG = 36_000
const LEAST_ANGLE_DEG = 1e-6

export const Angle = numberLeaf(
  'Angle',
  {
    least: LEAST_ANGLE_DEG,
    most: GREATEST_ANGLE_DEG,
    hint: 'an angle is over zero; which way it goes is said by turn',
  },
  'in degrees',
  'The angle an arc turns through, degrees, more than one turn allowed.',
)
export const Heading = numberLeaf(
  'Heading',
  { least: -GREATEST_ANGLE_DEG, most: GREATEST_ANGLE_DEG },
  'in degrees',
  'A direction on the sheet, degrees counter-clockwise from +x.',
)
export const ClosureHeading = numberLeaf(
  'ClosureHeading',
  { least: 0, most: 180 },
  'in degrees',
  `What the heading at the end of a closed track may miss that at its start by, degrees; ${DEFAULTS.closureHeadingDeg} when left out.`,
)
export const MaximumGradePct = numberLeaf(
  'MaximumGradePct',
  { least: 0, most: 100 },
  'in percent',
  `The steepest grade, percent: rise over level run; ${DEFAULTS.maximumGradePct} when left out.`,
)

const MANY = 1_000_000

export const PackSize = countLeaf(
  'PackSize',
  { least: 1, most: MANY },
  `How many pieces one pack holds; ${DEFAULTS.packSize} when left out.`,
)
export const OnHand = countLeaf(
  'OnHand',
  { least: 0, most: MANY },
  `How many pieces lie in the shed already; ${DEFAULTS.onHand} when left out.`,
)
export const FastenersPerTie = countLeaf(
  'FastenersPerTie',
  { least: 0, most: 100 },
  `Spikes or screws in each tie; ${DEFAULTS.fastenersPerTie} when left out.`,
)

export const Price = priceLeaf('Price', 'The price of one pack')
export const PriceOfOne = priceLeaf('PriceOfOne', 'The price of one')

function priceLeaf(name: string, description: string) {
  const read = (value: unknown): Read<string> => {
    if (typeof value !== 'string' && typeof value !== 'number') return notA('a price', value, 'write it as "14.50"')
    const parsed = parseMoney(value)
    return parsed.ok ? accepted(parsed.money) : refused('bad-price', parsed.reason, parsed.hint)
  }
  return leaf(name, read, {
    type: ['string', 'number'],
    minimum: 0,
    maximum: 1_000_000_000,
    pattern: String.raw`^\s*\d+(\.\d+)?\s*$`,
    description: `${description}, a decimal with at most two places.`,
    example: '14.50',
  })
}

export const Currency = leaf(
  'Currency',
  (value): Read<string> => {
    const hint = 'write its three capital letters (ISO 4217), such as "USD"'
    if (typeof value !== 'string') return notA('a currency', value, hint)
    return /^[A-Z]{3}$/.test(value)
      ? accepted(value)
      : refused('unknown-value', `${shown(value)} is not a currency code`, hint)
  },
  {
    type: 'string',
    pattern: '^[A-Z]{3}$',
    description: `ISO 4217 code of the currency all prices are in; ${DEFAULTS.currency} when left out.`,
    example: 'EUR',
  },
)
