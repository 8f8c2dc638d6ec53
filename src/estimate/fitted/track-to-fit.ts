import { loopOf } from '../../fitting/loop.ts'
import type { Goal } from '../../fitting/unknowns.ts'
import { FIT } from '../../plan/fields/kinds.ts'
import type { ElementAsSent, ElementInput } from '../../plan/rows/track.ts'
import { placeElements } from '../../track/place.ts'
import type { SpecialTrack } from '../../track/turnout/special-track.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'

/** A track with something open in it, and the places between which it has to lie. */
export interface TrackToFit {
  /** Its place among the tracks of the plan. */
  readonly index: number
  readonly elements: readonly ElementAsSent[]
  readonly closed: boolean
  readonly start: Pose
  readonly goal: Goal
  /** Its elements, the open ones with some length or angle or, for a connection, a straight. */
  readonly placed: readonly PlacedElement[]
  /** The motions before each element, and of all. */
  readonly before: readonly Pose[]
}

const SOME_MM = 1000
const SOME_DEG = 90

export function trackToFit(
  given: Pick<TrackToFit, 'index' | 'elements' | 'closed' | 'start' | 'goal'>,
  special: SpecialTrack,
): TrackToFit {
  const placed = placeElements(given.start, given.elements.map(withSomeSize), given.closed, special)
  const { before } = loopOf(placed, { gapMm: 0, headingRad: 0, minimumRadiusMm: 0 })
  return { ...given, placed, before }
}

function withSomeSize(element: ElementAsSent): ElementInput {
  if (element.kind === 'connect') return { kind: 'tangent', length: SOME_MM }
  if (element.kind === 'arc') {
    const { angle, length, radius: given, ...rest } = element
    const arc = { ...rest, radius: given === FIT ? SOME_MM : given }
    if (angle === FIT || length === FIT) return { ...arc, angle: SOME_DEG }
    return angle === undefined ? { ...arc, length: length! } : { ...arc, angle }
  }
  if ((element.kind === 'tangent' || element.kind === 'easement') && element.length === FIT)
    return { ...element, length: SOME_MM }
  return element as ElementInput
}
