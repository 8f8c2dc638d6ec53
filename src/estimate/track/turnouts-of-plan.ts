import type { NetworkCrossing } from '../../network/track.ts'
import type { WholeTrack } from '../../plan/rows/track.ts'
import type { Turnout, TurnoutEnd } from '../../plan/rows/turnouts.ts'
import { elevationOn, profileOf } from '../../track/grade.ts'
import { poseOn } from '../../track/place.ts'
import type { SpecialTrack } from '../../track/turnout/special-track.ts'
import { turnoutEnds } from '../../track/turnout/special-track.ts'
import type { TurnoutGeometry } from '../../track/turnout/types.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'

/** A turnout where it lies. */
export interface LaidTurnout extends Pick<Turnout, 'name' | 'type' | 'enters' | 'leaves'> {
  /** Index of its element. */
  readonly element: number
  readonly geometry: TurnoutGeometry
  /** Each faces out of the turnout. */
  readonly ends: Readonly<Record<TurnoutEnd, Pose>>
  /** Stations of its element on the track. */
  readonly fromMm: number
  readonly toMm: number
  readonly closureRadiusMm: number
}

export function laidTurnouts(
  { elements }: Pick<WholeTrack, 'elements'>,
  placed: readonly PlacedElement[],
  { turnouts }: SpecialTrack,
): LaidTurnout[] {
  return elements.flatMap((element, index): LaidTurnout[] => {
    if (element.kind !== 'turnout') return []
    const { name, type, enters, leaves } = element
    const geometry = turnouts.get(type)!
    const { fromMm, toMm } = placed[index]!
    const before = index === 0 ? startBefore(placed[0]!) : placed[index - 1]!.end
    const ends = turnoutEnds(geometry, enters, before)
    const { closureRadiusMm } = geometry
    return [{ name, type, enters, leaves, element: index, geometry, ends, fromMm, toMm, closureRadiusMm }]
  })
}

export function laidCrossings(
  { elements }: Pick<WholeTrack, 'elements'>,
  placed: readonly PlacedElement[],
): NetworkCrossing[] {
  return elements.flatMap((element, index): NetworkCrossing[] => {
    if (element.kind !== 'crossing') return []
    const { fromMm, toMm } = placed[index]!
    const atMm = (fromMm + toMm) / 2
    return [{ name: element.name, atMm, pose: poseOn(placed[index]!, atMm) }]
  })
}

/** A track that begins with bent switch rails starts in the direction ahead of them. */
function startBefore({ start, parts }: PlacedElement): Pose {
  return { ...start, headingRad: start.headingRad - (parts?.[0]?.bendRad ?? 0) }
}

/** The rail height at an end of a turnout: its legs rise together. */
export function elevationAtEnd({ enters, fromMm, toMm }: LaidTurnout, end: TurnoutEnd, track: WholeTrack): number {
  const atStart = (end === 'points') === (enters === 'points')
  return elevationOn(profileOf(track.gradeLine, track.start.elevation), atStart ? fromMm : toMm)
}
