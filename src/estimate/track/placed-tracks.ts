import { toRadians } from '../../measure/angle.ts'
import type { WholeTrack } from '../../plan/rows/track.ts'
import type { LegPlace } from '../../plan/rows/turnouts.ts'
import { headingAfterDeg } from '../../track/closure.ts'
import { elevationOn, profileOf } from '../../track/grade.ts'
import { placeElements } from '../../track/place.ts'
import { NO_SPECIAL_TRACK, type SpecialTrack } from '../../track/turnout/special-track.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import { elevationAtEnd, laidTurnouts } from './turnouts-of-plan.ts'

/** A place given by another track, as it is seen by a track that leaves it. */
interface GivenPlace {
  readonly x: number
  readonly y: number
  readonly heading: number
  readonly elevation: number
}

/**
 * The tracks of a plan without faults, with coordinates wherever the plan gives a start or an end by another track. A
 * track that continues from another starts where that one ends, one that leaves a turnout at the end of its leg, with the
 * heading and elevation there.
 */
export function placedTracks(
  tracks: readonly WholeTrack[],
  special: SpecialTrack = NO_SPECIAL_TRACK,
): readonly WholeTrack[] {
  if (tracks.every(({ start, end }) => start.after === null && !start.from && !end?.before && !end?.to)) return tracks
  const plan = new Placing(tracks, special)
  return tracks.map((track) => plan.held(plan.started(track)))
}

class Placing {
  private readonly byName: ReadonlyMap<string, WholeTrack>
  /** Tracks by the names of their turnouts. */
  private readonly hosts: ReadonlyMap<string, WholeTrack>
  private readonly done = new Map<string, WholeTrack>()
  private readonly placed = new Map<string, readonly PlacedElement[]>()
  private readonly special: SpecialTrack

  constructor(tracks: readonly WholeTrack[], special: SpecialTrack) {
    this.special = special
    this.byName = new Map(tracks.map((track) => [track.name, track]))
    this.hosts = new Map(
      tracks.flatMap((track) =>
        track.elements.flatMap((element) => (element.kind === 'turnout' ? [[element.name, track] as const] : [])),
      ),
    )
  }

  /** Not recursive: a chain may be long. */
  started(track: WholeTrack): WholeTrack {
    const chain = [track]
    for (let before = this.beforeOf(track); before && !this.done.has(before.name); before = this.beforeOf(before))
      chain.unshift(before)
    for (const each of chain) if (!this.done.has(each.name)) this.done.set(each.name, this.fromBefore(each))
    return this.done.get(track.name)!
  }

  /** The track whose place gives the place of this one. */
  private beforeOf({ start: { after, from } }: WholeTrack): WholeTrack | undefined {
    if (after !== null) return this.byName.get(after)
    return from ? this.hosts.get(from.turnout) : undefined
  }

  private fromBefore(track: WholeTrack): WholeTrack {
    const { after, from } = track.start
    if (after === null && !from) return track
    const place = from ? this.atLeg(from) : this.atEndOf(this.done.get(after!)!)
    return { ...track, start: { after, from, ...place } }
  }

  private atEndOf(track: WholeTrack): GivenPlace {
    const last = this.placedOf(track).at(-1)!
    return placeOn(track, last.end, elevationOn(profileOf(track.gradeLine, track.start.elevation), last.toMm))
  }

  private atLeg({ turnout: name, leg }: LegPlace): GivenPlace {
    const host = this.started(this.hosts.get(name)!)
    const turnout = laidTurnouts(host, this.placedOf(host), this.special).find((each) => each.name === name)!
    return placeOn(host, turnout.ends[leg], elevationAtEnd(turnout, leg, host))
  }

  private placedOf(track: WholeTrack): readonly PlacedElement[] {
    const there = this.placed.get(track.name)
    if (there) return there
    const { start, elements, closed } = track
    const from = { xMm: start.x, yMm: start.y, headingRad: toRadians(start.heading) }
    const placed = placeElements(from, elements, closed, this.special)
    this.placed.set(track.name, placed)
    return placed
  }

  /** With the place its end must come to. */
  held(track: WholeTrack): WholeTrack {
    const { before, to } = track.end ?? {}
    if (to) {
      const { x, y, heading, elevation } = this.atLeg(to)
      return { ...track, end: { before: null, to, at: { x, y, heading: (heading + 180) % 360, elevation } } }
    }
    if (!before) return track
    const { start, gradeLine } = this.started(this.byName.get(before)!)
    const { x, y, heading } = start
    return {
      ...track,
      end: {
        before,
        to: null,
        at: { x, y, heading, elevation: elevationOn(profileOf(gradeLine, start.elevation), 0) },
      },
    }
  }
}

function placeOn({ start }: WholeTrack, { xMm: x, yMm: y, headingRad }: Pose, elevation: number): GivenPlace {
  const heading = headingAfterDeg(start.heading, headingRad - toRadians(start.heading))
  return { x, y, heading, elevation }
}
