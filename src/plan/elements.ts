import { toRadians } from '../measure/angle.ts'
import { FIT } from './fields/kinds.ts'
import type { Connect, Element, ElementAsSent, ElementInput } from './rows/track.ts'

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

/** Along the centre line, mm; 0 for turnouts and crossings, whose length depends on their kind and the gauge. */
export function elementLengthMm(element: DrawnElement): number {
  if (element.kind === 'arc') return sizeOfArc(element).lengthMm
  return isSpecial(element) ? 0 : element.length
}

/** A turnout or a crossing. */
export function isSpecial<E extends DrawnElement>(element: E): element is Extract<E, { kind: 'turnout' | 'crossing' }> {
  return element.kind === 'turnout' || element.kind === 'crossing'
}

/** The curvature an element (undefined: the track's end) shows to an easement beside it, per mm, left positive. */
export function constantCurvature(element: DrawnElement | undefined): number {
  if (element?.kind !== 'arc') return 0
  return (element.turn === 'left' ? 1 : -1) / element.radius
}

/** The element as it is; null where something of it is still to be worked out. */
export function fittedElement(element: ElementAsSent): ElementInput | null {
  return isOpen(element) ? null : (element as ElementInput)
}

/** Whether a length, an angle, a radius or the whole element is to be worked out. */
export function isOpen(element: ElementAsSent): element is Connect | OpenElement {
  return element.kind === 'connect' || openFields(element).length > 0
}

/** An element with something unknown. */
export type OpenElement = Extract<ElementAsSent, { kind: 'tangent' | 'easement' | 'arc' }>

export type OpenField = 'radius' | 'angle' | 'length'

/** The fields that are to be worked out. */
export function openFields(element: ElementAsSent): OpenField[] {
  const fields: OpenField[] = []
  if (element.kind === 'arc') {
    if (element.radius === FIT) fields.push('radius')
    if (element.angle === FIT) fields.push('angle')
  }
  if ('length' in element && element.length === FIT) fields.push('length')
  return fields
}
