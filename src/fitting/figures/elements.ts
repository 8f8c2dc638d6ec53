import { toDegrees, toRadians } from '../../measure/angle.ts'
import { LENGTH } from '../../plan/fields/bounds.ts'
import type { TrackInput, Turn } from '../../plan/rows/track.ts'
import type { LegPlace, TurnoutEnd } from '../../plan/rows/turnouts.ts'
import type { Pose } from '../../track/types.ts'
import type { FigureElement, FigureKind } from './figure.ts'

/** A plan has no shorter element. */
export const SHORTEST_MM = LENGTH.least

/** A straight; nothing where it would be too short to be one. */
export function straight(lengthMm: number): FigureElement[] {
  return lengthMm < SHORTEST_MM ? [] : [{ kind: 'tangent', length: lengthMm }]
}

/** An arc through an angle, positive to the left; nothing where it would be too short to be one. */
export function arc(radiusMm: number, turnedRad: number): FigureElement[] {
  const angle = toDegrees(Math.abs(turnedRad))
  if (radiusMm * Math.abs(turnedRad) < SHORTEST_MM || angle < 1e-6) return []
  return [{ kind: 'arc', radius: radiusMm, angle, turn: turnedRad > 0 ? 'left' : 'right' }]
}

/** Track of one curvature (1/mm, left positive), straight or curved. */
export function alongCurve(curvature: number, lengthMm: number): FigureElement[] {
  return curvature === 0 ? straight(lengthMm) : arc(1 / Math.abs(curvature), lengthMm * curvature)
}

/** A turnout entered at its points. */
export function facing(name: string, { id }: FigureKind, leaves: 'through' | 'diverging' = 'through'): FigureElement {
  return { kind: 'turnout', name, type: id, enters: 'points', leaves }
}

/** A turnout entered by a leg. */
export function trailing(name: string, { id }: FigureKind, enters: 'through' | 'diverging' = 'through'): FigureElement {
  return { kind: 'turnout', name, type: id, enters }
}

export function startAt({ xMm, yMm, headingRad }: Pose): NonNullable<TrackInput['start']> {
  return { x: xMm, y: yMm, heading: toDegrees(headingRad) }
}

export function leaving(turnout: string, leg: TurnoutEnd): NonNullable<TrackInput['start']> {
  return { from: { turnout, leg } }
}

export function comingTo(turnout: string, leg: TurnoutEnd): NonNullable<TrackInput['end']> {
  return { to: { turnout, leg } }
}

/**
 * The same tracks on the other side of the x axis. Their kinds of turnout are those of the other hand already; a wye is
 * its own mirror image, and its legs change places.
 */
export function mirroredTracks(tracks: readonly TrackInput[], wye?: string): TrackInput[] {
  const wyes = new Set(
    tracks.flatMap(({ elements }) =>
      elements.flatMap((element) => (element.kind === 'turnout' && element.type === wye ? [element.name] : [])),
    ),
  )
  const atLeg = (place: LegPlace): LegPlace =>
    wyes.has(place.turnout) ? { ...place, leg: otherLeg(place.leg) } : place
  const elementOf = (element: FigureElement): FigureElement => {
    if (element.kind === 'arc') return { ...element, turn: OPPOSITE[element.turn] }
    if (element.kind !== 'turnout' || !wyes.has(element.name)) return element
    const { leaves } = element
    return { ...element, enters: otherLeg(element.enters), ...(leaves && { leaves: otherLeg(leaves) }) }
  }
  return tracks.map(({ start, end, elements, ...track }) => ({
    ...track,
    ...(start && { start: start.from ? { from: atLeg(start.from) } : mirroredStart(start) }),
    ...(end && { end: end.to ? { to: atLeg(end.to) } : end }),
    elements: elements.map(elementOf),
  }))
}

function otherLeg<L extends TurnoutEnd>(leg: L): L {
  return (leg === 'through' ? 'diverging' : leg === 'diverging' ? 'through' : leg) as L
}

const OPPOSITE: Readonly<Record<Turn, Turn>> = { left: 'right', right: 'left' }

function mirroredStart({ x = 0, y = 0, heading = 0 }: NonNullable<TrackInput['start']>): TrackInput['start'] {
  return { x, y: 0 - y, heading: 0 - heading }
}

/** The same tracks with their start at another place. */
export function movedTracks(tracks: readonly TrackInput[], to: Pose): TrackInput[] {
  const [cos, sin] = [Math.cos(to.headingRad), Math.sin(to.headingRad)]
  return tracks.map((track) => {
    if (track.start?.x === undefined) return track
    const { x, y = 0, heading = 0 } = track.start
    const start = startAt({
      xMm: to.xMm + x * cos - y * sin,
      yMm: to.yMm + x * sin + y * cos,
      headingRad: to.headingRad + toRadians(heading),
    })
    return { ...track, start }
  })
}

/** The names of tracks and turnouts of a figure. */
export class Names {
  private readonly prefix: string

  constructor(prefix: string) {
    this.prefix = prefix
  }

  track(name: string): string {
    return `${this.prefix}${name}`
  }

  turnout(number: number): string {
    return `${this.prefix}W${number}`
  }

  crossing(number: number): string {
    return `${this.prefix}X${number}`
  }
}
