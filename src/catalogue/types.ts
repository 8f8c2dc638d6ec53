import { type Answer, component, type Fixed, flag, length, list, number, text } from '../plan/fields/answer.ts'

const ORIGIN_FIELDS = {
  source: text(),
  estimated: flag('True if the figures are estimates (by proportion or from memory) rather than published.'),
}

export const RAIL_SECTION = component(
  'RailSection',
  'A rail section. Its parts, from bottom to top, are foot, web and head.',
  {
    id: text(),
    name: text(),
    heightMm: length(),
    headWidthMm: length(),
    footWidthMm: length(),
    webThicknessMm: length(),
    headDepthMm: length(),
    footDepthMm: length(),
    source: text(),
    estimated: flag(
      'True if the height, foot width or head width is an estimate (by proportion or from memory) rather than a published figure.',
    ),
    estimatedFields: list(text(), 'The names of all fields that are estimates.'),
  },
)

export type RailSection = Fixed<Answer<typeof RAIL_SECTION>>

const TEMPER = component(
  'Temper',
  'A temper of a material. Yield is 0.2 % proof stress, or stress at 0.5 % extension for copper alloys.',
  {
    id: text(),
    name: text(),
    youngsModulusGpa: number(),
    yieldMpa: number(),
    tensileMpa: number(),
    elongationPct: number(),
    rambergOsgoodN: number('Exponent n of the Ramberg–Osgood law e = s/E + 0.002 (s/yield)^n.'),
    expansionPerK: number(),
    densityKgM3: number(),
    resistivityOhmM: number(),
    ...ORIGIN_FIELDS,
    rambergOsgoodSource: text('Source of rambergOsgoodN.'),
    estimatedFields: list(text(), 'The names of all fields that are estimates.'),
  },
)

export type Temper = Fixed<Answer<typeof TEMPER>>

export const MATERIAL = component('Material', 'A metal with its tempers.', {
  id: text(),
  name: text(),
  tempers: list(TEMPER),
  usualTemper: text('The temper whose density is used if a plan names none.'),
  ...ORIGIN_FIELDS,
})

export type Material = Fixed<Answer<typeof MATERIAL>>
