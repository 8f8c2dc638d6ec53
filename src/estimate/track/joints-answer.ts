import { CLAMPED_LENGTH } from '../../laying/clamped-lengths.ts'
import { JOINT_KINDS } from '../../laying/joints.ts'
import {
  type Answer,
  component,
  count,
  flag,
  length,
  list,
  nullable,
  number,
  object,
  text,
  word,
} from '../../plan/fields/answer.ts'
import { TURNS } from '../../plan/rows/track.ts'

export const JOINT = component('Joint', 'A place where two rail ends meet.', {
  track: text({ title: 'Track' }),
  rail: word(TURNS, { title: 'Rail' }),
  atMm: length({ says: 'Along that rail from its own start; a loop closes at 0.', title: 'Along the rail' }),
  stationMm: length({ says: 'On the centre line, abreast of it.', title: 'Along the track' }),
  kind: word(JOINT_KINDS, {
    says: 'joiner: between pieces of a rail; closing: where a loop closes; join: to other track; else what a break asks for.',
    title: 'Joint',
  }),
  gapMm: nullable(
    length({
      says: 'To leave open when the rail is laid; null without climate, or for a metal whose expansion is unknown.',
      title: 'Gap at laying',
    }),
  ),
  gapInch64: nullable(
    text({ says: 'The same to the nearest 1/64 in, such as "5/64 in".', title: 'Gap at laying, nearest 1/64 in' }),
  ),
  gapColdestMm: nullable(length({ title: 'Gap at the coldest' })),
  gapHottestMm: nullable(length({ title: 'Gap at the hottest' })),
})

export type JointAnswer = Answer<typeof JOINT>

const CLAMPED_LENGTH_OF_TRACK = component('ClampedLength', 'A stretch of clamped track that moves as one.', {
  track: text(),
  ...CLAMPED_LENGTH.fields,
  growthMm: length('Of the longer rail, from the coldest to the hottest.'),
})

export const EXPANSION = component(
  'Expansion',
  "What the weather does to the rails. Temperatures are of the rail, °C; what follows from the metal's expansion is null where that is unknown.",
  {
    joints: word(['sliding', 'clamped']),
    held: flag(),
    layingC: number(),
    coldestC: number(),
    hottestC: number('Of the rail, the sun included.'),
    expansionPerK: nullable(number('Null for a metal given without it.')),
    growthPerMetreMm: nullable(length('From the coldest to the hottest.')),
    gapLimitMm: length(),
    expansionJointLimitMm: length(),
    longestLengthMm: nullable(
      length('The longest piece, or the longest clamped length, whose gaps are not too wide; null: no limit.'),
    ),
    heldStressHottestMpa: nullable(number('Compression, were the rail kept from moving.')),
    heldStressColdestMpa: nullable(number('Tension, were it kept from moving.')),
    heldForceHottestN: nullable(number('In one rail.')),
    heldForceColdestN: nullable(number()),
    bucklingLengthMm: nullable(
      length('One held rail, free sideways over this length, buckles; null where it is not compressed.'),
    ),
    lengths: list(CLAMPED_LENGTH_OF_TRACK, 'Clamped rail that floats: the lengths that move as one.'),
    breathing: list(
      object({ track: text(), element: count(), radiusMm: length(), outwardMm: length(), inwardMm: length() }),
      'Clamped rail that floats: how far each arc moves out when hottest and in when coldest.',
    ),
  },
)

export type ExpansionAnswer = Answer<typeof EXPANSION>
