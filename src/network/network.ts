import type { LegPlace } from '../plan/rows/turnouts.ts'
import { placeShapes } from '../track/place.ts'
import { poseReversed } from '../track/turnout/leg.ts'
import { legOf, turnoutShape } from '../track/turnout/special-track.ts'
import { meetingEnds } from './meeting-ends.ts'
import { type Piece, piecesOf, piecesOfLeg } from './pieces.ts'
import type { NetworkTrack, NetworkTurnout } from './track.ts'

/*
 * The tracks of a plan as one network. A track is divided at the points of its turnouts; where a track joins the other
 * leg of a turnout, that leg is a stretch of its own. Crossings divide nothing: a train goes straight over them.
 *
 * Each stretch has two ends, numbered 2i where its stations begin and 2i + 1 where they finish. A run over a stretch has
 * the number of the end by which it comes: run e leaves by end e ^ 1, and e ^ 1 is the same run in the other direction.
 */

export interface Stretch {
  /** Index of its track. */
  readonly track: number
  /** Stations; of a leg that no track runs along, both are that of the points. */
  readonly fromMm: number
  readonly toMm: number
  /** The turnout whose leg it is, where no track runs along it. */
  readonly legOf: string | null
  readonly pieces: readonly Piece[]
}

export interface Network {
  readonly tracks: readonly NetworkTrack[]
  readonly stretches: readonly Stretch[]
  /** By end: the ends at which a train goes on that leaves by it. Symmetrical. */
  readonly links: readonly (readonly number[])[]
  /** The turnout whose points lie at an end, by that end: of the track before them. */
  readonly points: ReadonlyMap<number, NetworkTurnout>
}

/** What counts as meeting: see `joinedEnds`, which counts the joints there. */
export interface Tolerances {
  readonly closureGap: number
  readonly closureHeading: number
}

/** Lifted track is no part of it. */
export function networkOf(tracks: readonly NetworkTrack[], { closureGap, closureHeading }: Tolerances): Network {
  const built = new Builder(tracks)
  const there = tracks.flatMap(({ state }, index) => (state === 'lifted' ? [] : [index]))
  for (const index of there) built.divide(index)
  for (const index of there) built.joinToLegs(index)
  const meetings = meetingEnds(
    there.map((index) => tracks[index]!),
    closureGap,
    closureHeading,
  )
  for (const [a, b] of meetings) built.link(built.endOf(there[a.track]!, a.end), built.endOf(there[b.track]!, b.end))
  return { tracks, stretches: built.stretches, links: built.links, points: built.points }
}

class Builder {
  readonly stretches: Stretch[] = []
  readonly links: number[][] = []
  readonly points = new Map<number, NetworkTurnout>()
  private readonly tracks: readonly NetworkTrack[]
  private readonly ends = new Map<number, { start: number; end: number }>()
  private readonly turnouts = new Map<string, { turnout: NetworkTurnout; track: number; tail: number }>()
  private readonly otherLegs = new Map<string, number>()

  constructor(tracks: readonly NetworkTrack[]) {
    this.tracks = tracks
  }

  /** At the points of its turnouts; two whose points face each other have a stretch of no length between them. */
  divide(track: number): void {
    const { turnouts, lengthMm, closed, placed } = this.tracks[track]!
    let fromMm = 0
    let element = 0
    let first: number | null = null
    for (const turnout of turnouts) {
      const pointsMm = turnout.enters === 'points' ? turnout.fromMm : turnout.toMm
      const next = turnout.enters === 'points' ? turnout.element : turnout.element + 1
      const pieces = piecesOf(placed.slice(element, next))
      const before = this.add({ track, fromMm, toMm: pointsMm, legOf: null, pieces })
      first ??= before
      if (before !== first) this.link(before - 1, before)
      // The next stretch follows at once: its number is known.
      const tail = turnout.enters === 'points' ? before + 1 : before + 2
      this.turnouts.set(turnout.name, { turnout, track, tail })
      this.points.set(tail, turnout)
      fromMm = pointsMm
      element = next
    }
    const last = this.add({ track, fromMm, toMm: lengthMm, legOf: null, pieces: piecesOf(placed.slice(element)) })
    if (first !== null) this.link(last - 1, last)
    this.ends.set(track, { start: first ?? last, end: last + 1 })
    if (closed) this.link(first ?? last, last + 1)
  }

  /** Links the ends of a track that begins or ends at a turnout. */
  joinToLegs(track: number): void {
    for (const end of ['start', 'end'] as const) {
      const place = this.tracks[track]!.legs[end]
      const there = place && this.endAt(place)
      if (there !== null) this.link(this.endOf(track, end), there)
    }
  }

  endOf(track: number, end: 'start' | 'end'): number {
    return this.ends.get(track)![end]
  }

  link(a: number, b: number): void {
    if (this.links[a]!.includes(b)) return
    this.links[a]!.push(b)
    if (a !== b) this.links[b]!.push(a)
  }

  /** Null where the turnout lies on track that is lifted. */
  private endAt({ turnout: name, leg }: LegPlace): number | null {
    const host = this.turnouts.get(name)
    if (!host) return null
    const { turnout, track } = host
    if (leg === 'points' || leg === legOf(turnout))
      return this.endOf(track, (leg === 'points') === (turnout.enters === 'points') ? 'start' : 'end')
    return this.otherLeg(name, leg) + 1
  }

  /** The end at the points of the leg along which its track does not run. */
  private otherLeg(name: string, leg: 'through' | 'diverging'): number {
    const known = this.otherLegs.get(name)
    if (known !== undefined) return known
    const { turnout, track, tail } = this.turnouts.get(name)!
    const pointsMm = turnout.enters === 'points' ? turnout.fromMm : turnout.toMm
    const shape = turnoutShape(turnout.geometry, { enters: 'points', leaves: leg })
    const [placed] = placeShapes(poseReversed(turnout.ends.points), [{ kind: 'turnout', label: null, ...shape }])
    const pieces = piecesOfLeg(placed!, turnout.element, pointsMm)
    const from = this.add({ track, fromMm: pointsMm, toMm: pointsMm, legOf: name, pieces })
    this.otherLegs.set(name, from)
    this.link(tail, from)
    return from
  }

  /** Its first end. */
  private add(stretch: Stretch): number {
    this.links.push([], [])
    return 2 * (this.stretches.push(stretch) - 1)
  }
}
