import type { Turn } from '../track/types.ts'
import type { Assumption } from './plan.ts'

/** The answer to a plan. Field names are those of the JSON answer: the unit is part of the name, nothing is rounded. */
export interface Estimate {
  title: string | null
  rail: RailSummary
  tracks: TrackAnswer[]
  bends: Bend[]
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
  massPerMetreKg: number
  lengthMm: number
  massKg: number
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

export interface Ordinates {
  chordMm: number
  midMm: number
  quarterMm: number
}

/** One rail of one arc, to be bent and measured. */
export interface Bend {
  track: string
  element: number
  rail: 'outer' | 'inner'
  side: Turn
  turn: Turn
  radiusMm: number
  measuredRadiusMm: number
  lengthMm: number
  ordinates: Ordinates[]
}

export interface Cutting {
  sticks: CutStick[]
  sticksUsed: number
  sticksLowerBound: number
  wasteMm: number
  reusableMm: number
}

export interface CutStick {
  lengthMm: number
  fromStock: boolean
  kerfMm: number
  offcutMm: number
  pieces: CutPiece[]
}

export interface CutPiece {
  track: string
  rail: Turn
  /** Along that rail from its own start. */
  fromMm: number
  lengthMm: number
  bends: BendMark[]
}

/**
 * Where on a piece a bend begins and ends, from the piece's own start. On an arc `radiusMm` is the radius of the rail's
 * line; along an easement it is null and the radius runs from `startRadiusMm` to `endRadiusMm` (null = straight).
 */
export interface BendMark {
  fromMm: number
  toMm: number
  radiusMm: number | null
  startRadiusMm?: number | null
  endRadiusMm?: number | null
  turn: Turn
}

export interface Bill {
  currency: string
  lines: BillLine[]
  /** Priced lines only. */
  total: string
  unpricedLines: number
}

export interface BillLine {
  item: 'rail-stick' | 'joiner' | 'tie' | 'fastener'
  description: string
  /** The length of one piece where the item has one, otherwise null. */
  lengthMm: number | null
  unit: 'each'
  required: number
  onHand: number
  toBuy: number
  packSize: number
  packs: number
  /** The price of one pack, two decimals; null without a price, and then the amount is null too. */
  unitPrice: string | null
  amount: string | null
}

export type Severity = 'stop' | 'warn' | 'note'

export interface Finding {
  rule: string
  severity: Severity
  /** Null: the whole plan. */
  track: string | null
  /** Null: the whole track. */
  element: number | null
  message: string
  measured: number | null
  limit: number | null
  unit: string | null
  cure: string
}
