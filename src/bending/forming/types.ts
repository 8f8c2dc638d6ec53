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
import type { MethodLimits } from '../../plan/rows/bender.ts'
import { TURNS } from '../../plan/rows/track.ts'
import { METHOD_CHECK, METHOD_REASONS, METHODS } from '../method.ts'
import { MOST_PASSES, PASS } from '../roller/pass-schedule.ts'
import type { RollerBender } from '../roller/roller-bender.ts'

const END_TREATMENTS = ['trim', 'finish-by-hand', 'join-and-roll-through'] as const
const ENDS = ['start', 'end'] as const

/** The bender and how it is used, with all defaults filled in. */
export interface Bender {
  /** Rail before it is laid on ties, or assembled track, both rails together. */
  readonly work: 'loose-rail' | 'assembled'
  /** Null: no machine; then only hand bending is calculated. */
  readonly roller: RollerBender | null
  /** What is done about the half span at each end that rollers cannot bend. */
  readonly ends: (typeof END_TREATMENTS)[number]
  /** Assembled track: the end at which both rails are held; the inner one creeps out at the other. */
  readonly fixedEnd: (typeof ENDS)[number]
  readonly limits: MethodLimits
}

export const RADIUS_BAND = component(
  'RadiusBand',
  "Between these a forming radius lies: of a yield 15 % higher and lower, or of the calibration's own band; over all tempers where none is known.",
  {
    lowMm: length({ title: 'Bend to radius, at least' }),
    highMm: length({ title: 'Bend to radius, at most' }),
  },
)

const SPRING_IN = object({
  endCoupleNm: number(),
  forcePairN: number(),
  tieSpacingMm: length(),
  setShare: number(),
  setEndsFromMm: length("How much of each stick's ends to set to the radius all the same."),
  setEndsToMm: length(),
})

export type SpringInAnswer = Answer<typeof SPRING_IN>

export const MACHINE_SETTING = object({
  depthMm: length({
    says: "From just touching the straight bar; from the bender's own test passes where there are any.",
    title: 'Rollers: depth from just touching',
  }),
  depthFrom: word(['test-passes', 'starting-estimate']),
  turns: nullable(number({ title: 'Turns of the screw' })),
  arcDepthMm: nullable(length('Were the loaded rail an arc between the rollers: the upper figure.')),
  elasticDepthMm: length(),
  passes: list(
    PASS,
    `To the depth in equal steps of at most maxPerPass; empty where that takes more than ${MOST_PASSES}, which the finding too-many-passes says.`,
  ),
  pressStepMm: nullable(length()),
  straightEndMm: length({ title: 'Straight at each end' }),
  trimLengthMm: length({
    says: 'How much longer a stick must be for both ends to be cut off.',
    title: 'Extra length for trimming',
  }),
  ends: word(END_TREATMENTS),
})

export type MachineSetting = Answer<typeof MACHINE_SETTING>

const NO_MACHINE = word(
  ['no-rollers', 'yield-unknown', 'span-too-long', 'before-touching'],
  'Why machine is null. no-rollers: the request tells of no roller bender; yield-unknown: neither temper nor test bends tell the yield; span-too-long: the rail would have to be pressed in deeper than half the span; before-touching: by the line of the test passes the rail would not even be touched. Null where there is a setting.',
)

const ASSEMBLED = object({
  missMm: length('What one setting for both rails gives this rail: got minus wanted.'),
  missPct: number(),
  creepMm: length('How far the inner rail stands out past the outer.'),
  fixedEnd: word(ENDS),
  trimAt: word(ENDS),
})

export type AssembledAnswer = Answer<typeof ASSEMBLED>

export const BEND_FORMING = component('BendForming', 'How to bend one rail of one curve.', {
  method: word(METHODS, { title: 'Bent by' }),
  reasonId: word(METHOD_REASONS, 'The reason that decided.'),
  reason: text('The same in words.'),
  checks: list(METHOD_CHECK, 'What was weighed: each with its figure, its limit and which way it points.'),
  basis: nullable(
    text({
      says: "A temper, 'calibrated', 'own' (a metal given by its numbers), or null where only the material is known.",
      title: 'Figures based on',
    }),
  ),
  formingRadiusMm: nullable(
    length({
      says: "Of the rail's own line, under load; null where nothing tells the yield.",
      title: 'Bend to radius, under load',
    }),
  ),
  overbendRatio: nullable(number({ title: 'Overbend ratio' })),
  band: RADIUS_BAND,
  tempers: list(
    object({ temper: text(), formingRadiusMm: length(), band: RADIUS_BAND }),
    "Each temper's own figure, where the temper is unknown.",
  ),
  elasticLimitRadiusMm: nullable(length('Null, as what follows, where there is no single figure.')),
  elasticLimitSetShare: nullable(
    number('Share of the curvature that stays at the elastic limit: 0 for metals with a sharp yield.'),
  ),
  momentNm: nullable(number({ title: 'Bending moment (N·m)' })),
  maxStrainPct: nullable(number()),
  elongationPct: nullable(number()),
  residualStressMpa: nullable(number('At the outermost fibre of the stretched side: negative means pressed together.')),
  residualStressInsideMpa: nullable(number('The greatest of the opposite sign inside.')),
  springIn: nullable(
    SPRING_IN,
    'Where the rail can be sprung in without bending it first; null where it would take a set.',
  ),
  machine: nullable(
    MACHINE_SETTING,
    'How to set the roller bender; null where it cannot be told, and noMachine says why.',
  ),
  noMachine: nullable(NO_MACHINE),
  assembled: nullable(ASSEMBLED, 'Assembled track only.'),
})

export type BendForming = Answer<typeof BEND_FORMING>

export const ORDINATES = component(
  'Ordinates',
  'How far a bent rail stands off a chord, on the concave side of its head.',
  {
    chordMm: length({ title: 'Chord' }),
    midMm: length({ says: 'At the middle of the chord.', title: 'Middle ordinate' }),
    quarterMm: length({ says: 'At its quarter points.', title: 'Ordinate at the quarters' }),
    threeEighthsMm: length({
      says: 'Three eighths of the chord from its ends.',
      title: 'Ordinate 3/8 from an end',
    }),
    eighthMm: length({ says: 'An eighth of the chord from its ends.', title: 'Ordinate 1/8 from an end' }),
    radiusErrorPct: nullable(
      number({
        says: 'Worst error of the radius read on this chord at the stated resolution, percent; null: it might as well be straight.',
        title: 'Radius error (%)',
      }),
    ),
  },
)

/** A chord of the measuring sheet; ordinates from the chord's middle outwards. */
export type SheetOrdinates = Answer<typeof ORDINATES>

export const EASEMENT_FORMING = component('EasementForming', 'Forming radii along one rail of an easement.', {
  track: text(),
  element: count(),
  side: word(TURNS),
  stations: list(
    object({
      atMm: length('Along that rail from where the easement begins on it.'),
      wantedRadiusMm: nullable(length('Null where it is straight.')),
      formingRadiusMm: nullable(length()),
    }),
  ),
})

export type EasementForming = Answer<typeof EASEMENT_FORMING>

export const CALIBRATION_ANSWER = component('Calibration', 'What test bends told.', {
  effectiveYieldMpa: nullable(number()),
  lowMpa: nullable(number()),
  highMpa: nullable(number()),
  determined: word(['well', 'fairly', 'poorly']),
  from: word(['radii', 'passes']),
  consistent: flag(),
  readings: list(
    object({
      yieldMpa: nullable(number()),
      lowMpa: nullable(number()),
      highMpa: nullable(number()),
      sensitivity: nullable(number()),
      used: flag(),
    }),
  ),
  benderLine: nullable(
    object({ offsetMm: length(), scale: number(), passes: count(), spreadMm: nullable(length()) }),
    "This bender's own line for this rail: depth = offset + scale × starting estimate.",
  ),
})

export type CalibrationAnswer = Answer<typeof CALIBRATION_ANSWER>
