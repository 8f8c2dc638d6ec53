import type { z } from '@hono/zod-openapi'
import { JOINT_DEFAULTS } from '../../estimate/complete-joints.ts'
import type { ClimateInput, JointsInput } from '../../estimate/plan.ts'
import { BREAK_KINDS, type Break } from '../../laying/breaks.ts'
import type { KeepOut } from '../../laying/joint-places.ts'
import { formatMm } from '../../measure/length.ts'
import {
  formatCelsius,
  formatKelvins,
  parseTemperature,
  parseTemperatureDifference,
} from '../../measure/temperature.ts'
import { fields } from './fields.ts'
import { leaf, notA, type Read, refused } from './leaf.ts'
import { type Bounds, LENGTH_OR_ZERO, lengthLeaf, rangeKeywords, within } from './measures.ts'
import { Flag, Label, LengthOrZero } from './plan-fields.ts'
import { choiceLeaf } from './words.ts'

/* The weather, what joints can take, and where a track is divided. */

/** Of places where somebody gardens, with room. */
const TEMPERATURE: Bounds = { least: -90, most: 150, hint: 'a number is °C; write "85 F" for Fahrenheit' }
const DIFFERENCE: Bounds = { least: 0, most: 100, hint: 'a number is kelvins; write "36 F" for degrees Fahrenheit' }

const TEMPERATURE_TEXT = 30

function temperatureLeaf(
  name: string,
  what: string,
  bounds: Bounds,
  parse: typeof parseTemperature,
  show: (value: number) => string,
  document: { description: string; example: string },
) {
  const read = (value: unknown): Read<number> => {
    if (typeof value === 'number') return within(value, bounds, show)
    if (typeof value !== 'string') return notA(what, value, bounds.hint)
    if (value.length > TEMPERATURE_TEXT)
      return refused('too-long', `${what} of ${value.length} characters`, 'write for example "85 F"')
    const parsed = parse(value)
    return parsed.ok ? within(parsed.value, bounds, show) : refused('bad-temperature', parsed.reason, parsed.hint)
  }
  return leaf(name, read, {
    type: ['number', 'string'],
    ...rangeKeywords(bounds),
    maxLength: TEMPERATURE_TEXT,
    ...document,
  })
}

const Temperature = temperatureLeaf('Temperature', 'a temperature', TEMPERATURE, parseTemperature, formatCelsius, {
  description: 'A temperature. A JSON number is °C; a text carries its unit: "85 F", "30 C".',
  example: '85 F',
})

const SunAllowance = temperatureLeaf(
  'SunAllowance',
  'a difference of temperatures',
  DIFFERENCE,
  parseTemperatureDifference,
  formatKelvins,
  {
    description: `By how much rail in the sun is hotter than the air; ${formatKelvins(JOINT_DEFAULTS.sunAllowanceK)} when left out. A JSON number is kelvins; a text carries its unit: "20 K", "36 F".`,
    example: '36 F',
  },
)

export const ClimateSchema = fields({
  laying: Temperature,
  coldest: Temperature,
  hottest: Temperature,
  sunAllowance: SunAllowance.optional(),
}).openapi('Climate', {
  description:
    'The rail’s temperature when it is laid, and the coldest and hottest the air gets there. With it the gap in every joint is told, and taken off the pieces.',
})

const JOINT_KINDS = ['sliding', 'clamped'] as const

const GapLimit = lengthLeaf(
  'GapLimit',
  LENGTH_OR_ZERO,
  `The widest gap a joiner can take; ${formatMm(JOINT_DEFAULTS.gapLimitMm)} when left out.`,
)
const ExpansionJointLimit = lengthLeaf(
  'ExpansionJointLimit',
  LENGTH_OR_ZERO,
  `The widest gap an expansion joint can take; ${formatMm(JOINT_DEFAULTS.expansionJointLimitMm)} when left out.`,
)
const InsulatorThickness = lengthLeaf(
  'InsulatorThickness',
  LENGTH_OR_ZERO,
  `What an insulated joiner keeps between the rail ends; ${formatMm(JOINT_DEFAULTS.insulatorThicknessMm)} when left out.`,
)

const JOINT_ARRANGEMENTS = ['staggered', 'square'] as const

const Stagger = lengthLeaf(
  'Stagger',
  LENGTH_OR_ZERO,
  'How far along the track the joints of the two rails are kept apart. Not kept apart when left out.',
)

export const JointsSchema = fields({
  arrangement: choiceLeaf(
    'JointsArrangement',
    [...JOINT_ARRANGEMENTS],
    'an arrangement of joints',
    'square: the joints of the two rails opposite each other, as assembled track has them. staggered when left out.',
  ).optional(),
  stagger: Stagger.optional(),
  betweenTies: Flag.optional().openapi({
    description: 'Joints lie midway between two ties, the first tie at station 0. No when left out.',
  }),
  kind: choiceLeaf(
    'JointsKind',
    [...JOINT_KINDS],
    'a kind of joints',
    `Joiners in which the rail slides, or rigid clamps; ${JOINT_DEFAULTS.kind} when left out.`,
  ).optional(),
  held: Flag.optional().openapi({ description: 'Clamped rail is kept from moving altogether, not left to float.' }),
  gapLimit: GapLimit.optional(),
  expansionJointLimit: ExpansionJointLimit.optional(),
  insulatorThickness: InsulatorThickness.optional(),
}).openapi('Joints', { description: 'How rail is joined, and what its joints can take.' })

export const BreakSchema = fields({
  at: LengthOrZero,
  kind: choiceLeaf(
    'BreakKind',
    [...BREAK_KINDS],
    'a kind of break',
    'turnout: the rails end at one, which brings its own joiners; insulated: an insulated joiner in each rail; bridge-end: an ordinary joint that must fall there; expansion-joint: one in each rail.',
  ),
}).openapi('Break', {
  description:
    'A station, along the centre line, at which both rails are divided whatever the sticks are like. A closed track may have one at 0, where its ends meet; an open one at an end that joins other track.',
})

export const KeepOutSchema = fields({
  from: LengthOrZero,
  to: LengthOrZero,
  reason: Label.optional(),
}).openapi('KeepOut', {
  description: 'A stretch of the track, by stations on the centre line, in which no joint may lie: a bridge, a road.',
})

export function toKeepOut({ from, to, reason }: z.output<typeof KeepOutSchema>): KeepOut {
  return { from: from, to: to, reason: reason ?? null }
}

export function toClimate({ laying, coldest, hottest, sunAllowance }: z.output<typeof ClimateSchema>): ClimateInput {
  return { laying: laying, coldest: coldest, hottest: hottest, sunAllowance: sunAllowance }
}

export function toJoints(joints: z.output<typeof JointsSchema>): JointsInput {
  const { kind, arrangement, stagger, betweenTies, held, gapLimit, expansionJointLimit, insulatorThickness } = joints
  return {
    kind,
    arrangement,
    stagger: stagger,
    betweenTies,
    held,
    gapLimit: gapLimit,
    expansionJointLimit: expansionJointLimit,
    insulatorThickness: insulatorThickness,
  }
}

export function toBreak({ at, kind }: z.output<typeof BreakSchema>): Break {
  return { at: at, kind }
}
