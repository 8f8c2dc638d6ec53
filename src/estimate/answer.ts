import type { Bend } from '../bending/bends.ts'
import type { CalibrationAnswer, EasementForming } from '../bending/forming/types.ts'
import type { Finding } from '../checking/finding.ts'
import type { Bill } from '../laying/bill.ts'
import type { ClampedLength } from '../laying/clamped-lengths.ts'
import type { Cutting } from '../laying/cutting.ts'
import type { JointKind } from '../laying/joints.ts'
import type { FedBlock } from '../laying/power.ts'
import type { Money } from '../measure/money.ts'
import type { Assumption } from '../plan/fields/complete.ts'
import type { ReadyMadeChoice } from '../plan/rows/supplies.ts'
import type { TrackState, Turn } from '../plan/rows/track.ts'

export type { Bend, Ordinates } from '../bending/bends.ts'
export type { CalibrationAnswer, EasementForming } from '../bending/forming/types.ts'
export type { Finding, Severity } from '../checking/finding.ts'
export { BILL_ITEMS, BILL_UNITS, type Bill, type BillLine, type Reason } from '../laying/bill.ts'
export type { BendMark, CutPiece, CutStick, Cutting } from '../laying/cutting.ts'
export type { JointKind } from '../laying/joints.ts'

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
  /** Null where the plan lists no ready-made track. */
  readyMade: ReadyMadeAnswer | null
  /** Every joint, by track, station and rail. */
  joints: JointAnswer[]
  /** Null where the plan says nothing of the weather. */
  expansion: ExpansionAnswer | null
  bill: Bill
  /** Null where the plan asks for none. */
  roadbed: RoadbedAnswer | null
  /** Null where no current comes from the rails, or it cannot be told. */
  power: PowerAnswer | null
  findings: Finding[]
  assumptions: Assumption[]
  cautions: string[]
}

/**
 * Track that is made of ready-made pieces. `panel` is the place of a piece in `supplies.panels`; lengths are those of the
 * centre line, and angles null on straight pieces.
 */
export interface ReadyMadeAnswer {
  choice: ReadyMadeChoice
  /** Rail, pieces, joiners, ties and fasteners; null where something to buy has no price. */
  cost: Money | null
  /** The same without ready-made pieces; null also where there is too little of it. */
  looseCost: Money | null
  stretches: CoveredStretchAnswer[]
  /** One for each piece that is used, and what is cut from it: piece = pieces + kerf + offcut. */
  panels: UsedPanelAnswer[]
  /** Elements that stay loose rail, and why. */
  loose: { track: string; element: number; reason: string }[]
}

/** An element, or the part of one between two breaks, that is covered from end to end. */
export interface CoveredStretchAnswer {
  track: string
  element: number
  radiusMm: number | null
  /** Stations. */
  fromMm: number
  toMm: number
  /** What whole pieces fall short of it, left open in its joints. */
  leftOpenMm: number
  pieces: {
    panel: number
    /** Stations. */
    fromMm: number
    toMm: number
    lengthMm: number
    angleDeg: number | null
    /** Nothing is cut off it. */
    whole: boolean
  }[]
}

export interface UsedPanelAnswer {
  panel: number
  name: string
  lengthMm: number
  fromStock: boolean
  kerfMm: number
  offcutMm: number
  pieces: { track: string; element: number; lengthMm: number; angleDeg: number | null }[]
}

/** A place where two rail ends meet. The gaps are null without weather, or for a metal whose expansion is unknown. */
export interface JointAnswer {
  track: string
  rail: Turn
  /** Along that rail from its own start; a loop closes at 0. */
  atMm: number
  /** On the centre line, abreast of it. */
  stationMm: number
  kind: JointKind
  /** At the temperature of laying. */
  gapMm: number | null
  /** The same to the nearest 1/64 in, such as "5/64 in". */
  gapInch64: string | null
  gapColdestMm: number | null
  gapHottestMm: number | null
}

/**
 * What the rails do between the coldest and the hottest they get; temperatures are of the rail, °C. What hangs on the
 * metal's expansion is null where that is unknown.
 */
export interface ExpansionAnswer {
  joints: 'sliding' | 'clamped'
  held: boolean
  layingC: number
  coldestC: number
  hottestC: number
  expansionPerK: number | null
  /** From the coldest to the hottest. */
  growthPerMetreMm: number | null
  gapLimitMm: number
  expansionJointLimitMm: number
  /** The longest piece, or the longest clamped length, whose gaps are not too wide; null where there is no limit. */
  longestLengthMm: number | null
  /** Were the rail kept from moving: compression when hottest, tension when coldest, and the force in one rail. */
  heldStressHottestMpa: number | null
  heldStressColdestMpa: number | null
  heldForceHottestN: number | null
  heldForceColdestN: number | null
  /** Rail free sideways over this length buckles under that compression; null where there is none. */
  bucklingLengthMm: number | null
  /** Clamped rail that floats: the lengths that move as one. */
  lengths: ClampedLengthAnswer[]
  /** Clamped rail that floats: how far each arc moves out when hottest and in when coldest. */
  breathing: { track: string; element: number; radiusMm: number; outwardMm: number; inwardMm: number }[]
}

export type ClampedLengthAnswer = { -readonly [K in keyof ClampedLength]: ClampedLength[K] } & {
  track: string
  /** Of the longer of its rails, from the coldest to the hottest. */
  growthMm: number
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
  /** Added beside joints, where the plan asks for that; not among `ties`. */
  jointTies: number
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

/** Ballast. `volumeL` is loose, as it is brought; `inPlaceL` once it has settled. */
export interface RoadbedAnswer {
  kind: 'raised' | 'trench'
  filledTo: 'tie-top' | 'tie-bottom'
  section: { crownWidthMm: number; baseWidthMm: number; heightMm: number; areaMm2: number }
  inPlaceL: number
  /** What the ties take up of the bed. */
  tiesL: number
  shrinkagePct: number
  volumeL: number
  massKg: number
  /** Null where it is not sold in bags. */
  bags: number | null
  tracks: { track: string; inPlaceL: number; tiesL: number; volumeL: number }[]
}

export interface PowerAnswer {
  currentA: number
  supplyVoltageV: number
  allowedDropV: number
  /** Of one rail; both count. */
  railOhmPerM: number
  jointResistanceOhm: number
  /** Resistance and drop of the way there and back; null where the plan has none. */
  feeder: { areaMm2: number; lengthMm: number; resistanceOhm: number; dropV: number } | null
  blocks: FeedAnswer[]
  /** Null where no number of them keeps the allowed drop. */
  feeders: number | null
  /** Single wire, there and back, of all feeders. */
  wireMm: number | null
}

/** One stretch that is fed by itself; see `FedBlock`. */
export interface FeedAnswer extends FedBlock {
  track: string
  fromMm: number
  toMm: number
  joints: number
  /** With one feeder, at the start. */
  farEndV: number
}
