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

export const JOINT = component('Joint', 'A joint between two rail ends.', {
  track: text({ title: 'Track' }),
  rail: word(TURNS, { title: 'Rail' }),
  atMm: length({
    says: 'Distance along the rail from its start, mm; a closed track has its closing joint at 0.',
    title: 'Along the rail',
  }),
  stationMm: length({ says: 'Station on the centre line opposite the joint, mm.', title: 'Along the track' }),
  kind: word(JOINT_KINDS, {
    says: 'joiner: between two pieces of a rail; closing: where a loop closes; join: to other track; the other kinds are those of breaks.',
    title: 'Joint',
  }),
  gapMm: nullable(
    length({
      says: 'Gap to leave when the rail is laid, mm; null if the plan has no climate or the expansion of the metal is unknown.',
      title: 'Gap at laying',
    }),
  ),
  gapInch64: nullable(
    text({ says: 'The same, rounded to 1/64 in, such as "5/64 in".', title: 'Gap at laying, nearest 1/64 in' }),
  ),
  gapColdestMm: nullable(length({ title: 'Gap at the coldest' })),
  gapHottestMm: nullable(length({ title: 'Gap at the hottest' })),
})

export type JointAnswer = Answer<typeof JOINT>

const CLAMPED_LENGTH_OF_TRACK = component('ClampedLength', 'A stretch of clamped track that moves as one.', {
  track: text(),
  ...CLAMPED_LENGTH.fields,
  growthMm: length('Growth of the longer rail from coldest to hottest, mm.'),
})

export const EXPANSION = component(
  'Expansion',
  'How temperature affects the rails. Temperatures are those of the rail, °C. Figures that depend on the expansion of the metal are null if it is unknown.',
  {
    joints: word(['sliding', 'clamped']),
    held: flag(),
    layingC: number(),
    coldestC: number(),
    hottestC: number('Highest temperature of the rail, including the sun, °C.'),
    expansionPerK: nullable(number('Null if the metal is given without it.')),
    growthPerMetreMm: nullable(length('Growth of each metre of rail from coldest to hottest, mm.')),
    gapLimitMm: length(),
    expansionJointLimitMm: length(),
    longestLengthMm: nullable(
      length('The longest piece, or the longest clamped length, whose gaps do not get too wide, mm; null: no limit.'),
    ),
    heldStressHottestMpa: nullable(number('Compression at the hottest if the rail cannot move, MPa.')),
    heldStressColdestMpa: nullable(number('Tension at the coldest if the rail cannot move, MPa.')),
    heldForceHottestN: nullable(number('Force in one rail at the hottest if it cannot move, N.')),
    heldForceColdestN: nullable(number()),
    bucklingLengthMm: nullable(
      length('A held rail that is free to move sideways over this length buckles, mm; null if it is not compressed.'),
    ),
    lengths: list(CLAMPED_LENGTH_OF_TRACK, 'For clamped rail that floats: the lengths that move as one.'),
    breathing: list(
      object({ track: text(), element: count(), radiusMm: length(), outwardMm: length(), inwardMm: length() }),
      'For clamped rail that floats: how far each arc moves outward when hottest and inward when coldest.',
    ),
  },
)

export type ExpansionAnswer = Answer<typeof EXPANSION>
