import { type BoundingBox, boundingBox } from '../track/bounding-box.ts'
import { elevationOn, type GradeStretch, profileOfGrades } from '../track/grade.ts'
import { type CutElement, cutElement, meetingsOf } from '../track/meeting.ts'
import { type PlacedElement, partsOf } from '../track/types.ts'

/** What is needed of a track to see whether it crosses itself or another. */
export interface CrossingTrack {
  readonly name: string
  readonly closed: boolean
  readonly gaugeMm: number
  readonly lengthMm: number
  readonly startElevationMm: number
  readonly placed: readonly PlacedElement[]
  readonly grades: readonly GradeStretch[]
}

/**
 * Tracks that cross with less than this between their heights cross on the level: no car at all passes between.
 * Own choice, no source.
 */
export const LEVEL_CLEARANCE_MM = 100

/** More crossings than this are not listed. */
export const MOST_LISTED = 50

/** Pairs of straights and arcs compared at most; a garden's plan takes some thousands. */
const MOST_WORK = 2_000_000

/** An element in its track, with the rectangle around it. */
export interface PlacedPart {
  readonly track: CrossingTrack
  readonly trackIndex: number
  readonly element: PlacedElement
  readonly box: BoundingBox
  /** Made when it is first compared. */
  cut: CutElement | null
}

export interface PlanCrossing {
  readonly first: PlacedPart
  readonly firstMm: number
  readonly second: PlacedPart
  readonly secondMm: number
  readonly apartMm: number
}

/** Where tracks cross themselves or one another. */
export interface Crossings {
  /** With less than the least height between them. */
  readonly level: readonly PlanCrossing[]
  /** One over the other. */
  readonly over: readonly PlanCrossing[]
  readonly complete: boolean
}

/**
 * Where tracks cross, by the first track and the station on it. That ends of tracks touch each other or another track is
 * no crossing. Rectangles around the elements are swept from left to right, so that only elements near one another are
 * compared.
 */
export function crossingsOf(tracks: readonly CrossingTrack[]): Crossings {
  const { level, over, complete } = search(tracks)
  const inOrderOfTracks = (crossings: readonly PlanCrossing[]) =>
    crossings.toSorted(
      (a, b) => a.first.trackIndex - b.first.trackIndex || a.firstMm - b.firstMm || a.secondMm - b.secondMm,
    )
  return { level: inOrderOfTracks(level), over: inOrderOfTracks(over), complete }
}

function search(tracks: readonly CrossingTrack[]): { level: PlanCrossing[]; over: PlanCrossing[]; complete: boolean } {
  const level: PlanCrossing[] = []
  const over: PlanCrossing[] = []
  const heightAt = tracks.map(heightsAlong)
  let workLeft = MOST_WORK
  const compare = (one: PlacedPart, other: PlacedPart): void => {
    const [first, second] = inOrder(one, other)
    first.cut ??= cutElement(first.element)
    second.cut ??= cutElement(second.element)
    workLeft -= first.cut.pieces.length * second.cut.pieces.length
    for (const meeting of meetingsOf(first.cut, second.cut)) {
      const firstMm = first.element.fromMm + meeting.firstMm
      const secondMm = second.element.fromMm + meeting.secondMm
      if (level.length > MOST_LISTED) return
      if (first.element.kind === 'crossing' || second.element.kind === 'crossing') return
      if (isAtEnd(first.track, firstMm) || isAtEnd(second.track, secondMm)) continue
      if (first.track === second.track && wayBetween(first.track, firstMm, secondMm) < first.track.gaugeMm) continue
      const apartMm = Math.abs(heightAt[first.trackIndex]!(firstMm) - heightAt[second.trackIndex]!(secondMm))
      const crossing = { first, firstMm, second, secondMm, apartMm }
      const kind = apartMm < LEVEL_CLEARANCE_MM ? level : over
      if (kind.length <= MOST_LISTED && !kind.some((known) => isSame(known, crossing))) kind.push(crossing)
    }
  }
  let open: PlacedPart[] = []
  for (const placed of fromLeftToRight(tracks)) {
    open = open.filter(({ box }) => box.maxXMm >= placed.box.minXMm)
    if (turnsOver(placed.element)) compare(placed, placed)
    for (const other of open)
      if (overlapInY(placed.box, other.box) && !areNeighbours(placed, other)) compare(placed, other)
    if (workLeft < 0 || level.length > MOST_LISTED) return { level: level.slice(0, MOST_LISTED), over, complete: false }
    open.push(placed)
  }
  return { level, over, complete: true }
}

function fromLeftToRight(tracks: readonly CrossingTrack[]): PlacedPart[] {
  return tracks
    .flatMap((track, trackIndex) =>
      track.placed
        .flatMap(partsOf)
        .map((element) => ({ track, trackIndex, element, box: boundingBox(element), cut: null })),
    )
    .sort((a, b) => a.box.minXMm - b.box.minXMm || a.trackIndex - b.trackIndex || a.element.index - b.element.index)
}

function inOrder(a: PlacedPart, b: PlacedPart): [PlacedPart, PlacedPart] {
  const after = a.trackIndex - b.trackIndex || a.element.index - b.element.index
  return after > 0 ? [b, a] : [a, b]
}

function overlapInY(a: BoundingBox, b: BoundingBox): boolean {
  return a.minYMm <= b.maxYMm && b.minYMm <= a.maxYMm
}

/** More than a full turn of one element. */
function turnsOver({ kind, turnedRad }: PlacedElement): boolean {
  return kind === 'arc' && Math.abs(turnedRad) > 2 * Math.PI
}

/**
 * Elements that follow each other touch where they join and nowhere else, because they have the same direction there
 * (nested circles, or a clothoid inside them); unless they are arcs of one circle that come round.
 */
function areNeighbours(a: PlacedPart, b: PlacedPart): boolean {
  if (a.track !== b.track) return false
  if (a.element.startCurvature === b.element.startCurvature && a.element.kind === 'arc' && b.element.kind === 'arc')
    return false
  const apart = Math.abs(a.element.index - b.element.index)
  return (
    (apart === 0 && a.element !== b.element) || apart === 1 || (a.track.closed && apart === a.track.placed.length - 1)
  )
}

const AT_END_MM = 1

function isAtEnd({ closed, lengthMm, gaugeMm }: CrossingTrack, atMm: number): boolean {
  const nearMm = Math.max(AT_END_MM, gaugeMm / 2)
  return !closed && (atMm < nearMm || atMm > lengthMm - nearMm)
}

/** Along the track, the shorter way round where it is closed. */
function wayBetween({ closed, lengthMm }: CrossingTrack, fromMm: number, toMm: number): number {
  const wayMm = Math.abs(toMm - fromMm)
  return closed ? Math.min(wayMm, lengthMm - wayMm) : wayMm
}

/** Found twice, because it lies where two elements join. */
function isSame(a: PlanCrossing, b: PlanCrossing): boolean {
  return (
    a.first.track === b.first.track &&
    a.second.track === b.second.track &&
    ((near(a.first, a.firstMm, b.firstMm) && near(a.second, a.secondMm, b.secondMm)) ||
      (a.first.track === a.second.track &&
        near(a.first, a.firstMm, b.secondMm) &&
        near(a.first, a.secondMm, b.firstMm)))
  )
}

function near({ track }: PlacedPart, fromMm: number, toMm: number): boolean {
  return wayBetween(track, fromMm, toMm) < AT_END_MM
}

function heightsAlong({ startElevationMm, grades }: CrossingTrack): (atMm: number) => number {
  const profile = profileOfGrades(startElevationMm, grades)
  return (atMm) => elevationOn(profile, atMm)
}
