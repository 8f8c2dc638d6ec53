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
import type { Bed } from '../laying/roadbed.ts'
import type { Extra, ReadyMadeChoice, Supplies } from '../laying/supplies.ts'
import type { Money } from '../measure/money.ts'
import type { GradePoint } from '../track/grade.ts'
import type { Element, Turn } from '../track/types.ts'

export type { TestBend } from '../bending/calibration/test-bend.ts'
export type { Standards } from '../checking/standards.ts'
export type { Effort } from '../laying/cutting/plan-chains.ts'
export type { Extra, Pack, Panel, ReadyMadeChoice, Stick, Supplies } from '../laying/supplies.ts'
export type { Fault } from '../measure/fault.ts'
export type { Assumption } from '../plan/assumption.ts'
export type { GradePoint } from '../track/grade.ts'

/**
 * A plan as somebody wrote it, in the program's own units (mm, radians, percent), with everything optional still
 * absent. `completePlan` turns it into a `Plan` and lists what it assumed.
 */
export interface PlanInput {
  readonly title?: string | undefined
  readonly gauge?: number | undefined
  readonly rail: RailInput
  readonly tracks: readonly TrackInput[]
  readonly supplies?: SuppliesInput | undefined
  readonly standards?: StandardsInput | undefined
  readonly chords?: readonly number[] | undefined
  readonly bender?: BenderInput | undefined
  readonly climate?: ClimateInput | undefined
  readonly joints?: JointsInput | undefined
  /** How hard to look for the best cut plan. */
  readonly effort?: Effort | undefined
  /** How far an ordinate may be misread, either way. */
  readonly resolution?: number | undefined
  readonly roadbed?: RoadbedInput | undefined
  readonly power?: 'none' | PowerInput | undefined
  readonly extras?: readonly ExtraInput[] | undefined
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
  readonly span?: number | undefined
  readonly outerRollerRadius?: number | undefined
  readonly bearsOn?: 'head' | 'web' | 'foot' | undefined
  readonly mode?: 'rolled' | 'pressed' | undefined
  readonly maxPerPass?: number | undefined
  readonly screwPitch?: number | undefined
  readonly ends?: 'trim' | 'finish-by-hand' | 'join-and-roll-through' | undefined
  readonly fixedEnd?: 'start' | 'end' | undefined
  readonly limits?: { readonly [K in keyof MethodLimits]?: MethodLimits[K] | undefined } | undefined
}

/** A section measured with calipers, mm. The two depths may be left out and are then filled by proportion. */
export interface CustomSection {
  readonly height: number
  readonly headWidth: number
  readonly footWidth: number
  readonly webThickness: number
  readonly headDepth?: number | undefined
  readonly footDepth?: number | undefined
}

export interface TrackInput {
  readonly name: string
  readonly label?: string | undefined
  readonly start?:
    | {
        readonly x?: number | undefined
        readonly y?: number | undefined
        readonly heading?: number | undefined
        readonly elevation?: number | undefined
      }
    | undefined
  readonly closed?: boolean | undefined
  /** New track is what the bill is for; existing track stays; lifted track goes, and its material is on hand. */
  readonly state?: TrackState | undefined
  readonly joinsExisting?:
    | { readonly start?: boolean | ExistingEnd | undefined; readonly end?: boolean | ExistingEnd | undefined }
    | undefined
  readonly gradeLine?: readonly GradePoint[] | undefined
  readonly breaks?: readonly Break[] | undefined
  readonly keepOut?: readonly KeepOut[] | undefined
  readonly elements: readonly Element[]
}

/** The temperatures rail is laid at and lives through. */
export interface ClimateInput {
  /** Of the rail. */
  readonly laying: number
  /** Of the air. */
  readonly coldest: number
  readonly hottest: number
  /** By how much rail in the sun is hotter than the air. */
  readonly sunAllowance?: number | undefined
}

/** How rail is joined, and what its joints can take. */
export interface JointsInput {
  readonly kind?: 'sliding' | 'clamped' | undefined
  /** Joints of the two rails opposite each other, or not. */
  readonly arrangement?: 'staggered' | 'square' | undefined
  /** How far the joints of the two rails are kept apart. */
  readonly stagger?: number | undefined
  /** Joints midway between two ties. */
  readonly betweenTies?: boolean | undefined
  /** Clamped rail that is kept from moving. */
  readonly held?: boolean | undefined
  readonly gapLimit?: number | undefined
  readonly expansionJointLimit?: number | undefined
  readonly insulatorThickness?: number | undefined
}

export type TrackState = 'new' | 'existing' | 'lifted'

/** What lies where a track joins track that is already there. Radius and turn go together: both or neither. */
export interface ExistingEnd {
  readonly section: string
  readonly material: string
  /** Of its centre line where the two meet; straight when left out. */
  readonly radius?: number | undefined
  /** As one goes along the plan's own track, from its start to its end. */
  readonly turn?: Turn | undefined
}

export interface StickInput {
  readonly length: number
  readonly price?: string | undefined
  readonly packSize?: number | undefined
  readonly onHand?: number | undefined
  readonly buyable?: boolean | undefined
}

/** A straight piece by its length, a curved one by the radius of its centre line and its angle, degrees. */
export type PanelInput = PanelParts &
  ({ readonly length: number } | { readonly radius: number; readonly angle: number })

interface PanelParts {
  readonly name?: string | undefined
  readonly ties?: number | undefined
  readonly joiners?: number | undefined
  readonly price?: string | undefined
  readonly packSize?: number | undefined
  readonly onHand?: number | undefined
  readonly buyable?: boolean | undefined
  readonly massEachG?: number | undefined
}

export interface PackInput {
  readonly packSize?: number | undefined
  readonly pricePerPack?: string | undefined
  readonly onHand?: number | undefined
  readonly sparePct?: number | undefined
  readonly massEachG?: number | undefined
}

/** Ties singly, or `strip` alone in place of the fields of a pack. The spacing is given at most once. */
export interface TiesInput extends PackInput {
  readonly spacing?: number | undefined
  readonly perLength?: { readonly count: number; readonly length: number } | undefined
  readonly strip?: (PackInput & { readonly ties: number }) | undefined
  readonly fastenersPerTie?: number | undefined
  readonly jointTies?: boolean | undefined
}

export interface ExtraInput extends PackInput {
  readonly item: string
  readonly per: 'm' | 'each'
  readonly quantity: number
}

export interface RoadbedInput {
  readonly kind: 'raised' | 'trench'
  readonly crownWidth: number
  readonly depthUnderTie: number
  readonly shoulderSlope?: number | undefined
  readonly filledTo?: 'tie-top' | 'tie-bottom' | undefined
  readonly tie?: { readonly length: number; readonly width: number; readonly height: number } | undefined
  readonly shrinkagePct?: number | undefined
  readonly densityKgM3?: number | undefined
  readonly bag?: BagInput | undefined
}

/** One of volume and mass. */
export interface BagInput {
  readonly volumeL?: number | undefined
  readonly massKg?: number | undefined
  readonly price?: string | undefined
  readonly onHand?: number | undefined
  readonly sparePct?: number | undefined
}

/** At most one of the two drops, one of the two sizes of wire. */
export interface PowerInput {
  readonly currentA: number
  readonly supplyVoltageV?: number | undefined
  readonly maximumDropPct?: number | undefined
  readonly maximumDropV?: number | undefined
  readonly jointResistanceOhm?: number | undefined
  readonly feeder?:
    | {
        readonly awg?: number | undefined
        readonly areaMm2?: number | undefined
        readonly length: number
        readonly pricePerM?: string | undefined
        readonly onHand?: number | undefined
        readonly sparePct?: number | undefined
      }
    | undefined
}

export interface SuppliesInput {
  readonly currency?: string | undefined
  readonly taxRatePct?: number | undefined
  readonly sticks?: readonly StickInput[] | undefined
  readonly panels?: readonly PanelInput[] | undefined
  readonly readyMade?: ReadyMadeChoice | undefined
  readonly joiners?: PackInput | undefined
  /** From the plan's rail to another section. */
  readonly transitionJoiners?: PackInput | undefined
  readonly ties?: TiesInput | undefined
  readonly fasteners?: PackInput | undefined
  readonly insulatedJoiners?: PackInput | undefined
  readonly expansionJoints?: PackInput | undefined
  readonly kerf?: number | undefined
  readonly minimumPiece?: number | undefined
}

export interface StandardsInput {
  readonly minimumRadius?: number | undefined
  readonly maximumGradePct?: number | undefined
  readonly longestCar?: number | undefined
  readonly minimumTangentBetweenReverseCurves?: number | undefined
  readonly closureGap?: number | undefined
  readonly closureHeading?: number | undefined
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
  readonly resistivityOhmM: number | null
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
  readonly stagger: number | null
  readonly betweenTies: boolean
  readonly held: boolean
  /** The widest gap a joiner can take. */
  readonly gapLimit: number
  /** The same of an expansion joint. */
  readonly expansionJointLimit: number
  readonly insulatorThickness: number
}

/** The bed of ballast, and how ballast is sold. */
export interface Roadbed {
  readonly bed: Bed
  readonly shrinkagePct: number
  /** Of loose ballast. */
  readonly densityKgM3: number
  /** Null where it is bought loose, by the litre. */
  readonly bag: { readonly volumeL: number } | { readonly massKg: number } | null
  readonly price: Money | null
  /** Bags; without bags, litres. */
  readonly onHand: number
  readonly sparePct: number
}

/** What the trains draw, and through what it comes to them. */
export interface Power {
  readonly currentA: number
  readonly supplyVoltageV: number
  readonly allowedDropV: number
  readonly jointResistanceOhm: number
  /** Null: its wire is left out of account. */
  readonly feeder: {
    /** How its size is called, such as "AWG 14". */
    readonly size: string
    readonly areaMm2: number
    readonly length: number
    readonly pricePerM: Money | null
    readonly onHand: number
    readonly sparePct: number
  } | null
}

/** A plan with nothing left open. Rules that stay unchecked are null. Prices are exact decimal strings or null. */
export interface Plan {
  readonly title: string | null
  readonly gauge: number
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
  readonly chords: readonly number[]
  readonly resolution: number
  /** Null where the plan says nothing of it. */
  readonly roadbed: Roadbed | null
  /** Null where nothing runs on current from the rails, or the plan says nothing of it. */
  readonly power: Power | null
  readonly extras: readonly Extra[]
}

export interface Track {
  readonly name: string
  readonly label: string | null
  readonly start: { readonly x: number; readonly y: number; readonly heading: number }
  readonly closed: boolean
  readonly state: TrackState
  readonly joinsExisting: { readonly start: boolean; readonly end: boolean }
  /** What lies beyond those ends; null where the plan does not say. */
  readonly beyond: { readonly start: ExistingEnd | null; readonly end: ExistingEnd | null }
  /** Never empty; the first point stands at station 0. */
  readonly gradeLine: readonly GradePoint[]
  /** Along the track. */
  readonly breaks: readonly Break[]
  readonly keepOut: readonly KeepOut[]
  readonly elements: readonly Element[]
}
