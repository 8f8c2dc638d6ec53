import { formatMm } from '../measure/length.ts'
import { type BoundingBox, boundingBox } from '../track/bounding-box.ts'
import { elevationOn, type GradeStretch, profileOfGrades } from '../track/grade.ts'
import { type CutElement, cutElement, meetingsOf } from '../track/meeting.ts'
import { type PlacedElement, partsOf } from '../track/types.ts'
import type { Finding } from './finding.ts'

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
const MOST_LISTED = 50

/** Pairs of straights and arcs compared at most; a garden's plan takes some thousands. */
const MOST_WORK = 2_000_000

/** An element in its track, with the rectangle around it. */
interface Placed {
  readonly track: CrossingTrack
  readonly trackIndex: number
  readonly element: PlacedElement
  readonly box: BoundingBox
  /** Made when it is first compared. */
  cut: CutElement | null
}

export interface Crossing {
  readonly first: Placed
  readonly firstMm: number
  readonly second: Placed
  readonly secondMm: number
  readonly apartMm: number
}

/**
 * Where tracks cross themselves or one another on the level. That ends of tracks touch each other or another track is no
 * crossing. Rectangles around the elements are swept from left to right, so that only elements near one another are
 * compared.
 */
export function selfCrossings(tracks: readonly CrossingTrack[]): Finding[] {
  const { crossings, complete } = crossingsOf(tracks)
  const found = crossings.map((crossing) => findingOf(crossing, tracks.length > 1))
  return complete ? found : [...found, notAllLookedFor(found.length)]
}

/** In the order of the first track, and whether they are all. */
export function crossingsOf(tracks: readonly CrossingTrack[]): { crossings: Crossing[]; complete: boolean } {
  const { crossings, complete } = search(tracks)
  const inOrder = crossings.toSorted(
    (a, b) => a.first.trackIndex - b.first.trackIndex || a.firstMm - b.firstMm || a.secondMm - b.secondMm,
  )
  return { crossings: inOrder, complete }
}

function search(tracks: readonly CrossingTrack[]): { crossings: Crossing[]; complete: boolean } {
  const crossings: Crossing[] = []
  const heightAt = tracks.map(heightsAlong)
  let workLeft = MOST_WORK
  const compare = (one: Placed, other: Placed): void => {
    const [first, second] = inOrder(one, other)
    first.cut ??= cutElement(first.element)
    second.cut ??= cutElement(second.element)
    workLeft -= first.cut.pieces.length * second.cut.pieces.length
    for (const meeting of meetingsOf(first.cut, second.cut)) {
      const firstMm = first.element.fromMm + meeting.firstMm
      const secondMm = second.element.fromMm + meeting.secondMm
      if (crossings.length > MOST_LISTED) return
      if (first.element.kind === 'crossing' || second.element.kind === 'crossing') return
      if (isAtEnd(first.track, firstMm) || isAtEnd(second.track, secondMm)) continue
      if (first.track === second.track && wayBetween(first.track, firstMm, secondMm) < first.track.gaugeMm) continue
      const apartMm = Math.abs(heightAt[first.trackIndex]!(firstMm) - heightAt[second.trackIndex]!(secondMm))
      const crossing = { first, firstMm, second, secondMm, apartMm }
      if (apartMm < LEVEL_CLEARANCE_MM && !crossings.some((known) => isSame(known, crossing))) crossings.push(crossing)
    }
  }
  let open: Placed[] = []
  for (const placed of fromLeftToRight(tracks)) {
    open = open.filter(({ box }) => box.maxXMm >= placed.box.minXMm)
    if (turnsOver(placed.element)) compare(placed, placed)
    for (const other of open)
      if (overlapInY(placed.box, other.box) && !areNeighbours(placed, other)) compare(placed, other)
    if (workLeft < 0 || crossings.length > MOST_LISTED)
      return { crossings: crossings.slice(0, MOST_LISTED), complete: false }
    open.push(placed)
  }
  return { crossings, complete: true }
}

function fromLeftToRight(tracks: readonly CrossingTrack[]): Placed[] {
  return tracks
    .flatMap((track, trackIndex) =>
      track.placed
        .flatMap(partsOf)
        .map((element) => ({ track, trackIndex, element, box: boundingBox(element), cut: null })),
    )
    .sort((a, b) => a.box.minXMm - b.box.minXMm || a.trackIndex - b.trackIndex || a.element.index - b.element.index)
}

function inOrder(a: Placed, b: Placed): [Placed, Placed] {
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
function areNeighbours(a: Placed, b: Placed): boolean {
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
function isSame(a: Crossing, b: Crossing): boolean {
  return (
    a.first.track === b.first.track &&
    a.second.track === b.second.track &&
    ((near(a.first, a.firstMm, b.firstMm) && near(a.second, a.secondMm, b.secondMm)) ||
      (a.first.track === a.second.track &&
        near(a.first, a.firstMm, b.secondMm) &&
        near(a.first, a.secondMm, b.firstMm)))
  )
}

function near({ track }: Placed, fromMm: number, toMm: number): boolean {
  return wayBetween(track, fromMm, toMm) < AT_END_MM
}

function heightsAlong({ startElevationMm, grades }: CrossingTrack): (atMm: number) => number {
  const profile = profileOfGrades(startElevationMm, grades)
  return (atMm) => elevationOn(profile, atMm)
}

function findingOf({ first, firstMm, second, secondMm, apartMm }: Crossing, several: boolean): Finding {
  const own = first.track === second.track
  const there = `element ${second.element.index + 1}, at ${formatMm(secondMm, 0)}`
  const height = apartMm === 0 ? 'at the same height' : `with only ${formatMm(apartMm)} between their heights`
  return {
    rule: 'self-crossing',
    severity: 'stop',
    track: first.track.name,
    element: first.element.index,
    message: `${several ? first.track.name : 'The track'} crosses ${own ? 'itself' : second.track.name} ${height}: at ${formatMm(firstMm, 0)} from its start it meets ${own ? 'its own ' : ''}${there}.`,
    measured: apartMm,
    limit: LEVEL_CLEARANCE_MM,
    unit: 'mm',
    cure: `Move one of them, or pass one over the other with the height of your cars between them, at least ${formatMm(LEVEL_CLEARANCE_MM)}.`,
  }
}

function notAllLookedFor(found: number): Finding {
  return {
    rule: 'not-checked',
    severity: 'note',
    track: null,
    element: null,
    message:
      found >= MOST_LISTED
        ? `Only the first ${MOST_LISTED} crossings on the level are listed.`
        : 'Not all of this plan was searched for crossings on the level: too many of its elements lie close together.',
    measured: null,
    limit: null,
    unit: null,
    cure: 'Split the plan into several.',
  }
}
