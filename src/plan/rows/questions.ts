import type { Open } from '../fields/field.ts'
import { count, length, list, nullable, number, part, price, radiusOrDiameter, shape } from '../fields/kinds.ts'
import { BENDER } from './bender.ts'
import { LIMITS } from './limits.ts'
import { PLAN } from './plan.ts'
import { MATERIAL, RAIL, temper } from './rail.ts'
import { STICK, SUPPLIES } from './supplies.ts'
import { ARC } from './track.ts'
import { label, onHand } from './words.ts'

/* What is asked without a plan, or beside one. */

const { gauge, chords, resolution, effort } = PLAN.fields

/** One curve by itself, as it is asked about at the bench. */
export const CURVE = shape(
  'Curve',
  'One curve by the radius or diameter of its centre line, its rail and what bends it. The angle only counts for assembled track.',
  {
    radius: radiusOrDiameter({ required: true }),
    gauge,
    rail: part(RAIL, { required: true }),
    chords: { ...chords, note: undefined },
    bender: part(BENDER, {}),
    resolution,
    angle: ARC.fields.angle,
  },
)

const CALIBRATED_RAIL = shape('CalibratedRail', 'A rail and at least one test bend of it.', {
  ...RAIL.fields,
  calibration: { ...RAIL.fields.calibration, presence: 'required' as const },
})

/** Test bends alone. */
export const CALIBRATION = shape('CalibrationRequest', 'A rail with its test bends, and the bender that made them.', {
  rail: part(CALIBRATED_RAIL, { required: true }),
  bender: part(BENDER, {}),
  resolution,
})

export const SETTING_OUT = shape('SettingOutRequest', 'A plan, and how far apart the pegs of its curves shall stand.', {
  plan: part(PLAN, { required: true }),
  interval: length({
    component: 'PegInterval',
    usual: 500,
    because: 'close enough to bend a lath around',
    says: 'Between pegs, along the centre line',
  }),
})

const CUT_PLAN_RUN = shape(
  'CutPlanRun',
  'A length of rail that is to be made up; its name is for whoever reads the request.',
  { name: label, length: length({ required: true }) },
)

const priceOfOne = { component: 'PriceOfOne', says: 'The price of one' } as const

const CUT_PLAN_STICK = shape(
  'CutPlanStick',
  'A length rail is sold in, singly, and how many of it lie in the shed and cost nothing.',
  { length: length({ required: true }), price: price({ ...priceOfOne, required: true }), onHand: onHand() },
)

export const CUT_PLAN = shape(
  'CutPlanRequest',
  `Runs to be cut from sticks, each made of pieces joined end to end. At most ${LIMITS.runs} runs, ${LIMITS.stickLengths} stick lengths and ${LIMITS.sticks} sticks.`,
  {
    runs: list(CUT_PLAN_RUN, { required: true, least: 1, most: LIMITS.runs }),
    sticks: list(CUT_PLAN_STICK, { required: true, least: 1, most: LIMITS.stickLengths }),
    kerf: SUPPLIES.fields.kerf,
    minimumPiece: SUPPLIES.fields.minimumPiece,
    joinerPrice: price({ ...priceOfOne, usual: '0.00', because: 'not given: joints cost nothing' }),
    effort,
  },
)

/** Rail a plan might be built of instead of its own; the section stays. */
export const MATERIAL_CHOICE = shape(
  'MaterialChoice',
  "Rail the plan might be built of; the section is the plan's. Where the material is the plan's own, its temper, test bends, sticks, prices and stock hold unless others are given. Of another metal without sticks of its own only the plan's lengths hold, unpriced, none on hand.",
  {
    material: part(MATERIAL, { required: true }),
    temper,
    sticks: list(STICK, { least: 1, most: LIMITS.stickLengths }),
  },
)

export const COMPARISON = shape('ComparisonRequest', 'A plan, and the materials to work it out in.', {
  plan: part(PLAN, { required: true }),
  materials: list(MATERIAL_CHOICE, { required: true, least: 1, most: LIMITS.comparedMaterials }),
})

/** An ordinate that was read; null was not. */
export const reading = nullable(length({ required: true, may: 'of either sign' }), {
  component: 'Reading',
  document: {
    type: ['number', 'string', 'null'],
    maxLength: 60,
    description: 'An ordinate; null was not read, a negative one bends the other way. A number is millimetres.',
    example: 12.5,
  },
})

export const station = count({
  component: 'StationIndex',
  required: true,
  least: 0,
  most: LIMITS.readings - 1,
  says: 'A station, counted from 0',
})

export const ordinate = length({ required: true, may: 'of either sign' })

export const BEND_CHECK = shape(
  'BendCheck',
  'Ordinates read along a bent rail or a laid curve. With a radius or diameter (of the face the chord touches) each is held against it; without, the curve is lined.',
  {
    chord: length({ required: true, label: 'Chord', hint: 'for example 500 or 12 in' }),
    readings: list(reading, {
      required: true,
      least: 1,
      most: LIMITS.readings,
      label: 'Readings',
      hint: 'one per line, or separated by spaces; a dash for a missing reading, a minus sign where the rail bends the other way',
    }),
    radius: radiusOrDiameter({
      label: 'Target curve size',
      hint: 'at the face the chord touches',
      blank: 'for lining a laid curve',
      called: 'curve size',
    }),
    proposed: list(ordinate, { most: LIMITS.readings, label: 'Target ordinates for lining' }),
    spacing: length({ label: 'Station spacing', blank: 'half the chord' }),
    resolution,
    tolerancePct: number({
      component: 'TolerancePct',
      least: 0,
      most: 100,
      unit: 'in percent',
      says: 'Of the target ordinate, percent; 5 when left out',
      label: 'Tolerance, %',
      hint: 'of the target ordinate',
      blank: '5',
      called: 'tolerance',
    }),
    fixed: list(station, {
      most: LIMITS.readings,
      label: 'Fixed stations',
      hint: 'laid curves only; counted from 0',
    }),
    maximumThrow: length({ label: 'Maximum throw', blank: 'no limit' }),
  },
)

export type CurveInput = Open<typeof CURVE.fields>
export type CalibrationInput = Open<typeof CALIBRATION.fields>
export type CutPlanInput = Open<typeof CUT_PLAN.fields>
export type MaterialChoice = Open<typeof MATERIAL_CHOICE.fields>
export type BendCheckAsked = Open<typeof BEND_CHECK.fields>
