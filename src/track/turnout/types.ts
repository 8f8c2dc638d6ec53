import type { TurnoutType } from '../../plan/rows/turnouts.ts'
import type { PlacedElement, Pose } from '../types.ts'

type SizeField =
  | 'number'
  | 'numbering'
  | 'form'
  | 'radius'
  | 'angle'
  | 'outerRadius'
  | 'heelSpread'
  | 'heelAngle'
  | 'pointLength'
  | 'toeLength'
  | 'measured'
  | 'length'

/** What is said of the size of a turnout, mm and degrees; what is left open may be null or missing. */
export type TurnoutSize = Pick<TurnoutType, 'hand'> & {
  readonly [F in SizeField]?: TurnoutSpecOf<F> | null | undefined
}

type TurnoutSpecOf<F extends SizeField> = F extends 'measured' ? MeasuredTurnout : NonNullable<TurnoutType[F]>

export interface MeasuredTurnout {
  readonly length: number
  readonly divergingAngle: number
  readonly divergingOffset: number
  readonly radius?: number | null | undefined
}

/** A part of a leg: a straight or an arc. A straight switch rail begins with a bend, which counts as its turn. */
export type LegPiece = Pick<
  PlacedElement,
  'lengthMm' | 'startCurvature' | 'endCurvature' | 'turnedRad' | 'start' | 'end'
>

/** The centre line from the points (at the origin, heading 0) to an end of the turnout. */
export interface Leg {
  readonly pieces: readonly LegPiece[]
  readonly lengthMm: number
  readonly end: Pose
}

/** A turnout worked out, its points at the origin and the track before them along the x axis from the left. */
export interface TurnoutGeometry {
  readonly frogRad: number
  readonly heelRad: number
  readonly outerGaugeRadiusMm: number
  readonly closureRadiusMm: number
  /** Null where they do not follow from what is known of the turnout. */
  readonly curvedClosureMm: number | null
  readonly straightClosureMm: number | null
  readonly toeSpreadMm: number | null
  /** From the points to the theoretical point of the frog. */
  readonly leadMm: number
  readonly toeLengthMm: number
  readonly pointLengthMm: number
  readonly frog: { readonly xMm: number; readonly yMm: number }
  readonly legs: { readonly through: Leg; readonly diverging: Leg }
}

/** What contradicts itself in the size of a turnout, at one of its fields. */
export interface SizeFault {
  readonly field: SizeField
  readonly code: 'missing' | 'contradictory' | 'out-of-range'
  readonly detail: string
  readonly hint: string
}

export type TurnoutResult =
  | { readonly ok: true; readonly turnout: TurnoutGeometry }
  | { readonly ok: false; readonly faults: readonly SizeFault[] }
