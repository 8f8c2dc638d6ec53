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
import { TOLD } from '../calibration/calibration.ts'
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
  'The range of a forming radius: for a yield 15 % higher and lower, or for the range of the calibration; over all tempers where the temper is unknown.',
  {
    lowMm: length({ title: 'Bend to radius, at least' }),
    highMm: length({ title: 'Bend to radius, at most' }),
  },
)

const SPRING_IN = object({
  endCoupleNm: number('Moment to be held at each end of the curve; constant in between, without a side force.'),
  forcePairN: number('The pair of forces on the last two ties that makes this couple: couple over tie spacing.'),
  tieSpacingMm: length(),
  setShare: number('Share of the curvature that the rail would keep if it were lifted again.'),
  setEndsFromMm: length('Length at each end of a stick that must be bent to the radius all the same, mm.'),
  setEndsToMm: length(),
  jointForceN: number(
    'At a joint whose ends are not set: outward force of each rail end on the last tie beside the joint, N.',
  ),
  jointForceSetEndsN: number('The same where the ends are set to the radius, N.'),
  jointKinkDeg: number('Angle between the two rails at a joint whose ends are not set, on ties that do not move.'),
  handForceN: number('Force of each hand that holds the rail in the curve while it is fastened, N.'),
})

export type SpringInAnswer = Answer<typeof SPRING_IN>

export const MACHINE_SETTING = object({
  depthMm: length({
    says: 'Depth of the last pass, from where the rollers just touch the straight rail, mm; by the test passes of the bender where there are any. For assembled track both rails have the same, for the radius of the centre line.',
    title: 'Rollers: depth from just touching',
  }),
  depthFrom: word(['test-passes', 'starting-estimate']),
  turns: nullable(number({ title: 'Turns of the screw' })),
  arcDepthMm: nullable(length('Depth if the loaded rail were an arc between the rollers, mm: an upper limit.')),
  elasticDepthMm: length('Depth up to which straight rail springs back straight, mm.'),
  passes: list(
    PASS,
    `The passes to the full depth, in steps of at most maxPerPass. Each meets rail that the one before has bent, so the last is deeper than a single pass would be. Passes that would leave the rail as it is are left out: those up to elasticDepthMm, and any that would not bend it further. Empty if more than ${MOST_PASSES} are needed, which the finding too-many-passes reports.`,
  ),
  pressStepMm: nullable(length('Pressed rail only: how far to move it on between two presses, mm.')),
  scallopMm: nullable(
    length(
      'Pressed rail only: by how much it is flatter between two presses than an even curve of its mean radius, mm.',
    ),
  ),
  straightEndMm: length({ title: 'Straight at each end' }),
  trimLengthMm: length({
    says: 'How much longer a stick must be so that both straight ends can be cut off, mm.',
    title: 'Extra length for trimming',
  }),
  ends: word(END_TREATMENTS),
})

export type MachineSetting = Answer<typeof MACHINE_SETTING>

const NO_MACHINE = word(
  ['no-rollers', 'yield-unknown', 'span-too-long', 'before-touching'],
  'Why machine is null. no-rollers: no roller bender is given; yield-unknown: there is neither a temper nor a test bend that gives the yield; span-too-long: the rail would have to be pressed in deeper than half the span; before-touching: by the line of the test passes the rollers would not touch the rail. Null where there is a setting.',
)

const ASSEMBLED = object({
  missMm: length(
    'By how much one setting for both rails misses the radius of this rail, mm: radius obtained minus radius wanted.',
  ),
  missPct: number(),
  creepMm: length('How far the inner rail extends beyond the outer one, mm.'),
  fixedEnd: word(ENDS),
  trimAt: word(ENDS),
})

export type AssembledAnswer = Answer<typeof ASSEMBLED>

export const BEND_FORMING = component('BendForming', 'How to bend one rail of one curve.', {
  method: word(METHODS, {
    says: 'The least work that is enough. spring-in: the rail is not bent; it is sprung into the curve, the ties hold it, and the ends of the sticks are set to the radius by hand. The other figures say how to bend it all the same.',
    title: 'Method',
  }),
  reasonId: word(METHOD_REASONS, 'The reason that decided the method.'),
  reason: text('The same in words.'),
  checks: list(METHOD_CHECK, 'What was compared: each figure with its limit and the method it points to.'),
  basis: nullable(
    text({
      says: "A temper, 'calibrated', 'own' (a metal given by its properties), or null where only the material is known.",
      title: 'Figures based on',
    }),
  ),
  formingRadiusMm: nullable(
    length({
      says: 'Radius of the middle line of the rail under load, mm; null where the yield is unknown.',
      title: 'Bend to radius, under load',
    }),
  ),
  overbendRatio: nullable(number({ title: 'Overbend ratio' })),
  band: RADIUS_BAND,
  tempers: list(
    object({ temper: text(), formingRadiusMm: length(), band: RADIUS_BAND }),
    'The figure for each temper, where the temper is unknown.',
  ),
  elasticLimitRadiusMm: nullable(length('Null, like the fields after it, where there is no single figure.')),
  elasticLimitSetShare: nullable(
    number('Share of the curvature that stays after bending to the elastic limit; 0 for metals with a sharp yield.'),
  ),
  momentNm: nullable(number({ title: 'Bending moment (N·m)' })),
  maxStrainPct: nullable(number()),
  elongationPct: nullable(number()),
  residualStressMpa: nullable(
    number('Stress at the outermost fibre of the stretched side, MPa; negative means compression.'),
  ),
  residualStressInsideMpa: nullable(number('The largest stress of the opposite sign inside the rail, MPa.')),
  springIn: nullable(
    SPRING_IN,
    'What it takes to spring the rail into place without bending it first; null where it would take a set, of more than setShare of the limits and beyond its elastic limit. Where the temper is unknown: of the temper that pushes hardest on the ties, and null unless the method is spring-in.',
  ),
  machine: nullable(
    MACHINE_SETTING,
    'How to set the roller bender; null where there is no setting, and noMachine says why.',
  ),
  noMachine: nullable(NO_MACHINE),
  assembled: nullable(ASSEMBLED, 'Only for assembled track.'),
})

export type BendForming = Answer<typeof BEND_FORMING>

export const ORDINATES = component(
  'Ordinates',
  'Distance of a bent rail from a chord, on the concave side of its head.',
  {
    chordMm: length({ title: 'Chord' }),
    midMm: length({ says: 'Ordinate at the middle of the chord, mm.', title: 'Middle ordinate' }),
    quarterMm: length({ says: 'Ordinate at the quarter points of the chord, mm.', title: 'Ordinate at the quarters' }),
    threeEighthsMm: length({
      says: 'Ordinate three eighths of the chord from its ends, mm.',
      title: 'Ordinate 3/8 from an end',
    }),
    eighthMm: length({
      says: 'Ordinate one eighth of the chord from its ends, mm.',
      title: 'Ordinate 1/8 from an end',
    }),
    radiusErrorPct: nullable(
      number({
        says: 'Largest error of the radius read on this chord at the given resolution, percent; null: such a reading could also mean straight rail.',
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
      atMm: length('Distance along the rail from the start of the easement, mm.'),
      wantedRadiusMm: nullable(length('Null where it is straight.')),
      formingRadiusMm: nullable(length()),
      depthMm: nullable(
        length(
          'Depth of the rollers at this place in the last pass, from where they just touch the straight rail, mm; in the passes before, no deeper than this and than the pass. 0 where it is straight; null without rollers or a yield, or where they cannot reach so deep.',
        ),
      ),
      turns: nullable(number('Turns of the screw; null without a depth or the pitch.')),
    }),
  ),
})

export type EasementForming = Answer<typeof EASEMENT_FORMING>

export const CALIBRATION_ANSWER = component('Calibration', 'What the test bends determine.', {
  effectiveYieldMpa: nullable(
    number('Null where the bends are passes of rail of known temper, or no yield explains them.'),
  ),
  lowMpa: nullable(number()),
  highMpa: nullable(number()),
  determined: word(['well', 'fairly', 'poorly']),
  from: word(['radii', 'passes']),
  tells: list(
    word(TOLD),
    'What the test bends determine. yield: of the metal, from bends round a form. offset: play of the bender and everything else that shifts its depths; scale: by what its depths are more than estimated, which takes passes of different depths. yield-or-offset: passes alone of rail of unknown temper cannot tell a higher yield from play; the yield is then given as if there was no play, so depths for this bender are right, and radii to bend to by other means may not be. One bend round a form tells the two apart.',
  ),
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
    'The line of this bender for this rail: depth = offset + scale × first estimate.',
  ),
})

export type CalibrationAnswer = Answer<typeof CALIBRATION_ANSWER>
