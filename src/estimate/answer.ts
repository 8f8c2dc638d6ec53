import type { Bend } from '../bending/bends.ts'
import type { CalibrationAnswer, EasementForming } from '../bending/forming/types.ts'
import type { Finding } from '../checking/finding.ts'
import type { Bill } from '../laying/bill.ts'
import type { Cutting } from '../laying/cutting.ts'
import type { Turn } from '../track/types.ts'
import type { Assumption, TrackState } from './plan.ts'

export type { Bend, Ordinates } from '../bending/bends.ts'
export type { CalibrationAnswer, EasementForming } from '../bending/forming/types.ts'
export type { Finding, Severity } from '../checking/finding.ts'
export type { Bill, BillLine } from '../laying/bill.ts'
export type { BendMark, CutPiece, CutStick, Cutting } from '../laying/cutting.ts'

/** The answer to a plan. Field names are those of the JSON answer: the unit is part of the name, nothing is rounded. */
export interface Estimate {
  title: string | null
  rail: RailSummary
  tracks: TrackAnswer[]
  bends: Bend[]
  /** Forming radii along the easements, both rails of each. */
  easements: EasementForming[]
  /** What the plan's own test bends told; null without any. */
  calibration: CalibrationAnswer | null
  cutting: Cutting
  bill: Bill
  findings: Finding[]
  assumptions: Assumption[]
  cautions: string[]
}

/** The rail the plan is made of: all rails of all tracks together. */
export interface RailSummary {
  section: string
  material: string
  temper: string | null
  /** Null for a metal given without its density, and so is the mass. */
  massPerMetreKg: number | null
  lengthMm: number
  massKg: number | null
  /** Of the section, about its vertical axis. */
  sectionProperties: SectionPropertiesAnswer
}

export interface SectionPropertiesAnswer {
  areaMm2: number
  lateralSecondMomentMm4: number
  elasticModulusMm3: number
  plasticModulusMm3: number
  shapeFactor: number
  extremeFibreMm: number
}

export interface PoseAnswer {
  xMm: number
  yMm: number
  /** In [0, 360). */
  headingDeg: number
}

export interface TrackAnswer {
  name: string
  label: string | null
  /** Track that is not new has no ties and joints here, and is not cut, bent or bought. */
  state: TrackState
  lengthMm: number
  /** Signed, left positive, not reduced: a turn and an eighth is 405. */
  turnedDeg: number
  rails: { left: { lengthMm: number }; right: { lengthMm: number } }
  start: PoseAnswer & { elevationMm: number }
  end: PoseAnswer & { elevationMm: number }
  /** For a closed track how far its end misses its start; heading error in (−180, 180], elevation end − start. */
  closure: { gapMm: number; headingDeg: number; elevationMm: number } | null
  /** The straight grades the track is laid on, in order. */
  grades: { fromMm: number; toMm: number; gradePct: number }[]
  ties: number
  tieSpacingMm: number
  joints: number
  elements: ElementAnswer[]
}

export interface ElementAnswer {
  index: number
  kind: 'tangent' | 'easement' | 'arc'
  label: string | null
  fromMm: number
  toMm: number
  lengthMm: number
  /** Of the centre line; null on tangents and easements. */
  radiusMm: number | null
  /** Easements only: the radius at either end, null where it is straight. */
  startRadiusMm?: number | null
  endRadiusMm?: number | null
  /** An arc's own angle, > 0; an easement's turn, signed, left positive; 0 on a tangent. */
  angleDeg: number
  turn: Turn | null
  rails: { left: RailOfElement; right: RailOfElement }
  start: PoseAnswer
  end: PoseAnswer
}

/** A rail along one element: its length as laid (grade included) and the radius of its own line (null unless an arc). */
export interface RailOfElement {
  lengthMm: number
  radiusMm: number | null
}
