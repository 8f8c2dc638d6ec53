import { toRadians } from '../measure/angle.ts'
import type { Element, ElementInput } from './rows/track.ts'

/* What an element of a track says by itself, wherever it lies. */

/** An element as it was sent, or with nothing left open. */
export type DrawnElement = Element | ElementInput

type Arc = Extract<DrawnElement, { kind: 'arc' }>

/** Length along the centre line and own angle (> 0) of an arc, whichever of the two it was given by. */
export function sizeOfArc({ radius: radiusMm, angle: angleDeg, length: lengthMm }: Arc): {
  lengthMm: number
  angleRad: number
} {
  if (angleDeg == null) return { lengthMm: lengthMm!, angleRad: lengthMm! / radiusMm }
  const angleRad = toRadians(angleDeg)
  return { lengthMm: radiusMm * angleRad, angleRad }
}

/** Along the centre line, mm. */
export function elementLengthMm(element: DrawnElement): number {
  return element.kind === 'arc' ? sizeOfArc(element).lengthMm : element.length
}

/** The curvature an element (undefined: the track's end) shows to an easement beside it, per mm, left positive. */
export function constantCurvature(element: DrawnElement | undefined): number {
  if (element?.kind !== 'arc') return 0
  return (element.turn === 'left' ? 1 : -1) / element.radius
}
