import { type Answer, component, type Fixed, flag, length, list, number, text } from '../plan/fields/answer.ts'

const ORIGIN_FIELDS = {
  source: text(),
  estimated: flag('True: a proportion or a memory rather than a published figure.'),
}

export const RAIL_SECTION = component(
  'RailSection',
  'A rail section. The names of its parts, from the ground up: foot, web, head.',
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
    estimated: flag('True: the height, foot or head width is a proportion or a memory rather than a published figure.'),
    estimatedFields: list(text(), 'Every number that is estimated.'),
  },
)

export type RailSection = Fixed<Answer<typeof RAIL_SECTION>>

const TEMPER = component(
  'Temper',
  "A material's condition. Yield is 0.2 % proof, or 0.5 % extension for copper alloys.",
  {
    id: text(),
    name: text(),
    youngsModulusGpa: number(),
    yieldMpa: number(),
    tensileMpa: number(),
    elongationPct: number(),
    rambergOsgoodN: number('Exponent of the Ramberg–Osgood law e = s/E + 0.002 (s/yield)^n.'),
    expansionPerK: number(),
    densityKgM3: number(),
    resistivityOhmM: number(),
    ...ORIGIN_FIELDS,
    rambergOsgoodSource: text('Where rambergOsgoodN comes from.'),
    estimatedFields: list(text(), 'Every number that is estimated.'),
  },
)

export type Temper = Fixed<Answer<typeof TEMPER>>

export const MATERIAL = component('Material', 'A metal with its tempers.', {
  id: text(),
  name: text(),
  tempers: list(TEMPER),
  usualTemper: text('Its density stands for the material when no temper is named.'),
  ...ORIGIN_FIELDS,
})

export type Material = Fixed<Answer<typeof MATERIAL>>
