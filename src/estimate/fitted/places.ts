import type { Goal } from '../../fitting/unknowns.ts'
import { toRadians } from '../../measure/angle.ts'
import type { Fault } from '../../measure/fault.ts'
import { completeTrack } from '../../plan/completing/track.ts'
import { isOpen } from '../../plan/elements.ts'
import { SILENT } from '../../plan/fields/complete.ts'
import type { PlanAsSent } from '../../plan/rows/plan.ts'
import type { ElementInput, TrackAsSent, TrackInput, WholeTrack } from '../../plan/rows/track.ts'
import type { SpecialTrack } from '../../track/turnout/special-track.ts'
import type { Pose } from '../../track/types.ts'
import { placedTracks } from '../track/placed-tracks.ts'

/** A track with its place, and where it must end. */
export interface TrackPlace {
  /** Its elements are those before the first that is open. */
  readonly whole: WholeTrack
  readonly start: Pose
  readonly goal: Goal
}

/** The tracks that give a track its place and that of its end, by index, itself among them where it comes back to one of its turnouts. */
export function tracksNeeded(tracks: PlanAsSent['tracks'], index: number): number[] {
  const links = linksOf(tracks)
  const { end } = tracks[index]!
  const needed = new Set<number>()
  const follow = (first: number | undefined) => {
    for (let at = first; at !== undefined && !needed.has(at); at = links.startOf(tracks[at]!)) needed.add(at)
  }
  follow(links.startOf(tracks[index]!))
  follow(end?.before === undefined ? undefined : links.named(end.before))
  follow(end?.to === undefined ? undefined : links.hosting(end.to.turnout))
  return [...needed]
}

function linksOf(tracks: PlanAsSent['tracks']) {
  const named = (name: string) => tracks.findIndex((track) => track.name === name)
  const hosting = (turnout: string) => tracks.findIndex(({ elements }) => hosts(elements, turnout))
  const startOf = ({ start }: TrackAsSent): number | undefined => {
    if (start?.after !== undefined) return named(start.after)
    return start?.from === undefined ? undefined : hosting(start.from.turnout)
  }
  return { named, hosting, startOf }
}

/** Why a track cannot be fitted where its place depends on what is open in it; null where it does not. */
export function circularFault(tracks: PlanAsSent['tracks'], index: number): Fault | null {
  const { name, elements, end } = tracks[index]!
  const first = elements.findIndex(isOpen)
  const isBefore = (turnout: string) => hosts(elements.slice(0, first), turnout)
  const leans = tracksNeeded(tracks, index).some((other) => {
    const { start } = tracks[other]!
    const ofIt = start?.from?.turnout
    return start?.after === name || (ofIt !== undefined && hosts(elements, ofIt) && !isBefore(ofIt))
  })
  const to = end?.to?.turnout
  if (!leans && !(to !== undefined && hosts(elements, to) && !isBefore(to))) return null
  return {
    path: ['tracks', index, 'end'],
    code: 'cannot-fit',
    detail: `where "${name}" must end depends on what is left open in it`,
    hint: 'give the place of the end with at, or the lengths and angles before the turnout',
  }
}

export function hosts(elements: TrackAsSent['elements'], turnout: string): boolean {
  return elements.some((each) => each.kind === 'turnout' && each.name === turnout)
}

/** Where a track starts and must end, from itself and from the tracks that give it its place. */
export function placeOf(
  tracks: PlanAsSent['tracks'],
  index: number,
  fitted: (index: number) => TrackInput,
  special: SpecialTrack,
): TrackPlace {
  const { elements } = tracks[index]!
  const known = elements.slice(0, elements.findIndex(isOpen)) as ElementInput[]
  const others = tracksNeeded(tracks, index).filter((other) => other !== index)
  const inputs = [{ ...tracks[index]!, elements: known }, ...others.map(fitted)]
  const [whole] = placedTracks(
    inputs.map((track) => completeTrack(track, index, SILENT)),
    special,
  ) as [WholeTrack]
  const start = poseOf(whole.start)
  return { whole, start, goal: goalOf(whole, start) }
}

export function poseOf({ x, y, heading }: { readonly x: number; readonly y: number; readonly heading: number }): Pose {
  return { xMm: x, yMm: y, headingRad: toRadians(heading) }
}

function goalOf({ closed, end }: WholeTrack, start: Pose): Goal {
  if (closed) return { pose: start, hasHeading: true }
  const { x, y, heading } = end!.at!
  return { pose: poseOf({ x, y, heading: heading ?? 0 }), hasHeading: heading !== null }
}
