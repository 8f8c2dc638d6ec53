import { back, followedBy } from '../../fitting/motion.ts'
import { type Beyond, type Path, type PathAsked, type Piece, pathsBetween } from '../../fitting/paths.ts'
import { DEG_PER_RAD } from '../../measure/angle.ts'
import type { Fault } from '../../measure/fault.ts'
import { formatMm } from '../../measure/length.ts'
import { sum } from '../../measure/sum.ts'
import { elementLengthMm } from '../../plan/elements.ts'
import type { Connect, ElementInput } from '../../plan/rows/track.ts'
import type { PlacedElement, Pose } from '../../track/types.ts'
import type { Fitted } from './fit-unknowns.ts'
import type { TrackToFit } from './track-to-fit.ts'

/** One way to make the connection of a track. */
export interface ConnectOption {
  /** What stands for the connection. */
  readonly pieces: readonly ElementInput[]
  /** All elements of the track. */
  readonly elements: readonly ElementInput[]
}

export function lengthOfWay({ pieces }: Pick<ConnectOption, 'pieces'>): number {
  return sum(pieces.map(elementLengthMm))
}

/** As small as an element of a plan may be; a gap of that size is closed by any joint. */
const LEAST_MM = 0.001
const LEAST_DEG = 1e-6

/** What a connection keeps to beside its own fields. */
export interface Kept {
  /** The least straight between reverse curves, where the connection does not say. */
  readonly reverseMm: number
  /** The smallest radius that is no finding, where that is larger than the connection's own. */
  readonly radiusMm: number
}

/** The ways to make the connection of a track, the shortest first; with curves of either radius, where there are two. */
export function connectOptions(track: TrackToFit, { reverseMm, radiusMm }: Kept): Fitted<readonly ConnectOption[]> {
  const { at, connect, start, goal, asked } = askedOf(track, reverseMm)
  const pathsWith = (easementMm: number) => pathsBetween(start, goal, { ...asked, easementMm })
  const found = pathsWith(asked.easementMm)
  if (found.length === 0)
    return { ok: false, fault: noWay(track.index, at, asked.easementMm, (mm) => pathsWith(mm).length > 0) }
  const wider =
    radiusMm > asked.minimumRadiusMm ? pathsBetween(start, goal, { ...asked, minimumRadiusMm: radiusMm }) : []
  const others = wider.filter((path) => !found.some((other) => isSamePath(path, other)))
  const paths = [...found, ...others].toSorted((a, b) => a.lengthMm - b.lengthMm)
  return { ok: true, fitted: paths.flatMap((path) => optionOf(path, connect, track, at)) }
}

/** A way whose one curve is as wide as fits is found with every radius. */
function isSamePath(one: Path, other: Path): boolean {
  return one.word === other.word && Math.abs(one.lengthMm - other.lengthMm) < LEAST_MM
}

/** From place to place so many of the shortest ways; of the ways over all of them, again so many. */
interface Most {
  readonly ofLeg: number
  readonly over: number
}

const BY_ONE: Most = { ofLeg: 3, over: Number.POSITIVE_INFINITY }
/** Of the ways by all single places together. */
const MOST_BY_WAY = 60

/** The ways to make the connection that lead over one of some places, the shortest first; a few of the many there are. */
export function connectBy(places: readonly Pose[], track: TrackToFit, reverseMm: number): ConnectOption[] {
  const asked = askedOf(track, reverseMm)
  return places
    .flatMap((place) => pathsOver([place], asked, BY_ONE))
    .toSorted((a, b) => a.path.lengthMm - b.path.lengthMm)
    .slice(0, MOST_BY_WAY)
    .flatMap(({ path }) => optionOver(path, asked, track))
}

/** A way over some places in order. */
export interface WayOver {
  readonly option: ConnectOption
  readonly lengthMm: number
  /** From place to place. */
  readonly legsMm: readonly number[]
  /** The station of its start, and the two places it leads between. */
  readonly startMm: number
  readonly ends: readonly [Pose, Pose]
}

const BY_SEVERAL: Most = { ofLeg: 2, over: 3 }

/** The shortest ways to make the connection over some places in order. */
export function connectOver(places: readonly Pose[], track: TrackToFit, reverseMm: number): WayOver[] {
  const asked = askedOf(track, reverseMm)
  const { at, start, goal } = asked
  const startMm = track.placed[at]!.fromMm
  return pathsOver(places, asked, BY_SEVERAL).flatMap(({ path, legsMm }) =>
    optionOver(path, asked, track).map((option) => {
      return { option, legsMm, startMm, lengthMm: path.lengthMm, ends: [start, goal] as const }
    }),
  )
}

interface PathOver {
  readonly path: Path
  readonly legsMm: readonly number[]
}

function pathsOver(
  places: readonly Pose[],
  { start, goal, asked }: ReturnType<typeof askedOf>,
  most: Most,
): readonly PathOver[] {
  // An easement that ends at a place needs a straight before the next.
  const there: Beyond = { curvature: 0, straightMm: 0, hasEasement: asked.easementMm > 0 }
  const stops = [start, ...places, goal]
  let ways: readonly PathOver[] = []
  for (const [index, place] of stops.slice(1).entries()) {
    const before = index === 0 ? asked.before : there
    const after = index === places.length ? asked.after : there
    const legs = pathsBetween(stops[index]!, place, { ...asked, before, after }).slice(0, most.ofLeg)
    const further =
      index === 0
        ? legs.map((path) => ({ path, legsMm: [path.lengthMm] }))
        : ways.flatMap(({ path, legsMm }) =>
            legs.map((leg) => ({ path: oneAfterOther(path, leg), legsMm: [...legsMm, leg.lengthMm] })),
          )
    ways = further.toSorted((a, b) => a.path.lengthMm - b.path.lengthMm).slice(0, most.over)
  }
  return ways
}

/** None where two easements would follow each other. */
function optionOver(path: Path, { connect, at }: ReturnType<typeof askedOf>, track: TrackToFit): ConnectOption[] {
  return optionOf(path, connect, track, at).filter(({ elements }) =>
    elements.every(({ kind }, index) => kind !== 'easement' || elements[index + 1]?.kind !== 'easement'),
  )
}

/** Straights that meet are one. */
function oneAfterOther(one: Path, other: Path): Path {
  const [last, first] = [one.pieces.at(-1), other.pieces[0]]
  const lengthMm = one.lengthMm + other.lengthMm
  const word = one.word + other.word
  if (last?.kind !== 'tangent' || first?.kind !== 'tangent')
    return { word, lengthMm, pieces: [...one.pieces, ...other.pieces] }
  const straight = { kind: 'tangent' as const, lengthMm: last.lengthMm + first.lengthMm }
  return { word, lengthMm, pieces: [...one.pieces.slice(0, -1), straight, ...other.pieces.slice(1)] }
}

/** The turnouts that the track of a connection leaves and comes to, as seen along it. */
export interface Legs {
  readonly before: Beyond | null
  readonly after: Beyond | null
}

const NO_LEGS: Legs = { before: null, after: null }

/** The shortest ways to make the connection, no more than so many. */
export function shortestWays(track: TrackToFit, reverseMm: number, legs: Legs, most: number): ConnectOption[] {
  const { at, connect, start, goal, asked } = askedOf(track, reverseMm, legs)
  return pathsBetween(start, goal, asked)
    .slice(0, most)
    .flatMap((path) => optionOf(path, connect, track, at))
}

/** The length of the shortest way to make the connection; infinite where there is none. */
export function shortestMm(track: TrackToFit, reverseMm: number, legs: Legs): number {
  const { start, goal, asked } = askedOf(track, reverseMm, legs)
  return pathsBetween(start, goal, asked)[0]?.lengthMm ?? Number.POSITIVE_INFINITY
}

function askedOf(track: TrackToFit, reverseMm: number, legs = NO_LEGS) {
  const at = track.elements.findIndex(({ kind }) => kind === 'connect')
  const connect = track.elements[at] as Connect
  const start = followedBy(track.start, track.before[at]!)
  const rest = followedBy(back(track.before[at + 1]!), track.before.at(-1)!)
  const goal = followedBy(track.goal.pose, back(rest))
  const asked: PathAsked = {
    minimumRadiusMm: connect.minimumRadius,
    easementMm: connect.easement ?? 0,
    reverseMm: connect.minimumTangent ?? reverseMm,
    before: overLeg(beyond(track, at, -1), legs.before),
    after: overLeg(beyond(track, at, 1), legs.after),
  }
  return { at, connect, start, goal, asked }
}

function optionOf({ pieces }: Path, { label }: Connect, { elements }: TrackToFit, at: number): ConnectOption[] {
  const made = pieces.flatMap((piece) => elementOf(piece, label))
  if (made.length === 0) return []
  return [{ pieces: made, elements: elements.toSpliced(at, 1, ...made) as ElementInput[] }]
}

function elementOf(piece: Piece, label: string | undefined): ElementInput[] {
  const labelled = label === undefined ? {} : { label }
  if (piece.kind !== 'arc')
    return piece.lengthMm < LEAST_MM ? [] : [{ kind: piece.kind, length: piece.lengthMm, ...labelled }]
  const { radiusMm: radius, angleRad, turn } = piece
  const angle = angleRad * DEG_PER_RAD
  return angle < LEAST_DEG ? [] : [{ kind: 'arc', radius, angle, turn, ...labelled }]
}

/** What lies before (−1) or behind (1) the connection. */
function beyond({ placed, closed }: TrackToFit, at: number, way: 1 | -1): Beyond {
  let straightMm = 0
  for (let index = at + way; ; index += way) {
    const element = closed ? placed.at(index % placed.length) : placed[index]
    if (!element || element.index === at) return { curvature: 0, straightMm, hasEasement: false }
    if (isStraight(element)) {
      straightMm += element.lengthMm
      continue
    }
    const { startCurvature, endCurvature } = element
    const [near, far] = way < 0 ? [endCurvature, startCurvature] : [startCurvature, endCurvature]
    const hasEasement = element.kind === 'easement' && straightMm === 0
    return { curvature: near === 0 ? far : near, straightMm, hasEasement }
  }
}

/** Where there is nothing but straights up to the leg, the curve of the leg is next. */
function overLeg(own: Beyond, leg: Beyond | null): Beyond {
  if (!leg || own.curvature !== 0) return own
  return { ...leg, straightMm: own.straightMm + leg.straightMm }
}

function isStraight({ kind }: PlacedElement): boolean {
  return kind === 'tangent' || kind === 'crossing'
}

/** Which condition forbids every way, and the nearest that would do: without easements there is always one. */
function noWay(index: number, at: number, easementMm: number, leads: (easementMm: number) => boolean): Fault {
  const path = ['tracks', index, 'elements', at]
  if (easementMm === 0 || !leads(0))
    return {
      path,
      code: 'no-fit',
      detail: 'the connection begins and ends at the same place with the same heading',
      hint: 'leave it out: the track already meets',
    }
  return {
    path: [...path, 'easement'],
    code: 'no-fit',
    detail: `curves with easements of ${formatMm(easementMm, 2)} do not fit between the two places`,
    hint: `the nearest that would do are easements of ${formatMm(longest(easementMm, leads), 2)}`,
  }
}

/** The longest easement with which there is a way, by halving. */
function longest(tooLongMm: number, leads: (easementMm: number) => boolean): number {
  let [low, high] = [0, tooLongMm]
  for (let halving = 0; halving < 40; halving++) {
    const middle = (low + high) / 2
    if (leads(middle)) low = middle
    else high = middle
  }
  return low
}
