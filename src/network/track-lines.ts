import { firstIndexWhere } from '../measure/search.ts'
import { chained, cutPieces, Line, type LinePiece, pieceReversed } from '../room/line.ts'
import { goingOn, type PassedPiece, piecesAlong } from './lines.ts'
import type { Network } from './network.ts'

/** A track as cars run on it: with what lies before and behind it, through turnouts onto other tracks. */
export interface TrackLine {
  readonly track: number
  readonly line: Line
  /** Where the track itself begins and ends along the line. */
  readonly fromMm: number
  readonly toMm: number
  placeAt(atMm: number): PlaceOnTrack
}

export interface PlaceOnTrack {
  readonly track: number
  readonly atMm: number
  /** Index of the element. */
  readonly element: number
  /** The line runs against its stations. */
  readonly reversed: boolean
}

/**
 * All tracks that are not lifted. What lies before and behind is moved so that it meets the track, which stays where it
 * is. As each track that begins or ends at a leg of a turnout goes on through it, every way over a turnout is on a line.
 */
export function trackLines(network: Network, beyondMm: number): TrackLine[] {
  const runs = network.tracks.map((): number[] => [])
  for (const [stretch, { track, legOf }] of network.stretches.entries())
    if (legOf === null) runs[track]!.push(2 * stretch)
  return runs.flatMap((own, track) => (own.length === 0 ? [] : [lineOfTrack(track, own, network, beyondMm)]))
}

function lineOfTrack(track: number, runs: readonly number[], network: Network, beyondMm: number): TrackLine {
  const own = piecesAlong(runs, network)
  if (network.tracks[track]!.closed) return trackLine(track, network, own, 0, lengthOf(own), true)
  const ahead = beyond(own, runs, network, beyondMm)
  const turned = beyond(own.map(reversed).reverse(), runs.map((run) => run ^ 1).reverse(), network, beyondMm)
  const before = turned.map(reversed).reverse()
  const fromMm = lengthOf(before)
  return trackLine(track, network, [...before, ...own, ...ahead], fromMm, fromMm + lengthOf(own), false)
}

/** What follows the last of some pieces, brought to its end. */
function beyond(own: readonly PassedPiece[], runs: readonly number[], network: Network, mm: number): PassedPiece[] {
  const added = goingOn(runs, mm, network)
  if (added.length === 0) return []
  return chained([own.at(-1)!, ...cutPassed(piecesAlong(added, network), mm)]).slice(1)
}

/** The first so many millimetres of pieces, each with the stations it keeps. */
function cutPassed(pieces: readonly PassedPiece[], mm: number): PassedPiece[] {
  return cutPieces(pieces, 0, mm).map((piece, index) => {
    const { lengthMm, fromMm, toMm } = pieces[index]!
    return piece.lengthMm === lengthMm
      ? piece
      : { ...piece, toMm: fromMm + ((toMm - fromMm) * piece.lengthMm) / lengthMm }
  })
}

function reversed(piece: PassedPiece): PassedPiece {
  return { ...piece, ...pieceReversed(piece), fromMm: piece.toMm, toMm: piece.fromMm }
}

function trackLine(
  track: number,
  { stretches }: Network,
  given: readonly PassedPiece[],
  fromMm: number,
  toMm: number,
  closed: boolean,
): TrackLine {
  const pieces = given.filter(({ lengthMm }) => lengthMm > 0)
  const starts: number[] = []
  let sumMm = 0
  for (const { lengthMm } of pieces) {
    starts.push(sumMm)
    sumMm += lengthMm
  }
  const placeAt = (atMm: number): PlaceOnTrack => {
    const index = Math.max(0, firstIndexWhere(starts.length, (each) => starts[each]! > atMm) - 1)
    const piece = pieces[index]!
    const part = Math.min(1, Math.max(0, (atMm - starts[index]!) / piece.lengthMm))
    return {
      track: stretches[piece.stretch]!.track,
      element: piece.element,
      atMm: piece.fromMm + (piece.toMm - piece.fromMm) * part,
      reversed: piece.toMm < piece.fromMm,
    }
  }
  return { track, line: new Line(pieces, closed), fromMm, toMm, placeAt }
}

function lengthOf(pieces: readonly LinePiece[]): number {
  return pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
}
