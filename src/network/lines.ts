import { type LinePiece, pieceReversed } from '../room/line.ts'
import type { Network } from './network.ts'

/** A piece on a way of a train, in its direction. */
export interface PassedPiece extends LinePiece {
  readonly element: number
  readonly stretch: number
  /** Where it begins and ends, in the direction of the train. */
  readonly fromMm: number
  readonly toMm: number
}

/** The pieces of runs, in the direction of the train. */
export function piecesAlong(runs: readonly number[], { stretches }: Network): PassedPiece[] {
  const passed: PassedPiece[] = []
  for (const run of runs) {
    const stretch = run >> 1
    const { pieces } = stretches[stretch]!
    if (run % 2 === 0)
      for (const piece of pieces) passed.push(passedPiece(piece, piece, stretch, piece.fromMm, piece.toMm))
    else
      for (let index = pieces.length - 1; index >= 0; index--) {
        const piece = pieces[index]!
        passed.push(passedPiece(pieceReversed(piece), piece, stretch, piece.toMm, piece.fromMm))
      }
  }
  return passed
}

/** Field by field: thousands are made for a large plan, and spreading them takes longer. */
function passedPiece(
  { lengthMm, startCurvature, endCurvature, start, end }: LinePiece,
  { element }: Pick<PassedPiece, 'element'>,
  stretch: number,
  fromMm: number,
  toMm: number,
): PassedPiece {
  return { lengthMm, startCurvature, endCurvature, start, end, element, stretch, fromMm, toMm }
}

/** A place of a track: the station at a distance along such pieces. */
export function stationAlong(
  pieces: readonly PassedPiece[],
  atMm: number,
): { readonly stretch: number; readonly atMm: number } {
  let leftMm = atMm
  for (const [index, { stretch, lengthMm, fromMm, toMm }] of pieces.entries()) {
    if (leftMm <= lengthMm || index === pieces.length - 1) {
      const part = lengthMm === 0 ? 0 : Math.min(1, Math.max(0, leftMm / lengthMm))
      return { stretch, atMm: fromMm + (toMm - fromMm) * part }
    }
    leftMm -= lengthMm
  }
  throw new RangeError('no pieces have no place')
}

/**
 * How a train goes on from its last run: on its own track where it can, over no run twice, and until it has gone a
 * length. `mayPass` may stop it at the end by which it leaves a run for the next.
 */
export function goingOn(
  runs: readonly number[],
  lengthMm: number,
  network: Network,
  mayPass: (next: number) => boolean = () => true,
): number[] {
  const { links, stretches } = network
  const on = new Set(runs)
  const added: number[] = []
  let leftMm = lengthMm
  let run = runs.at(-1)!
  while (leftMm > 0) {
    const { track } = stretches[run >> 1]!
    const open = links[run ^ 1]!.filter((next) => !on.has(next) && mayPass(next))
    const next = open.find((each) => isOnTrack(track, each, network)) ?? open[0]
    if (next === undefined) break
    on.add(next)
    added.push(next)
    leftMm -= runLengthMm(next, network)
    run = next
  }
  return added
}

function isOnTrack(track: number, run: number, { stretches }: Network): boolean {
  const stretch = stretches[run >> 1]!
  return stretch.track === track && stretch.legOf === null
}

export function runLengthMm(run: number, { stretches }: Network): number {
  return stretches[run >> 1]!.pieces.reduce((sum, { lengthMm }) => sum + lengthMm, 0)
}
