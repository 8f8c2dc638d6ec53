import { FED_BLOCK } from '../../laying/power.ts'
import {
  type Answer,
  component,
  count,
  length,
  list,
  nullable,
  number,
  object,
  text,
  word,
} from '../../plan/fields/answer.ts'

export const SECTION_PROPERTIES = component(
  'SectionProperties',
  'Properties of the rail section, about its vertical axis.',
  {
    areaMm2: number(),
    lateralSecondMomentMm4: number(),
    elasticModulusMm3: number(),
    plasticModulusMm3: number(),
    shapeFactor: number(),
    extremeFibreMm: length(),
  },
)

export type SectionPropertiesAnswer = Answer<typeof SECTION_PROPERTIES>

export const RAIL_SUMMARY = component('RailSummary', 'The rail of all tracks together.', {
  section: text(),
  material: text(),
  temper: nullable(text()),
  massPerMetreKg: nullable(number('Null, like massKg, for a metal given without its density.')),
  lengthMm: length(),
  massKg: nullable(number()),
  sectionProperties: SECTION_PROPERTIES,
})

export type RailSummary = Answer<typeof RAIL_SUMMARY>

export const ROADBED = component('RoadbedAnswer', 'Ballast: its cross-section and volume.', {
  kind: word(['raised', 'trench']),
  filledTo: word(['tie-top', 'tie-bottom']),
  section: object({ crownWidthMm: length(), baseWidthMm: length(), heightMm: length(), areaMm2: number() }),
  inPlaceL: number('Volume after settling, for all tracks, litres.'),
  tiesL: number('Volume of the ties within the bed, litres.'),
  shrinkagePct: number(),
  volumeL: number('Volume of loose ballast, as delivered, litres.'),
  massKg: number(),
  bags: nullable(count('Bags needed; null if it is not sold in bags. Stock and spares are on the bill.')),
  tracks: list(object({ track: text(), inPlaceL: number(), tiesL: number(), volumeL: number() })),
})

export type RoadbedAnswer = Answer<typeof ROADBED>

const FEED = component('FeedAnswer', 'A stretch of track that is fed separately.', {
  track: text(),
  fromMm: length('Station where the stretch begins that is fed separately, mm; it ends at toMm.'),
  toMm: length(),
  joints: count(),
  ...FED_BLOCK.fields,
  farEndV: number('Voltage at the far end with one feeder at the start, V.'),
})

export type FeedAnswer = Answer<typeof FEED>

export const POWER = component('PowerAnswer', 'The rails as conductors: voltage at the far ends, and feeders.', {
  currentA: number(),
  supplyVoltageV: number(),
  allowedDropV: number(),
  railOhmPerM: number('Resistance of one rail, Ω/m; current flows through both.'),
  jointResistanceOhm: number(),
  feeder: nullable(
    object({ areaMm2: number(), lengthMm: length(), resistanceOhm: number(), dropV: number() }),
    'Resistance and voltage drop of a feeder, both wires; null if the plan has no feeder.',
  ),
  blocks: list(FEED),
  feeders: nullable(count('Number of feeders; null if no number keeps to the allowed drop.')),
  wireMm: nullable(length('Length of single wire for all feeders, both ways, mm.')),
})

export type PowerAnswer = Answer<typeof POWER>
