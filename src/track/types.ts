import { count } from '../plan/fields/answer.ts'

/** Which way a curve turns, seen along the track from its start. */
export const TURNS = ['left', 'right'] as const

export type Turn = (typeof TURNS)[number]

/** An element of a track as answers name it. */
export const ELEMENT_NUMBER = count({ title: 'Element (the first is 0)' })

/** A place on the sheet: x to the right, y up, heading counter-clockwise from +x in radians (not reduced). */
export interface Pose {
  readonly xMm: number
  readonly yMm: number
  readonly headingRad: number
}

/** An element of a track's centre line as drawn, in the order it is met. */
export type Element =
  | { readonly kind: 'tangent'; readonly length: number; readonly label?: string | undefined }
  | { readonly kind: 'easement'; readonly length: number; readonly label?: string | undefined }
  | {
      readonly kind: 'arc'
      readonly radius: number
      /** Degrees. Exactly one of angle and length is given; the other follows from the radius. */
      readonly angle?: number | undefined
      readonly length?: number | undefined
      readonly turn: Turn
      readonly label?: string | undefined
    }

/**
 * An element put in its place. Every kind is a piece of clothoid: curvature runs linearly from `startCurvature` to
 * `endCurvature` (per mm, left turns positive); a tangent has 0 and 0, an arc the same at both ends.
 */
export interface PlacedElement {
  readonly index: number
  readonly kind: Element['kind']
  readonly label?: string | undefined
  /** Stations along the centre line, horizontal. */
  readonly fromMm: number
  readonly toMm: number
  readonly lengthMm: number
  readonly startCurvature: number
  readonly endCurvature: number
  /** Signed, left positive, not reduced. */
  readonly turnedRad: number
  readonly start: Pose
  readonly end: Pose
}
