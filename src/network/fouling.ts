import { clearsAt, type Room } from '../room/clearing.ts'
import { chained, cutPieces, formOf, Line, type LinePiece, pieceReversed } from '../room/line.ts'
import { type PlacedElement, type Pose, partsOf } from '../track/types.ts'
import { goingOn, type PassedPiece, piecesAlong, runLengthMm, stationAlong } from './lines.ts'
import type { Network } from './network.ts'

/** Where cars stand clear of a turnout or crossing on one of its legs. */
export interface FoulingPoint {
  /** The turnout or crossing. */
  readonly name: string
  /** Index of the track. */
  readonly track: number
  readonly atMm: number
  readonly pose: Pose
}

/** A stretch of a track on which nothing stands clear. */
export interface Fouled {
  readonly track: number
  readonly fromMm: number
  readonly toMm: number
}

export interface Fouling {
  readonly points: readonly FoulingPoint[]
  readonly fouled: readonly Fouled[]
}

/** So far a leg is followed; legs that are not clear of each other by then run side by side. */
const HORIZON_MM = 20_000
/** So much of the line before the points matters: cars near them stand there with a truck. */
const BEFORE_MM = 2_000
/** A track crosses where its centre line comes so near to the middle of the crossing. */
const ON_CROSSING_MM = 20

/** Where legs are clear, by the form of both, for one `Room`. */
export type KnownLegs = Map<string, number>

const MOST_KNOWN = 5_000

/** The fouling points of all turnouts with tracks at both legs, and of all crossings. */
export function foulingOf(network: Network, room: Room, known: KnownLegs = new Map()): Fouling {
  const points: FoulingPoint[] = []
  const fouled: Fouled[] = []
  for (const [tail, { name }] of network.points) {
    const legs = network.links[tail]!
    if (legs.length !== 2) continue
    const [one, other] = legs.map((leg) => legFrom(tail, leg, network))
    for (const [leg, beside] of [
      [one!, other!],
      [other!, one!],
    ] as const) {
      const clear = clearOf(leg, beside, room, known)
      fouled.push(...fouledAlong(leg.runs, (clear ?? leg.line.lengthMm) - leg.beforeMm, network))
      if (clear === null) continue
      const { stretch, atMm } = stationAlong(leg.pieces, clear - leg.beforeMm)
      points.push({ name, track: network.stretches[stretch]!.track, atMm, pose: leg.line.poseAt(clear) })
    }
  }
  for (const crossing of crossingsOf(network)) addCrossing(crossing, network, room, points, fouled)
  return { points, fouled }
}

/** Up to here legs are compared with those of other turnouts. */
const SAME_FORM_MM = 4_000
/** How much of a line beyond a place may matter there. */
const BEYOND_MM = 2_000

/** Where a leg is clear of the other; legs of the same form are looked at once. */
function clearOf(leg: LegLine, beside: LegLine, room: Room, known: KnownLegs): number | null {
  const ofLeg = ({ line: { pieces }, beforeMm }: LegLine) => formOf(cutPieces(pieces, 0, beforeMm + SAME_FORM_MM))
  const key = `${ofLeg(leg)}|${ofLeg(beside)}`
  const there = known.get(key)
  if (there !== undefined) return there
  const clear = clearsAt(leg.line, beside.line, leg.beforeMm, beside.beforeMm, room)
  const isWithin = clear !== null && clear - leg.beforeMm < SAME_FORM_MM - BEYOND_MM
  if (isWithin && known.size < MOST_KNOWN) known.set(key, clear)
  return clear
}

interface LegLine {
  readonly runs: readonly number[]
  readonly pieces: readonly PassedPiece[]
  readonly line: Line
  /** How much of the line lies before the points. */
  readonly beforeMm: number
}

function legFrom(tail: number, leg: number, network: Network): LegLine {
  const back = [tail, ...goingOn([tail], BEFORE_MM, network)]
  const before = piecesAlong(back.map((run) => run ^ 1).reverse(), network)
  const beforeMm = lengthOf(before)
  const near = cutPieces(before, Math.max(0, beforeMm - BEFORE_MM), beforeMm)
  // No further than to the points of the next turnout that both legs may come to.
  const runs = [leg, ...goingOn([leg], HORIZON_MM, network, (next) => !network.points.has(next))]
  const pieces = piecesAlong(runs, network)
  return { runs, pieces, line: new Line(chained([...near, ...pieces])), beforeMm: lengthOf(near) }
}

function lengthOf(pieces: readonly LinePiece[]): number {
  return pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
}

/** What of the tracks lies within a length from the points. */
function fouledAlong(runs: readonly number[], lengthMm: number, network: Network): Fouled[] {
  const found: Fouled[] = []
  let leftMm = lengthMm
  for (const run of runs) {
    if (leftMm <= 0) break
    const { track, fromMm, toMm, legOf } = network.stretches[run >> 1]!
    const ofRun = Math.min(leftMm, runLengthMm(run, network))
    if (legOf === null)
      found.push(run % 2 === 0 ? { track, fromMm, toMm: fromMm + ofRun } : { track, fromMm: toMm - ofRun, toMm })
    leftMm -= ofRun
  }
  return found
}

/** The two tracks of a crossing, each with the station of its middle. */
interface Crossed {
  readonly name: string
  readonly tracks: readonly [Place, Place]
}

interface Place {
  readonly track: number
  readonly atMm: number
}

function crossingsOf(network: Network): Crossed[] {
  const seen = new Set<string>()
  return network.tracks.flatMap((own, track) => {
    if (own.state === 'lifted') return []
    return own.crossings.flatMap(({ name, atMm, pose }): Crossed[] => {
      if (seen.has(name)) return []
      seen.add(name)
      const other = crossedBy(pose, track, network)
      return other ? [{ name, tracks: [{ track, atMm }, other] }] : []
    })
  })
}

/** The other track whose centre line goes over a place. */
function crossedBy(pose: Pose, own: number, { tracks }: Network): Place | null {
  for (const [track, { state, placed }] of tracks.entries()) {
    if (track === own || state === 'lifted') continue
    for (const part of placed.flatMap(partsOf)) {
      const atMm = stationNearest(part, pose)
      if (atMm !== null) return { track, atMm }
    }
  }
  return null
}

function stationNearest(part: PlacedElement, { xMm, yMm }: Pose): number | null {
  const { start, lengthMm, fromMm } = part
  if (Math.hypot(start.xMm - xMm, start.yMm - yMm) > lengthMm + ON_CROSSING_MM) return null
  const line = new Line([part])
  let atMm = Math.min(lengthMm, Math.hypot(start.xMm - xMm, start.yMm - yMm))
  for (let step = 0; step < 12; step++) {
    const { xMm: x, yMm: y, headingRad } = line.poseAt(atMm)
    const ahead = (xMm - x) * Math.cos(headingRad) + (yMm - y) * Math.sin(headingRad)
    atMm = Math.min(lengthMm, Math.max(0, atMm + ahead))
  }
  const { xMm: x, yMm: y } = line.poseAt(atMm)
  return Math.hypot(xMm - x, yMm - y) <= ON_CROSSING_MM ? fromMm + atMm : null
}

function addCrossing(
  { name, tracks: [one, other] }: Crossed,
  network: Network,
  room: Room,
  points: FoulingPoint[],
  fouled: Fouled[],
): void {
  for (const [own, beside] of [
    [one, other],
    [other, one],
  ] as const) {
    const line = lineOf(own.track, network)
    const back = new Line(line.pieces.map(pieceReversed).reverse())
    const across = lineOf(beside.track, network)
    const { lengthMm } = line
    const ahead = clearsAt(line, across, own.atMm, beside.atMm, room)
    const behind = clearsAt(back, across, lengthMm - own.atMm, beside.atMm, room)
    const fromMm = behind === null ? 0 : lengthMm - behind
    fouled.push({ track: own.track, fromMm, toMm: ahead ?? lengthMm })
    if (behind !== null) points.push({ name, track: own.track, atMm: fromMm, pose: line.poseAt(fromMm) })
    if (ahead !== null) points.push({ name, track: own.track, atMm: ahead, pose: line.poseAt(ahead) })
  }
}

function lineOf(track: number, { tracks }: Network): Line {
  return new Line(tracks[track]!.placed.flatMap(partsOf))
}
