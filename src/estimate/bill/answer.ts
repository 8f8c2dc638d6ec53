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

export const SECTION_PROPERTIES = component('SectionProperties', 'Of the rail section, about its vertical axis.', {
  areaMm2: number(),
  lateralSecondMomentMm4: number(),
  elasticModulusMm3: number(),
  plasticModulusMm3: number(),
  shapeFactor: number(),
  extremeFibreMm: length(),
})

export type SectionPropertiesAnswer = Answer<typeof SECTION_PROPERTIES>

export const RAIL_SUMMARY = component('RailSummary', 'The rail of all tracks together.', {
  section: text(),
  material: text(),
  temper: nullable(text()),
  massPerMetreKg: nullable(number('Null for a metal given without its density, and so is massKg.')),
  lengthMm: length(),
  massKg: nullable(number()),
  sectionProperties: SECTION_PROPERTIES,
})

export type RailSummary = Answer<typeof RAIL_SUMMARY>

export const ROADBED = component('RoadbedAnswer', 'Ballast: its cross-section, and how much of it.', {
  kind: word(['raised', 'trench']),
  filledTo: word(['tie-top', 'tie-bottom']),
  section: object({ crownWidthMm: length(), baseWidthMm: length(), heightMm: length(), areaMm2: number() }),
  inPlaceL: number('Once it has settled, all tracks.'),
  tiesL: number('What the ties take up of the bed.'),
  shrinkagePct: number(),
  volumeL: number('Loose, as it is brought.'),
  massKg: number(),
  bags: nullable(count('Null where it is not sold in bags. Stock and spares are on the bill.')),
  tracks: list(object({ track: text(), inPlaceL: number(), tiesL: number(), volumeL: number() })),
})

export type RoadbedAnswer = Answer<typeof ROADBED>

const FEED = component('FeedAnswer', 'One stretch of track that is fed by itself.', {
  track: text(),
  fromMm: length('Stations between which it is fed by itself.'),
  toMm: length(),
  joints: count(),
  ...FED_BLOCK.fields,
  farEndV: number('With one feeder, at the start.'),
})

export type FeedAnswer = Answer<typeof FEED>

export const POWER = component('PowerAnswer', 'The rails as conductors: voltage at the far ends, and feeders.', {
  currentA: number(),
  supplyVoltageV: number(),
  allowedDropV: number(),
  railOhmPerM: number('Of one rail; both count.'),
  jointResistanceOhm: number(),
  feeder: nullable(
    object({ areaMm2: number(), lengthMm: length(), resistanceOhm: number(), dropV: number() }),
    'Resistance and drop there and back; null where the plan has no feeder.',
  ),
  blocks: list(FEED),
  feeders: nullable(count('Null where no number of them keeps the allowed drop.')),
  wireMm: nullable(length('Single wire, there and back, of all feeders.')),
})

export type PowerAnswer = Answer<typeof POWER>
