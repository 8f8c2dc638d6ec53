import type { TestBend } from '../bending/calibration/test-bend.ts'
import type { Bender } from '../bending/forming/types.ts'
import type { Metal } from '../bending/metal.ts'
import type { MethodLimits } from '../bending/method.ts'
import type { RectangleStack, SectionProperties } from '../bending/section-properties.ts'
import type { Material } from '../catalogue/types.ts'
import type { Standards } from '../checking/standards.ts'
import type { Break } from '../laying/breaks.ts'
import type { Effort } from '../laying/cutting/plan-chains.ts'
import type { KeepOut } from '../laying/joint-places.ts'
import type { Supplies } from '../laying/supplies.ts'
import type { GradePoint } from '../track/grade.ts'
import type { Element } from '../track/types.ts'

export type { TestBend } from '../bending/calibration/test-bend.ts'
export type { Standards } from '../checking/standards.ts'
export type { Effort } from '../laying/cutting/plan-chains.ts'
export type { Pack, Stick, Supplies } from '../laying/supplies.ts'
export type { Fault } from '../measure/fault.ts'
export type { GradePoint } from '../track/grade.ts'

/**
 * A plan as somebody wrote it, in the program's own units (mm, radians, percent), with everything optional still
 * absent. `completePlan` turns it into a `Plan` and lists what it assumed.
 */
export interface PlanInput {
  readonly title?: string | undefined
  readonly gaugeMm?: number | undefined
  readonly rail: RailInput
  readonly tracks: readonly TrackInput[]
  readonly supplies?: SuppliesInput | undefined
  readonly standards?: StandardsInput | undefined
  readonly chordsMm?: readonly number[] | undefined
  readonly bender?: BenderInput | undefined
  readonly climate?: ClimateInput | undefined
  readonly joints?: JointsInput | undefined
  /** How hard to look for the best cut plan. */
  readonly effort?: Effort | undefined
  /** How far an ordinate may be misread, either way. */
  readonly resolutionMm?: number | undefined
}

export interface RailInput {
  readonly section: string | CustomSection | RectangleSection
  readonly material: string | CustomMetal
  /** Not together with a metal given by its numbers. */
  readonly temper?: string | undefined
  /** Test bends of this very rail. */
  readonly calibration?: readonly TestBend[] | undefined
}

/** A section as a stack of rectangles, foot first, head last. */
export interface RectangleSection {
  readonly rectangles: RectangleStack
}

/** A metal given by its numbers instead of a name. */
export interface CustomMetal {
  readonly youngsModulusGpa: number
  readonly yieldMpa: number
  readonly hardening:
    | { readonly model: 'ramberg-osgood'; readonly n: number }
    | { readonly model: 'linear'; readonly tangentModulusGpa: number }
    | { readonly model: 'perfectly-plastic' }
  readonly elongationPct?: number | undefined
  readonly densityKgM3?: number | undefined
  readonly expansionPerK?: number | undefined
  readonly resistivityOhmM?: number | undefined
}

/** What one bends with. The four roller figures go together: all or none. */
export interface BenderInput {
  readonly work?: 'loose-rail' | 'assembled' | undefined
  readonly spanMm?: number | undefined
  readonly outerRollerRadiusMm?: number | undefined
  readonly bearsOn?: 'head' | 'web' | 'foot' | undefined
  readonly mode?: 'rolled' | 'pressed' | undefined
  readonly maxPerPassMm?: number | undefined
  readonly screwPitchMm?: number | undefined
  readonly ends?: 'trim' | 'finish-by-hand' | 'join-and-roll-through' | undefined
  readonly fixedEnd?: 'start' | 'end' | undefined
  readonly limits?: { readonly [K in keyof MethodLimits]?: MethodLimits[K] | undefined } | undefined
}

/** A section measured with calipers, mm. The two depths may be left out and are then filled by proportion. */
export interface CustomSection {
  readonly heightMm: number
  readonly headWidthMm: number
  readonly footWidthMm: number
  readonly webThicknessMm: number
  readonly headDepthMm?: number | undefined
  readonly footDepthMm?: number | undefined
}

export interface TrackInput {
  readonly name: string
  readonly label?: string | undefined
  readonly start?:
    | {
        readonly xMm?: number | undefined
        readonly yMm?: number | undefined
        readonly headingDeg?: number | undefined
        readonly elevationMm?: number | undefined
      }
    | undefined
  readonly closed?: boolean | undefined
  readonly joinsExisting?: { readonly start?: boolean | undefined; readonly end?: boolean | undefined } | undefined
  readonly gradeLine?: readonly GradePoint[] | undefined
  readonly breaks?: readonly Break[] | undefined
  readonly keepOut?: readonly KeepOut[] | undefined
  readonly elements: readonly Element[]
}

/** The temperatures rail is laid at and lives through. */
export interface ClimateInput {
  /** Of the rail. */
  readonly layingC: number
  /** Of the air. */
  readonly coldestC: number
  readonly hottestC: number
  /** By how much rail in the sun is hotter than the air. */
  readonly sunAllowanceK?: number | undefined
}

/** How rail is joined, and what its joints can take. */
export interface JointsInput {
  readonly kind?: 'sliding' | 'clamped' | undefined
  /** Joints of the two rails opposite each other, or not. */
  readonly arrangement?: 'staggered' | 'square' | undefined
  /** How far the joints of the two rails are kept apart. */
  readonly staggerMm?: number | undefined
  /** Joints midway between two ties. */
  readonly betweenTies?: boolean | undefined
  /** Clamped rail that is kept from moving. */
  readonly held?: boolean | undefined
  readonly gapLimitMm?: number | undefined
  readonly expansionJointLimitMm?: number | undefined
  readonly insulatorThicknessMm?: number | undefined
}

export interface StickInput {
  readonly lengthMm: number
  readonly price?: string | undefined
  readonly packSize?: number | undefined
  readonly onHand?: number | undefined
  readonly buyable?: boolean | undefined
}

export interface PackInput {
  readonly packSize?: number | undefined
  readonly pricePerPack?: string | undefined
  readonly onHand?: number | undefined
}

export interface SuppliesInput {
  readonly currency?: string | undefined
  readonly sticks?: readonly StickInput[] | undefined
  readonly joiners?: PackInput | undefined
  readonly ties?:
    | (PackInput & { readonly spacingMm?: number | undefined; readonly fastenersPerTie?: number | undefined })
    | undefined
  readonly fasteners?: PackInput | undefined
  readonly insulatedJoiners?: PackInput | undefined
  readonly expansionJoints?: PackInput | undefined
  readonly kerfMm?: number | undefined
  readonly minimumPieceMm?: number | undefined
}

export interface StandardsInput {
  readonly minimumRadiusMm?: number | undefined
  readonly maximumGradePct?: number | undefined
  readonly longestCarMm?: number | undefined
  readonly minimumTangentBetweenReverseCurvesMm?: number | undefined
  readonly closureGapMm?: number | undefined
  readonly closureHeadingDeg?: number | undefined
}

/** The rail's section, whether from the catalogue, from six caliper numbers or from rectangles. */
export interface PlanSection {
  readonly id: string
  readonly name: string
  readonly heightMm: number
  readonly headWidthMm: number
  readonly properties: SectionProperties
}

/** The rail's metal, whether from the catalogue or by its numbers. */
export interface PlanMetal {
  readonly id: string
  readonly name: string
  /** As named in the plan; null where it is not, and for a metal given by its numbers. */
  readonly temper: string | null
  /** What it may be; empty for a metal given by its numbers. */
  readonly tempers: Material['tempers']
  /** Of the temper, or of the material's usual one. */
  readonly nominal: Metal
  readonly densityKgM3: number | null
  readonly expansionPerK: number | null
}

/** The temperatures of the rail: when it is laid, and at either extreme, the sun included. */
export interface Climate {
  readonly layingC: number
  readonly coldestC: number
  readonly hottestC: number
}

export interface Joints {
  readonly kind: 'sliding' | 'clamped'
  readonly arrangement: 'staggered' | 'square'
  /** Null: the joints of the two rails may lie opposite each other. */
  readonly staggerMm: number | null
  readonly betweenTies: boolean
  readonly held: boolean
  /** The widest gap a joiner can take. */
  readonly gapLimitMm: number
  /** The same of an expansion joint. */
  readonly expansionJointLimitMm: number
  readonly insulatorThicknessMm: number
}

/** A plan with nothing left open. Rules that stay unchecked are null. Prices are exact decimal strings or null. */
export interface Plan {
  readonly title: string | null
  readonly gaugeMm: number
  readonly section: PlanSection
  readonly metal: PlanMetal
  readonly calibration: readonly TestBend[]
  readonly bender: Bender
  readonly climate: Climate | null
  readonly joints: Joints
  readonly tracks: readonly Track[]
  readonly supplies: Supplies
  readonly standards: Standards
  readonly effort: Effort
  readonly chordsMm: readonly number[]
  readonly resolutionMm: number
}

export interface Track {
  readonly name: string
  readonly label: string | null
  readonly start: { readonly xMm: number; readonly yMm: number; readonly headingDeg: number }
  readonly closed: boolean
  readonly joinsExisting: { readonly start: boolean; readonly end: boolean }
  /** Never empty; the first point stands at station 0. */
  readonly gradeLine: readonly GradePoint[]
  /** Along the track. */
  readonly breaks: readonly Break[]
  readonly keepOut: readonly KeepOut[]
  readonly elements: readonly Element[]
}

/** A default that was used: the field as a JSON Pointer into the plan, the value as people write it, and why. */
export interface Assumption {
  readonly field: string
  readonly value: string
  readonly reason: string
}
