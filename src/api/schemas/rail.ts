import { z } from '@hono/zod-openapi'
import { DEFAULT_METHOD_LIMITS } from '../../bending/method.ts'
import { MATERIAL_SPELLINGS } from '../../catalogue/materials.ts'
import type { BenderInput, RailInput } from '../../estimate/plan.ts'
import { byShape, has, refTo } from './by-shape.ts'
import { fields } from './fields.ts'
import { numberLeaf } from './measures.ts'
import { Length, LengthOrZero, MaterialName, SectionId, TemperName } from './plan-fields.ts'
import { choiceLeaf } from './words.ts'

/* What the rail is, what bends it, and what test bends told about it. */

export const RAIL_LIMITS = { rectangles: 20, testBends: 20 } as const

const CustomSection = fields({
  height: Length,
  headWidth: Length,
  footWidth: Length,
  webThickness: Length,
  headDepth: Length.optional(),
  footDepth: Length.optional(),
}).openapi('CustomSection', { description: 'A rail measured with calipers. The depths may be left out.' })

const RectangleSection = fields({
  rectangles: z
    .array(fields({ width: Length, height: Length }))
    .min(1)
    .max(RAIL_LIMITS.rectangles),
}).openapi('RectangleSection', {
  description: 'A rail as a stack of rectangles centred on its vertical axis, foot first, head last.',
})

export const Section = byShape<string | z.output<typeof CustomSection> | z.output<typeof RectangleSection>>(
  'Section',
  (value) =>
    has(value, 'rectangles')
      ? RectangleSection
      : typeof value === 'object' && value !== null
        ? CustomSection
        : SectionId,
  { oneOf: [refTo('SectionId'), refTo('CustomSection'), refTo('RectangleSection')] },
)

const positive = (name: string, most: number, unit: string, description: string) =>
  numberLeaf(name, { least: 1e-9, most }, unit, description)

const YoungsModulus = positive('YoungsModulusGpa', 2000, 'in GPa', "Young's modulus, GPa.")
const Yield = positive('YieldMpa', 10_000, 'in MPa', 'Yield: 0.2 % proof stress, MPa.')
const Exponent = numberLeaf(
  'RambergOsgoodN',
  { least: 1.000_001, most: 1000 },
  'alone',
  'Exponent of e = s/E + 0.002·(s/yield)^n.',
)
const Tangent = numberLeaf('TangentModulusGpa', { least: 0, most: 2000 }, 'in GPa', 'Slope beyond the yield, GPa.')

const Hardening = z
  .discriminatedUnion('model', [
    fields({ model: z.literal('ramberg-osgood'), n: Exponent }),
    fields({ model: z.literal('linear'), tangentModulusGpa: Tangent }),
    fields({ model: z.literal('perfectly-plastic') }),
  ])
  .openapi('Hardening', { description: 'How the metal goes on beyond its yield.' })

const CustomMetal = fields({
  youngsModulusGpa: YoungsModulus,
  yieldMpa: Yield,
  hardening: Hardening,
  elongationPct: positive('ElongationPct', 1000, 'in percent', 'Strain at fracture, percent.').optional(),
  densityKgM3: positive('DensityKgM3', 30_000, 'in kg/m³', 'Density, kg/m³.').optional(),
  expansionPerK: numberLeaf(
    'ExpansionPerK',
    { least: 0, most: 1e-3 },
    'per kelvin',
    'Thermal expansion, 1/K.',
  ).optional(),
  resistivityOhmM: numberLeaf('ResistivityOhmM', { least: 0, most: 1 }, 'in Ω·m', 'Resistivity, Ω·m.').optional(),
}).openapi('CustomMetal', { description: 'A metal by its numbers.' })

export const MaterialSchema = byShape<string | z.output<typeof CustomMetal>>(
  'RailMaterial',
  (value) => (typeof value === 'object' && value !== null ? CustomMetal : MaterialName),
  { oneOf: [refTo('MaterialName'), refTo('CustomMetal')] },
)

const RadiiTest = fields({ formedRadius: Length, restingRadius: Length }).openapi('RadiiTest', {
  description: "A test bend by the radii of the rail's own line, under load and released.",
})
const DepthTest = fields({ depth: Length, chord: Length, ordinate: Length }).openapi('DepthTest', {
  description: "A test pass by the bender's depth and an ordinate of the released rail.",
})
const Turns = numberLeaf('Turns', { least: 1e-6, most: 10_000 }, 'alone', 'Turns of the screw from just touching.')
const TurnsTest = fields({ turns: Turns, chord: Length, ordinate: Length }).openapi('TurnsTest', {
  description: "A test pass by turns of the bender's screw and an ordinate of the released rail.",
})

export const TestBendSchema = byShape<
  z.output<typeof RadiiTest> | z.output<typeof DepthTest> | z.output<typeof TurnsTest>
>(
  'TestBend',
  (value) => (has(value, 'turns') ? TurnsTest : has(value, 'depth', 'chord', 'ordinate') ? DepthTest : RadiiTest),
  { oneOf: [refTo('RadiiTest'), refTo('DepthTest'), refTo('TurnsTest')] },
)

export const Rail = fields({
  section: Section,
  material: MaterialSchema,
  temper: TemperName.optional(),
  calibration: z.array(TestBendSchema).min(1).max(RAIL_LIMITS.testBends).optional(),
}).openapi('Rail', { description: 'What the rail is, and test bends of it.' })

export const BEARS_ON = ['head', 'web', 'foot'] as const
export const MODES = ['rolled', 'pressed'] as const
export const WORKS = ['loose-rail', 'assembled'] as const

const limit = (name: string, usual: number, unit: string, description: string) =>
  positive(name, 1e6, unit, `${description} ${usual} when left out.`)

export const BenderSchema = fields({
  work: choiceLeaf(
    'BenderWork',
    [...WORKS],
    'a kind of work',
    'Loose rail, or assembled track with both rails in one go.',
  ).optional(),
  span: Length.optional(),
  outerRollerRadius: LengthOrZero.optional(),
  bearsOn: choiceLeaf('BearsOn', [...BEARS_ON], 'a part of the rail', 'What the rollers touch.').optional(),
  mode: choiceLeaf(
    'BenderMode',
    [...MODES],
    'a way of bending',
    'Drawn through under load, or pressed and moved on.',
  ).optional(),
  maxPerPass: Length.optional(),
  screwPitch: Length.optional(),
  ends: choiceLeaf(
    'BenderEnds',
    ['trim', 'finish-by-hand', 'join-and-roll-through'],
    'a way to treat the ends',
    'What is done about the half span at each end that rollers leave straight.',
  ).optional(),
  fixedEnd: choiceLeaf(
    'FixedEnd',
    ['start', 'end'],
    'an end',
    'Assembled track: the end at which both rails are held.',
  ).optional(),
  limits: fields({
    overbendRatio: limit(
      'OverbendLimit',
      DEFAULT_METHOD_LIMITS.overbendRatio,
      'alone',
      'Overbending up to which hands bend evenly.',
    ).optional(),
    grip: Length.optional(),
    handForceN: limit(
      'HandForceLimit',
      DEFAULT_METHOD_LIMITS.handForceN,
      'in newtons',
      'Comfortable force of each hand, N.',
    ).optional(),
    jointFlat: Length.optional(),
  })
    .optional()
    .openapi({ description: 'What hands can be asked to do.' }),
}).openapi('Bender', {
  description: 'What one bends with. span, outerRollerRadius, bearsOn and mode tell of a roller bender, together.',
})

/** Components that only a `$ref` names. */
export const RAIL_COMPONENTS = {
  SectionId,
  CustomSection,
  RectangleSection,
  MaterialName,
  CustomMetal,
  RadiiTest,
  DepthTest,
  TurnsTest,
}

export function toRail({ section, material, temper, calibration }: z.output<typeof Rail>): RailInput {
  return {
    section: toSection(section),
    material: toMaterial(material),
    temper,
    calibration: calibration?.map(toTestBend),
  }
}

export function toMaterial(material: z.output<typeof MaterialSchema>): RailInput['material'] {
  return typeof material === 'string' ? (MATERIAL_SPELLINGS[material] ?? material) : material
}

export function toSection(section: z.output<typeof Section>): RailInput['section'] {
  if (typeof section === 'string') return section
  if ('rectangles' in section)
    return { rectangles: section.rectangles.map(({ width, height }) => ({ widthMm: width, heightMm: height })) }
  return {
    height: section.height,
    headWidth: section.headWidth,
    footWidth: section.footWidth,
    webThickness: section.webThickness,
    headDepth: section.headDepth,
    footDepth: section.footDepth,
  }
}

export function toTestBend(test: z.output<typeof TestBendSchema>): NonNullable<RailInput['calibration']>[number] {
  if ('formedRadius' in test) return { formedRadius: test.formedRadius, restingRadius: test.restingRadius }
  const reading = { chord: test.chord, ordinate: test.ordinate }
  return 'turns' in test ? { turns: test.turns, ...reading } : { depth: test.depth, ...reading }
}

export function toBender(bender: z.output<typeof BenderSchema>): BenderInput {
  const { work, span, outerRollerRadius, bearsOn, mode, maxPerPass, screwPitch, ends, fixedEnd, limits } = bender
  return {
    work,
    span: span,
    outerRollerRadius: outerRollerRadius,
    bearsOn,
    mode,
    maxPerPass: maxPerPass,
    screwPitch: screwPitch,
    ends,
    fixedEnd,
    limits: limits && {
      overbendRatio: limits.overbendRatio,
      grip: limits.grip,
      handForceN: limits.handForceN,
      jointFlat: limits.jointFlat,
    },
  }
}
