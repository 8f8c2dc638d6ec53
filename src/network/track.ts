import type { LegPlace, Turnout, TurnoutEnd } from '../plan/rows/turnouts.ts'
import type { TurnoutGeometry } from '../track/turnout/types.ts'
import type { PlacedElement, Pose } from '../track/types.ts'

/** What the network needs of a placed track. */
export interface NetworkTrack {
  readonly name: string
  readonly closed: boolean
  readonly state: 'new' | 'existing' | 'lifted'
  readonly joinsExisting: { readonly start: boolean; readonly end: boolean }
  readonly before: string | null
  readonly lengthMm: number
  readonly start: Pose
  readonly end: Pose
  readonly placed: readonly PlacedElement[]
  readonly breaks: readonly { readonly at: number; readonly kind: string }[]
  readonly turnouts: readonly NetworkTurnout[]
  readonly crossings: readonly NetworkCrossing[]
  readonly legs: { readonly start: LegPlace | null; readonly end: LegPlace | null }
}

/** The middle of a crossing. */
export interface NetworkCrossing {
  readonly name: string
  readonly atMm: number
  readonly pose: Pose
}

export interface NetworkTurnout extends Pick<Turnout, 'name' | 'enters' | 'leaves'> {
  /** Index of its element. */
  readonly element: number
  readonly geometry: TurnoutGeometry
  /** Each faces out of the turnout. */
  readonly ends: Readonly<Record<TurnoutEnd, Pose>>
  readonly fromMm: number
  readonly toMm: number
}
