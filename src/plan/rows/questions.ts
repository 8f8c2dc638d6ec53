import type { Open } from '../fields/field.ts'
import {
  count,
  flag,
  length,
  list,
  name,
  nullable,
  number,
  part,
  price,
  radiusOrDiameter,
  shape,
} from '../fields/kinds.ts'
import { BENDER } from './bender.ts'
import { LIMITS } from './limits.ts'
import { PLAN } from './plan.ts'
import { MATERIAL, RAIL, temper } from './rail.ts'
import { STICK, SUPPLIES } from './supplies.ts'
import { arcAngle } from './track.ts'
import { label, onHand } from './words.ts'

/* What is asked without a plan, or beside one. */

const { gauge, chords, resolution, effort } = PLAN.fields

/** One curve by itself, as it is asked about at the bench. */
export const CURVE = shape(
  'Curve',
  'One curve, given by the radius or diameter of its centre line, with its rail and bender. The angle is used for assembled track only.',
  {
    radius: radiusOrDiameter({ required: true }),
    gauge,
    rail: part(RAIL, { required: true }),
    chords: { ...chords, note: undefined },
    bender: part(BENDER, {}),
    resolution,
    angle: arcAngle,
  },
)

const CALIBRATED_RAIL = shape('CalibratedRail', 'A rail and at least one test bend of it.', {
  ...RAIL.fields,
  calibration: { ...RAIL.fields.calibration, presence: 'required' as const },
})

/** Test bends alone. */
export const CALIBRATION = shape(
  'CalibrationRequest',
  'A rail with its test bends, and the bender they were made with.',
  {
    rail: part(CALIBRATED_RAIL, { required: true }),
    bender: part(BENDER, {}),
    resolution,
  },
)

export const SETTING_OUT = shape('SettingOutRequest', 'A plan, and the distance between the pegs of its curves.', {
  plan: part(PLAN, { required: true }),
  interval: length({
    component: 'PegInterval',
    usual: 500,
    because: 'close enough to bend a lath around',
    says: 'Distance between pegs along the centre line',
  }),
})

export const FITS = shape(
  'FitsRequest',
  'A plan that leaves lengths or angles open ("fit"), or a path (an element of kind "connect").',
  {
    plan: part(PLAN, { required: true }),
    keepClear: flag({
      component: 'KeepClear',
      usual: false,
      says: 'Whether only ways are answered on which the cars of the plan touch no obstacle and no car on another track',
    }),
    margin: length({
      component: 'Margin',
      may: 'zero or more',
      usual: 0,
      says: 'With keepClear: room that is left on either side of the cars beside all that',
    }),
    turnouts: flag({
      component: 'TurnoutsAtEnds',
      usual: false,
      says: 'Whether an end of a connection that lies on a straight of another track is to leave it there by a turnout that is on hand (turnoutTypes[].onHand); the start and the end of its track say which way it leads',
    }),
  },
)

export const MOVE = shape('MoveRequest', 'A plan, and by how much one of its tracks is to be moved on the sheet.', {
  plan: part(PLAN, { required: true }),
  track: name({
    component: 'MovedTrackName',
    required: true,
    longest: 100,
    says: 'Name of a track of the plan that starts at a position of its own',
  }),
  x: length({
    may: 'of either sign',
    usual: 0,
    note: 'To the right; less than zero: to the left.',
    label: 'To the right',
  }),
  y: length({ may: 'of either sign', usual: 0, note: 'Up the sheet; less than zero: down.', label: 'Up' }),
})

const CUT_PLAN_RUN = shape('CutPlanRun', 'A length of rail to make from pieces. The name is a remark of your own.', {
  name: label,
  length: length({ required: true }),
})

const priceOfOne = { component: 'PriceOfOne', says: 'Price of one' } as const

const CUT_PLAN_STICK = shape(
  'CutPlanStick',
  'A length of rail that is sold singly, and how many are on hand, which cost nothing.',
  { length: length({ required: true }), price: price({ ...priceOfOne, required: true }), onHand: onHand() },
)

export const CUT_PLAN = shape(
  'CutPlanRequest',
  `Runs of rail to cut from sticks; each run is made of pieces joined end to end. At most ${LIMITS.runs} runs, ${LIMITS.stickLengths} stick lengths and ${LIMITS.sticks} sticks.`,
  {
    runs: list(CUT_PLAN_RUN, { required: true, least: 1, most: LIMITS.runs }),
    sticks: list(CUT_PLAN_STICK, { required: true, least: 1, most: LIMITS.stickLengths }),
    currency: SUPPLIES.fields.currency,
    kerf: SUPPLIES.fields.kerf,
    minimumPiece: SUPPLIES.fields.minimumPiece,
    joinerPrice: price({ ...priceOfOne, usual: '0.00', because: 'not given: joints cost nothing' }),
    effort,
  },
)

/** Rail a plan might be built of instead of its own; the section stays. */
const MATERIAL_CHOICE = shape(
  'MaterialChoice',
  'A material for the rail of the plan; its section stays. If it is the material of the plan, the temper, test bends, sticks, prices and stock of the plan apply unless others are given. For another material without sticks, the stick lengths of the plan apply, without prices and with none on hand.',
  {
    material: part(MATERIAL, { required: true }),
    temper,
    sticks: list(STICK, { least: 1, most: LIMITS.stickLengths }),
  },
)

export const COMPARISON = shape('ComparisonRequest', 'A plan, and the materials to compare it in.', {
  plan: part(PLAN, { required: true }),
  materials: list(MATERIAL_CHOICE, { required: true, least: 1, most: LIMITS.comparedMaterials }),
})

/** An ordinate that was read; null was not. */
export const reading = nullable(length({ required: true, may: 'of either sign' }), {
  component: 'Reading',
  document: {
    type: ['number', 'string', 'null'],
    maxLength: 60,
    description:
      'An ordinate; null if it was not read, negative where the rail bends the other way. A number is millimetres.',
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
  'Ordinates read along a bent rail or a laid curve. If a radius or diameter is given (of the face that the chord touches), each ordinate is checked against it; if not, the curve is lined.',
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
      says: 'Tolerance, percent of the target ordinate; 5 when left out',
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

export interface CurveInput extends Open<typeof CURVE.fields> {}
export interface CalibrationInput extends Open<typeof CALIBRATION.fields> {}
export interface MaterialChoice extends Open<typeof MATERIAL_CHOICE.fields> {}
