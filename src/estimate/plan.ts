import type { TestBend } from '../bending/calibration/test-bend.ts'
import type { Bender } from '../bending/forming/types.ts'
import type { Metal } from '../bending/metal.ts'
import type { MethodLimits } from '../bending/method.ts'
import type { RectangleStack, SectionProperties } from '../bending/section-properties.ts'
import type { Material } from '../catalogue/types.ts'
import type { Standards } from '../checking/standards.ts'
import type { Supplies } from '../laying/supplies.ts'
import type { GradePoint } from '../track/grade.ts'
import type { Element, Turn } from '../track/types.ts'

export type { TestBend } from '../bending/calibration/test-bend.ts'
export type { Standards } from '../checking/standards.ts'
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
  /** New track is what the bill is for; existing track stays; lifted track goes, and its material is on hand. */
  readonly state?: TrackState | undefined
  readonly joinsExisting?:
    | { readonly start?: boolean | ExistingEnd | undefined; readonly end?: boolean | ExistingEnd | undefined }
    | undefined
  readonly gradeLine?: readonly GradePoint[] | undefined
  readonly elements: readonly Element[]
}

export type TrackState = 'new' | 'existing' | 'lifted'

/** What lies where a track joins track that is already there. Radius and turn go together: both or neither. */
export interface ExistingEnd {
  readonly section: string
  readonly material: string
  /** Of its centre line where the two meet; straight when left out. */
  readonly radiusMm?: number | undefined
  /** As one goes along the plan's own track, from its start to its end. */
  readonly turn?: Turn | undefined
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
  /** From the plan's rail to another section. */
  readonly transitionJoiners?: PackInput | undefined
  readonly ties?:
    | (PackInput & { readonly spacingMm?: number | undefined; readonly fastenersPerTie?: number | undefined })
    | undefined
  readonly fasteners?: PackInput | undefined
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
}

/** A plan with nothing left open. Rules that stay unchecked are null. Prices are exact decimal strings or null. */
export interface Plan {
  readonly title: string | null
  readonly gaugeMm: number
  readonly section: PlanSection
  readonly metal: PlanMetal
  readonly calibration: readonly TestBend[]
  readonly bender: Bender
  readonly tracks: readonly Track[]
  readonly supplies: Supplies
  readonly standards: Standards
  readonly chordsMm: readonly number[]
  readonly resolutionMm: number
}

export interface Track {
  readonly name: string
  readonly label: string | null
  readonly start: { readonly xMm: number; readonly yMm: number; readonly headingDeg: number }
  readonly closed: boolean
  readonly state: TrackState
  readonly joinsExisting: { readonly start: boolean; readonly end: boolean }
  /** What lies beyond those ends; null where the plan does not say. */
  readonly beyond: { readonly start: ExistingEnd | null; readonly end: ExistingEnd | null }
  /** Never empty; the first point stands at station 0. */
  readonly gradeLine: readonly GradePoint[]
  readonly elements: readonly Element[]
}

/** A default that was used: the field as a JSON Pointer into the plan, the value as people write it, and why. */
export interface Assumption {
  readonly field: string
  readonly value: string
  readonly reason: string
}
