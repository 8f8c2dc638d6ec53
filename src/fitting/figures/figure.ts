import type { TrackInput } from '../../plan/rows/track.ts'
import type { TurnoutGeometry } from '../../track/turnout/types.ts'
import type { Pose } from '../../track/types.ts'

/** A kind of turnout as a figure uses it; whichever its hand, its legs are those of a left-hand one. */
export interface FigureKind {
  readonly id: string
  readonly legs: TurnoutGeometry['legs']
}

/** A figure is worked out on the left of its track. */
export interface Kinds {
  /** Diverges to the side on which the figure lies. */
  readonly near: FigureKind
  /** Diverges to the other side. */
  readonly far: FigureKind
}

/** A length that the figure has, by what it is called. */
export interface FigureMeasure {
  readonly name: string
  readonly valueMm: number
}

/** Why a figure cannot be built, at the field that would have to change. */
export interface FigureFault {
  readonly field: string
  readonly code: 'out-of-range' | 'contradictory'
  readonly detail: string
  readonly hint: string
}

export type FigureElement = TrackInput['elements'][number]

/** The tracks of a figure with its start at the origin, heading 0. The first one continues the track it is put into. */
interface FigureTracks {
  readonly tracks: readonly TrackInput[]
  readonly measures: readonly FigureMeasure[]
}

export type FigureResult =
  | ({ readonly ok: true } & FigureTracks)
  | { readonly ok: false; readonly faults: readonly FigureFault[] }

export function refused(...faults: readonly FigureFault[]): FigureResult {
  return { ok: false, faults }
}

/** What cannot be built because a length or an angle is too small or too large. */
export function outOfRange(field: string, detail: string, hint: string): FigureFault {
  return { field, code: 'out-of-range', detail, hint }
}

export const ORIGIN: Pose = { xMm: 0, yMm: 0, headingRad: 0 }
