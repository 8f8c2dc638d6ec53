import type { Network, Stretch } from './network.ts'
import type { Piece } from './pieces.ts'

/** Where a curve begins, as a train comes to it. */
export interface CurvePlace {
  readonly stretch: number
  /** Index of its element. */
  readonly element: number
  readonly atMm: number
  readonly inTurnout: boolean
}

/** Two curves of opposite turn, one after the other. */
export interface Reversal {
  readonly first: CurvePlace
  readonly second: CurvePlace
  readonly straightMm: number
  /** Both curves meet the straight, or each other, through an easement. */
  readonly eased: boolean
}

/** A curve that a train has left, and the straight since. */
interface Left extends CurveEnd {
  readonly straightMm: number
}

interface CurveEnd {
  readonly place: CurvePlace
  /** 1 to the left, −1 to the right. */
  readonly sign: number
  /** Its curvature here is that of an easement, and 0. */
  readonly eased: boolean
}

/** The curves of a run, so that those of a way are put together from its runs. */
interface RunCurves {
  /** With the straight before it; null where all is straight. */
  readonly first: (CurveEnd & { readonly straightMm: number }) | null
  readonly last: Left | null
  readonly within: readonly Reversal[]
  readonly straightMm: number
}

/** The curves of every run, each worked out when it is first asked for. */
export class Curves {
  private readonly network: Network
  private readonly known = new Map<number, RunCurves>()

  constructor(network: Network) {
    this.network = network
  }

  of(run: number): RunCurves {
    const there = this.known.get(run)
    if (there) return there
    const made = curvesOf(run, this.network.stretches[run >> 1]!)
    this.known.set(run, made)
    return made
  }

  /** What a train has left behind it at the end of a run, and the curves that reverse in or before it. */
  after(left: Left | null, run: number): { readonly left: Left | null; readonly reversals: readonly Reversal[] } {
    const { first, last, within, straightMm } = this.of(run)
    if (!first) return { left: left && { ...left, straightMm: left.straightMm + straightMm }, reversals: within }
    if (!left || left.sign !== -first.sign) return { left: last, reversals: within }
    const reversal = {
      first: left.place,
      second: first.place,
      straightMm: left.straightMm + first.straightMm,
      eased: left.eased && first.eased,
    }
    return { left: last, reversals: [reversal, ...within] }
  }
}

function curvesOf(run: number, { pieces }: Stretch): RunCurves {
  let first: RunCurves['first'] = null
  let last: Left | null = null
  let straightMm = 0
  const within: Reversal[] = []
  for (const { piece, enters, leaves, atMm } of inDirection(pieces, run % 2 === 1)) {
    if (enters === 0 && leaves === 0) {
      straightMm += piece.lengthMm
      continue
    }
    const place = { stretch: run >> 1, element: piece.element, atMm, inTurnout: piece.inTurnout }
    const begins = { place, sign: Math.sign(enters || leaves), eased: piece.easement && enters === 0 }
    if (!first) first = { ...begins, straightMm }
    else if (last && last.sign === -begins.sign)
      within.push({ first: last.place, second: place, straightMm, eased: last.eased && begins.eased })
    const sign = Math.sign(leaves || enters)
    if (sign !== begins.sign) within.push({ first: place, second: place, straightMm: 0, eased: true })
    last = { place, sign, eased: piece.easement && leaves === 0, straightMm: 0 }
    straightMm = 0
  }
  return { first, last: last && { ...last, straightMm }, within, straightMm }
}

function inDirection(pieces: readonly Piece[], back: boolean) {
  if (!back)
    return pieces.map((piece) => ({
      piece,
      enters: piece.startCurvature,
      leaves: piece.endCurvature,
      atMm: piece.fromMm,
    }))
  return pieces.toReversed().map((piece) => ({
    piece,
    enters: -piece.endCurvature,
    leaves: -piece.startCurvature,
    atMm: piece.toMm,
  }))
}
