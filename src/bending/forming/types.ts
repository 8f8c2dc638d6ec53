import type { MethodLimits } from '../../plan/rows/bender.ts'
import type { MethodCheck, MethodReason } from '../method.ts'
import type { Pass } from '../roller/pass-schedule.ts'
import type { RollerBender } from '../roller/roller-bender.ts'

/** What one bends with, and how. Everything that was left open is filled in. */
export interface Bender {
  /** Rail before it is laid on ties, or track as it comes, both rails in one go. */
  readonly work: 'loose-rail' | 'assembled'
  /** Null: no machine; then hand bending is all that is worked out. */
  readonly roller: RollerBender | null
  /** What is done about the half span at each end that rollers cannot bend. */
  readonly ends: 'trim' | 'finish-by-hand' | 'join-and-roll-through'
  /** Assembled track: the end at which both rails are held; the inner one creeps out at the other. */
  readonly fixedEnd: 'start' | 'end'
  readonly limits: MethodLimits
}

/** How to bend one rail of one curve. Units as in the names; nothing is rounded. */
export interface BendForming {
  method: 'hand' | 'machine'
  /** The reason that decided, as an id and in words. */
  reasonId: MethodReason
  reason: string
  /** What was weighed: each with its figure, its limit and which way it points. */
  checks: MethodCheck[]
  /** The temper, 'calibrated', 'own' (a metal given by its numbers) or null when nothing is known but the material. */
  basis: string | null
  /** Radius of the rail's line to bend to, under load. Null when neither temper nor test bend is known: see `band`. */
  formingRadiusMm: number | null
  overbendRatio: number | null
  /** With a yield: radius at its +15 % and −15 % (or at the calibration's own band). Without: over all tempers. */
  band: { lowMm: number; highMm: number }
  /** Only where the temper is unknown: each temper's own figure. */
  tempers: { temper: string; formingRadiusMm: number; band: { lowMm: number; highMm: number } }[]
  /** The rest is null where there is no single figure. */
  elasticLimitRadiusMm: number | null
  /** Share of the curvature that stays at the elastic limit: 0 for metals with a sharp yield. */
  elasticLimitSetShare: number | null
  momentNm: number | null
  maxStrainPct: number | null
  elongationPct: number | null
  /** At the outermost fibre of the stretched side: negative means pressed together. */
  residualStressMpa: number | null
  /** The greatest of the opposite sign inside. */
  residualStressInsideMpa: number | null
  /** Where the rail can be sprung in without bending it first; null where it would take a set. */
  springIn: SpringInAnswer | null
  /** Setting of the roller bender; where it is null, `noMachine` says why. */
  machine: MachineSetting | null
  noMachine: NoMachine | null
  /** Assembled track only. */
  assembled: AssembledAnswer | null
}

export interface SpringInAnswer {
  endCoupleNm: number
  forcePairN: number
  tieSpacingMm: number
  setShare: number
  /** How much of each stick's ends to set to the radius all the same. */
  setEndsFromMm: number
  setEndsToMm: number
}

/**
 * Why there is no setting: no roller bender is told of; nothing tells the yield; the rail would have to be pressed in
 * deeper than half the span; or by the bender's own line of test passes it would not even be touched.
 */
export type NoMachine = 'no-rollers' | 'yield-unknown' | 'span-too-long' | 'before-touching'

export interface MachineSetting {
  /** From just touching the straight bar; from the bender's own test passes where there are any. */
  depthMm: number
  depthFrom: 'test-passes' | 'starting-estimate'
  turns: number | null
  /** Were the loaded rail an arc between the rollers: the upper figure. */
  arcDepthMm: number | null
  elasticDepthMm: number
  /** Empty where it would take more than a hundred. */
  passes: Pass[]
  pressStepMm: number | null
  straightEndMm: number
  /** How much longer a stick must be for both ends to be cut off. */
  trimLengthMm: number
  ends: Bender['ends']
}

export interface AssembledAnswer {
  /** What one setting for both rails gives this rail: got minus wanted. */
  missMm: number
  missPct: number
  /** How far the inner rail stands out past the outer. */
  creepMm: number
  fixedEnd: 'start' | 'end'
  trimAt: 'start' | 'end'
}

/** A chord of the measuring sheet; ordinates from the chord's middle outwards. */
export interface SheetOrdinates {
  chordMm: number
  midMm: number
  quarterMm: number
  /** At three eighths and at one eighth of the chord from its end. */
  threeEighthsMm: number
  eighthMm: number
  /** Worst error of the radius read with it at the stated resolution, percent; null: it might as well be straight. */
  radiusErrorPct: number | null
}

/** Forming radii along one rail of one easement. */
export interface EasementForming {
  track: string
  element: number
  side: 'left' | 'right'
  /** `atMm` runs along that rail from where the easement begins on it; null radii: straight. */
  stations: { atMm: number; wantedRadiusMm: number | null; formingRadiusMm: number | null }[]
}

/** What test bends told about the rail of a plan. */
export interface CalibrationAnswer {
  effectiveYieldMpa: number | null
  lowMpa: number | null
  highMpa: number | null
  determined: 'well' | 'fairly' | 'poorly'
  from: 'radii' | 'passes'
  consistent: boolean
  readings: {
    yieldMpa: number | null
    lowMpa: number | null
    highMpa: number | null
    sensitivity: number | null
    used: boolean
  }[]
  /** This bender's own line for this rail: depth = offset + scale × starting estimate. */
  benderLine: { offsetMm: number; scale: number; passes: number; spreadMm: number | null } | null
}
