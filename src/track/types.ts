import { count } from '../plan/fields/answer.ts'
import type { Element } from '../plan/rows/track.ts'

/** The number of an element in answers. */
export const ELEMENT_NUMBER = count({ title: 'Element (the first is 0)' })

/** A place on the sheet: x to the right, y up, heading counter-clockwise from +x in radians (not reduced). */
export interface Pose {
  readonly xMm: number
  readonly yMm: number
  readonly headingRad: number
}

/**
 * An element in its place. Every kind is a piece of clothoid: curvature runs linearly from `startCurvature` to
 * `endCurvature` (per mm, left turns positive); a tangent has 0 and 0, an arc the same at both ends.
 */
export interface PlacedElement {
  readonly index: number
  readonly kind: Element['kind']
  readonly label?: string | null | undefined
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
  /** How far the track bends where the element begins, without a curve: straight switch rails do. Left positive. */
  readonly bendRad?: number | undefined
  /** Of a turnout: straights and arcs, with its own index. Its curvatures are those at its two ends. */
  readonly parts?: readonly PlacedElement[] | undefined
}

/** The element itself, or what it is made of. */
export function partsOf(element: PlacedElement): readonly PlacedElement[] {
  return element.parts ?? [element]
}

/** An element's length and curvature, wherever it lies. */
export type Shape = Pick<
  PlacedElement,
  'kind' | 'label' | 'lengthMm' | 'startCurvature' | 'endCurvature' | 'turnedRad' | 'bendRad'
> & { readonly parts?: readonly Shape[] | undefined }
