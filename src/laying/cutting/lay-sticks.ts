import { exceeds, LENGTH_SLACK_MM, piecesToCover } from '../../measure/counting.ts'
import type { ChainLayout, ChainPiece } from './lay-chain.ts'
import type { CutProblem, Work } from './problem.ts'
import { RestOfRun } from './rest-of-run.ts'
import { lastPlace } from './run-needs.ts'

/** Ways to cut a stick that are kept for each state. */
const MOST_CUTS = 4
const MOST_PIECES_A_STICK = 4
/** With more runs pieces that go round in circles are not tried for on purpose. */
const MOST_FOR_CIRCLES = 4
/** Runs begun but not finished, and runs not begun yet that are tried for one piece. */
const MOST_OPEN = 4
const MOST_NEW = 6

/** The joints of a run so far, the last first. */
interface Joint {
  readonly mm: number
  readonly before: Joint | null
}

/** Some sticks are cut; each run is laid up to some place. */
interface State {
  readonly atMm: readonly number[]
  readonly joints: readonly (Joint | null)[]
  readonly jointCount: number
  readonly sticksLeft: readonly number[]
  /** Rail used so far beyond what the runs need at least. */
  readonly lossMm: number
  readonly cut: Cut | null
  readonly before: State | null
}

/** A stick with the pieces cut from it. */
interface Cut {
  readonly stickMm: number
  readonly pieces: readonly { readonly run: number; readonly fromMm: number; readonly toMm: number }[]
  readonly joints: number
  /** By how much less rail the runs need afterwards. */
  readonly gainMm: number
}

/**
 * Lays runs stick after stick where the place of a joint decides how much rail it takes, or where joints have rules. Each
 * stick is cut into pieces of runs that are begun already, or of new ones; each piece reaches as far as it can, or to the
 * last place where its joint takes less trim, and the rest of the stick is for another run. What a stick wastes is its
 * length less what the runs need less afterwards; the states that have wasted least are kept (a beam search).
 */
export class StickLaying {
  private readonly problem: CutProblem
  private readonly rests: readonly RestOfRun[]
  private readonly longestMm: number
  private readonly leastMm: number
  /** Rail that costs as much as a joint. */
  private readonly jointMm: number

  constructor(problem: CutProblem) {
    this.problem = problem
    const { runs, lengths, joinersCost } = problem
    this.longestMm = Math.max(...lengths.map(({ lengthMm }) => lengthMm))
    this.rests = runs.map((run) => new RestOfRun(run, this.longestMm))
    this.leastMm = this.rests.reduce((sum, rest) => sum + rest.mm(0), 0)
    const perMm = Math.min(...lengths.map(({ leastCost, lengthMm }) => leastCost / lengthMm))
    this.jointMm =
      perMm > 0 ? Math.max(LEAST_JOINT_MM, (joinersCost(100) - joinersCost(0)) / 100 / perMm) : LEAST_JOINT_MM
  }

  /**
   * Lays all runs over some sticks.
   *
   * @param counts how many of each length at most
   * @param mostJoints the most joints
   * @param width how many states are kept after each stick
   */
  lay(counts: readonly number[], mostJoints: number, width: number, work: Work): ChainLayout | null {
    const { lengths, runs } = this.problem
    const sticksMm = counts.reduce((sum, count, t) => sum + count * lengths[t]!.lengthMm, 0)
    const spareMm = sticksMm - this.leastMm
    if (exceeds(0, spareMm)) return null
    let states: State[] = [
      {
        atMm: runs.map(() => 0),
        joints: runs.map(() => null),
        jointCount: 0,
        sticksLeft: counts,
        lossMm: 0,
        cut: null,
        before: null,
      },
    ]
    while (states.length > 0) {
      const next = new Map<string, { state: State; rank: number }>()
      for (const state of states)
        for (let t = 0; t < lengths.length; t++) {
          if (state.sticksLeft[t] === 0) continue
          for (const cut of this.cuts(state, lengths[t]!.lengthMm, work)) {
            const after = this.after(state, t, cut)
            if (exceeds(after.lossMm, spareMm)) continue
            const needed = this.jointsNeeded(after)
            if (needed > mostJoints || !this.canGoOn(after)) continue
            if (this.isDone(after)) return layoutOf(after)
            const rank = after.lossMm + this.jointMm * needed
            const name = after.atMm.map((mm) => Math.round(mm)).join()
            const known = next.get(name)
            if (!known || rank < known.rank) next.set(name, { state: after, rank })
          }
          if (work.left <= 0) return null
        }
      states = [...next.values()]
        .sort((a, b) => a.rank - b.rank)
        .slice(0, width)
        .map(({ state }) => state)
    }
    return null
  }

  /** Whether each run that the last stick has a piece of, and the one beside it, can be continued. */
  private canGoOn(state: State): boolean {
    const { runs } = this.problem
    return state.cut!.pieces.every(({ run }) => {
      if (!this.canContinue(state, run)) return false
      const beside = runs[run]!.beside?.run
      return beside === undefined || this.canContinue(state, beside)
    })
  }

  private canContinue(state: State, run: number): boolean {
    const { lengthMm, jointBy, beside } = this.problem.runs[run]!
    if (!jointBy && !beside) return true
    const fromMm = state.atMm[run]!
    return (
      !exceeds(this.rests[run]!.sawnMm(fromMm, lengthMm), this.longestMm) ||
      this.joints(state, run, fromMm, this.longestMm, 0).length > 0
    )
  }

  private isDone({ atMm }: State): boolean {
    return this.problem.runs.every(({ lengthMm }, run) => !exceeds(lengthMm, atMm[run]!))
  }

  /** The joints so far, and the fewest that are still needed. */
  private jointsNeeded({ atMm, jointCount }: State): number {
    return this.problem.runs.reduce(
      (sum, { lengthMm }, run) => sum + Math.max(0, piecesToCover(lengthMm - atMm[run]!, this.longestMm) - 1),
      jointCount,
    )
  }

  private after(state: State, t: number, cut: Cut): State {
    const atMm = [...state.atMm]
    for (const { run, toMm } of cut.pieces) atMm[run] = toMm
    return {
      atMm,
      joints: this.jointsAfter(state, cut.pieces),
      jointCount: state.jointCount + cut.joints,
      sticksLeft: state.sticksLeft.map((left, n) => (n === t ? left - 1 : left)),
      lossMm: state.lossMm + cut.stickMm - cut.gainMm,
      cut,
      before: state,
    }
  }

  /** The joints of all runs with those at the ends of further pieces. */
  private jointsAfter({ joints }: State, pieces: Cut['pieces']): State['joints'] {
    const after = [...joints]
    for (const { run, toMm } of pieces)
      if (exceeds(this.problem.runs[run]!.lengthMm, toMm)) after[run] = { mm: toMm, before: after[run]! }
    return after
  }

  /** The best ways to cut one stick. */
  private cuts(state: State, stickMm: number, work: Work): Cut[] {
    const { runs, kerfMm } = this.problem
    const leastPieceMm = this.leastPieceMm(state)
    const found: { readonly cut: Cut; readonly value: number }[] = []
    const least = () => (found.length < MOST_CUTS ? Number.NEGATIVE_INFINITY : found[MOST_CUTS - 1]!.value)
    const add = (cut: Cut) => {
      const value = cut.gainMm - this.jointMm * cut.joints
      if (value <= least()) return
      found.push({ cut, value })
      found.sort((a, b) => b.value - a.value)
      if (found.length > MOST_CUTS) found.pop()
    }
    const fill = (roomMm: number, pieces: Cut['pieces'], joints: number, gainMm: number) => {
      for (const run of this.runsToLay(state, pieces, roomMm)) {
        work.left--
        const fromMm = state.atMm[run]!
        const rest = this.rests[run]!
        const { lengthMm } = runs[run]!
        const restMm = rest.mm(fromMm)
        const take = (toMm: number, sawnMm: number, joint: number) => {
          const cut: Cut = {
            stickMm,
            pieces: [...pieces, { run, fromMm, toMm }],
            joints: joints + joint,
            gainMm: gainMm + restMm - rest.mm(toMm),
          }
          add(cut)
          const leftMm = roomMm - sawnMm - kerfMm
          if (leftMm <= LENGTH_SLACK_MM || leftMm < leastPieceMm || cut.pieces.length === MOST_PIECES_A_STICK) return
          // What is left cannot be worth more than its length.
          if (cut.gainMm + leftMm - this.jointMm * cut.joints > least())
            fill(leftMm, cut.pieces, cut.joints, cut.gainMm)
        }
        const wholeMm = rest.sawnMm(fromMm, lengthMm)
        if (!exceeds(wholeMm, roomMm)) take(lengthMm, wholeMm, 0)
        else {
          const keptMm = pieces.length === 0 && runs.length <= MOST_FOR_CIRCLES ? leastPieceMm + kerfMm : 0
          const laid = runs[run]!.beside ? { ...state, joints: this.jointsAfter(state, pieces) } : state
          for (const toMm of this.joints(laid, run, fromMm, roomMm, keptMm)) take(toMm, rest.sawnMm(fromMm, toMm), 1)
        }
      }
    }
    fill(stickMm, [], 0, 0)
    return found.map(({ cut }) => cut)
  }

  /** No piece is shorter. */
  private leastPieceMm(state: State): number {
    const { runs, minimumPieceMm } = this.problem
    return Math.min(
      minimumPieceMm,
      ...runs.map(({ lengthMm }, run) => (state.atMm[run] === 0 ? lengthMm : minimumPieceMm)),
    )
  }

  /** Runs that are begun, and of the others the longest and those that fit best. */
  private runsToLay({ atMm }: State, pieces: Cut['pieces'], roomMm: number): number[] {
    const { runs } = this.problem
    const open: number[] = []
    const fresh: number[] = []
    for (let run = 0; run < runs.length; run++) {
      if (pieces.some((piece) => piece.run === run) || !exceeds(runs[run]!.lengthMm, atMm[run]!)) continue
      ;(atMm[run]! > 0 ? open : fresh).push(run)
    }
    if (open.length >= MOST_OPEN) return open
    const needMm = (run: number) => this.rests[run]!.mm(0)
    fresh.sort((a, b) => needMm(b) - needMm(a))
    if (fresh.length <= 2 * MOST_NEW) return [...open, ...fresh]
    const fitting = fresh.filter((run) => !exceeds(needMm(run), roomMm)).slice(0, MOST_NEW)
    return [...open, ...new Set([...fresh.slice(0, MOST_NEW), ...fitting])]
  }

  /**
   * Where the piece that begins here may end: as far as it reaches, and at the last places with less trim.
   *
   * @param keptMm if not 0, also so that this much of the stick is left
   */
  private joints(state: State, run: number, fromMm: number, roomMm: number, keptMm: number): number[] {
    const { minimumPieceMm } = this.problem
    const rest = this.rests[run]!
    const { lengthMm, trim, beside } = this.problem.runs[run]!
    const whole = this.problem.runs[run]!
    const allowed = beside ? { ...whole, jointBy: this.jointBy(state, run) } : whole
    const startMm = rest.x(fromMm) - (trim?.startMm(fromMm) ?? 0)
    const found: number[] = []
    let worthMm = Number.NEGATIVE_INFINITY
    // The kinds with least trim come first: one with more is of use only if it reaches further in spite of it.
    for (const kind of rest.kinds) {
      for (let leftMm = 0; ; leftMm = keptMm) {
        const byMm = Math.min(rest.placeOf(startMm + roomMm - leftMm - kind.beforeMm), lengthMm - minimumPieceMm)
        const place = lastPlace(allowed, kind, byMm, fromMm)
        if (place !== null && !exceeds(minimumPieceMm, place - fromMm) && place - fromMm > LENGTH_SLACK_MM) {
          const mm = place - kind.afterMm
          if (leftMm > 0 ? !found.includes(place) : mm > worthMm) found.push(place)
          if (leftMm === 0) worthMm = Math.max(worthMm, mm)
        }
        if (leftMm === keptMm) break
      }
    }
    return found
  }

  /** The places for joints that keep away from those of the neighbouring run. */
  private jointBy(state: State, run: number): ((mm: number, fromMm: number) => number) | undefined {
    const { runs, apart } = this.problem
    const { jointBy, beside } = runs[run]!
    if (!apart || !beside || !state.joints[beside.run]) return jointBy
    const { stationAt } = runs[beside.run]!.beside!
    return (furthestMm, fromMm) => {
      let mm = jointBy ? jointBy(furthestMm, fromMm) : furthestMm
      while (mm > fromMm) {
        const here = beside.stationAt(mm)
        let nearest: number | null = null
        for (let joint: Joint | null = state.joints[beside.run]!; joint; joint = joint.before) {
          const there = stationAt(joint.mm)
          if (exceeds(apart.byMm, Math.abs(there - here))) nearest = Math.min(nearest ?? there, there)
        }
        if (nearest === null) return mm
        const before = Math.min(mm - 2 * LENGTH_SLACK_MM, beside.placeAt(nearest - apart.byMm))
        mm = jointBy ? jointBy(before, fromMm) : before
      }
      return -1
    }
  }
}

/** Fewer joints are better even where they cost nothing. */
const LEAST_JOINT_MM = 1

function layoutOf(last: State): ChainLayout {
  const cuts: Cut[] = []
  for (let state: State | null = last; state?.cut; state = state.before) cuts.unshift(state.cut)
  return {
    sticksMm: cuts.map(({ stickMm }) => stickMm),
    pieces: cuts.flatMap(({ pieces }, stick) =>
      pieces.map(({ run, fromMm, toMm }): ChainPiece => ({ run, fromMm, lengthMm: toMm - fromMm, stick })),
    ),
  }
}
