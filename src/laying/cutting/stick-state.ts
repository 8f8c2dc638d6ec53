import { exceeds, piecesToCover } from '../../measure/counting.ts'
import { type Joint, jointAfter } from './joints-so-far.ts'
import type { ChainLayout, ChainPiece } from './lay-chain.ts'
import type { CutProblem } from './problem.ts'

/** A stick with the pieces cut from it. */
export interface Cut {
  readonly stickMm: number
  readonly pieces: readonly CutPiece[]
  readonly joints: number
  /** By how much less rail the runs need afterwards. */
  readonly gainMm: number
}

export interface CutPiece {
  readonly run: number
  readonly fromMm: number
  readonly toMm: number
}

/** The sticks of a plan so far, the last first. */
export interface CutSoFar {
  readonly cut: Cut
  readonly before: CutSoFar | null
}

/** Some sticks are cut; each run is laid up to some place. */
export interface State {
  readonly atMm: Float64Array
  /** Of runs that others keep away from. */
  readonly joints: readonly (Joint | null)[]
  /** Runs begun but not finished, and how many are not begun yet. */
  readonly open: readonly number[]
  readonly freshCount: number
  /** The joints so far, and the fewest that are still needed. */
  readonly jointsNeeded: number
  /** By source. */
  readonly sticksLeft: readonly number[]
  /** Rail used so far beyond what the runs need at least. */
  readonly lossMm: number
  /** What the runs still need at least. */
  readonly needMm: number
  /** The same places give the same number, and different ones almost certainly others. */
  readonly hash: number
  readonly cuts: CutSoFar | null
}

/** Sticks of one length at one price. */
export interface Source {
  readonly stickMm: number
  readonly count: number
  /** As the length of rail that costs as much; its own length where only length counts. */
  readonly priceMm: number
}

/** A stick cut after a state: what has to be known of the state that follows to choose between several. */
export interface Step {
  readonly state: State
  readonly source: number
  readonly cut: Cut
  readonly lossMm: number
  readonly jointsNeeded: number
  readonly hash: number
}

/** Makes states, each from the one before. */
export class States {
  private readonly problem: CutProblem
  private readonly longestMm: number

  constructor(problem: CutProblem, longestMm: number) {
    this.problem = problem
    this.longestMm = longestMm
  }

  first(sources: readonly Source[], needMm: number): State {
    const { runs } = this.problem
    return {
      atMm: new Float64Array(runs.length),
      joints: new Array<Joint | null>(runs.length).fill(null),
      open: [],
      freshCount: runs.length,
      jointsNeeded: runs.reduce((sum, _, run) => sum + this.jointsFrom(run, 0), 0),
      sticksLeft: sources.map(({ count }) => count),
      lossMm: 0,
      needMm,
      hash: 0,
      cuts: null,
    }
  }

  step(state: State, source: number, cut: Cut, priceMm: number): Step {
    let { hash, jointsNeeded } = state
    for (const { run, fromMm, toMm } of cut.pieces) {
      hash = (hash + placeHash(run, toMm) - placeHash(run, fromMm) + HASHES) % HASHES
      jointsNeeded += this.jointsFrom(run, toMm) - this.jointsFrom(run, fromMm) + (this.isEnd(run, toMm) ? 0 : 1)
    }
    return { state, source, cut, lossMm: state.lossMm + priceMm - cut.gainMm, jointsNeeded, hash }
  }

  /** Whether every run is finished after this step. */
  isDone({ state, cut: { pieces } }: Step): boolean {
    const ended = pieces.filter(({ run, toMm }) => this.isEnd(run, toMm)).length
    return ended === pieces.length && ended === state.open.length + state.freshCount
  }

  after({ state, source, cut, lossMm, jointsNeeded, hash }: Step): State {
    const atMm = state.atMm.slice()
    const joints = [...state.joints]
    let { open, freshCount } = state
    for (const { run, fromMm, toMm } of cut.pieces) {
      atMm[run] = toMm
      if (fromMm === 0) freshCount--
      const ends = this.isEnd(run, toMm)
      if (!ends) joints[run] = this.joint(joints[run]!, run, toMm)
      if (fromMm === 0 && !ends) open = [...open, run].sort((a, b) => a - b)
      if (fromMm > 0 && ends) open = open.filter((each) => each !== run)
    }
    return {
      atMm,
      joints,
      open,
      freshCount,
      jointsNeeded,
      sticksLeft: state.sticksLeft.map((left, n) => (n === source ? left - 1 : left)),
      lossMm,
      needMm: state.needMm - cut.gainMm,
      hash,
      cuts: { cut, before: state.cuts },
    }
  }

  isEnd(run: number, mm: number): boolean {
    return !exceeds(this.problem.runs[run]!.lengthMm, mm)
  }

  private joint(before: Joint | null, run: number, mm: number): Joint | null {
    const { beside } = this.problem.runs[run]!
    return beside ? jointAfter(before, beside.stationAt(mm)) : null
  }

  /** The fewest joints on the rest of a run. */
  private jointsFrom(run: number, mm: number): number {
    return Math.max(0, piecesToCover(this.problem.runs[run]!.lengthMm - mm, this.longestMm) - 1)
  }
}

const HASHES = 2 ** 51

/** Of a place to the millimetre; the start of a run is 0. Two mixes of 32 bits (MurmurHash3), 51 bits kept. */
function placeHash(run: number, mm: number): number {
  if (mm === 0) return 0
  const place = Math.round(mm)
  return (
    mixed(Math.imul(run + 1, 0x9e3779b1) ^ place) + (mixed(Math.imul(place, 0x85ebca6b) ^ (run + 1)) >>> 13) * 2 ** 32
  )
}

function mixed(bits: number): number {
  let h = bits | 0
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b)
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35)
  return (h ^ (h >>> 16)) >>> 0
}

export function layoutOf(last: CutSoFar): ChainLayout {
  const cuts: Cut[] = []
  for (let at: CutSoFar | null = last; at; at = at.before) cuts.push(at.cut)
  cuts.reverse()
  return {
    sticksMm: cuts.map(({ stickMm }) => stickMm),
    pieces: cuts.flatMap(({ pieces }, stick) =>
      pieces.map(({ run, fromMm, toMm }): ChainPiece => ({ run, fromMm, lengthMm: toMm - fromMm, stick })),
    ),
  }
}
