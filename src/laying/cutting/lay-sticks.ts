import { exceeds, LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import { type Joint, jointAfter, lastBefore } from './joints-so-far.ts'
import type { ChainLayout } from './lay-chain.ts'
import { Pace } from './pace.ts'
import type { CutProblem, Work } from './problem.ts'
import { RestOfRun } from './rest-of-run.ts'
import { lastPlace } from './run-needs.ts'
import {
  type Cut,
  type CutPiece,
  type CutSoFar,
  layoutOf,
  type Source,
  type State,
  States,
  type Step,
} from './stick-state.ts'

/** Ways to cut a stick that are kept for each state. */
const MOST_CUTS = 4
const MOST_PIECES_A_STICK = 4
/** With more runs pieces that go round in circles are not tried for on purpose. */
const MOST_FOR_CIRCLES = 4
/** Runs begun but not finished, and runs not begun yet that are tried for one piece. */
const MOST_OPEN = 4
const MOST_NEW = 6
/** Fewer joints are better even where they cost nothing. */
const LEAST_JOINT_MM = 1
/** Runs of a state that are copied in the time of one piece tried. */
const RUNS_A_STEP = 64

/** States kept where only the cost is given. */
const CHEAP_WIDTH = 2

interface Limits {
  /** Rail that may be wasted, and joints. */
  readonly spareMm: number
  readonly mostJoints: number
  readonly width: number
  readonly paced: boolean
}

interface Plan {
  readonly cuts: CutSoFar
  readonly rank: number
}

interface RankedStep {
  readonly step: Step
  readonly rank: number
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
  private readonly states: States
  private readonly longestMm: number
  private readonly leastMm: number
  /** The cheapest rail, and the rail that costs as much as a joint. */
  private readonly perMm: number
  private readonly jointMm: number
  /** What each run needs in all, and the runs in order of that, the longest first. */
  private readonly needsMm: readonly number[]
  private readonly byNeed: readonly number[]
  private readonly shortestRunMm: number

  constructor(problem: CutProblem) {
    this.problem = problem
    const { runs, lengths, joinersCost } = problem
    this.longestMm = Math.max(...lengths.map(({ lengthMm }) => lengthMm))
    this.rests = runs.map((run) => new RestOfRun(run, this.longestMm))
    this.states = new States(problem, this.longestMm)
    this.needsMm = this.rests.map((rest) => rest.mm(0))
    this.byNeed = runs.map((_, run) => run).sort((a, b) => this.needsMm[b]! - this.needsMm[a]!)
    this.leastMm = this.needsMm.reduce((sum, mm) => sum + mm, 0)
    this.shortestRunMm = Math.min(...runs.map(({ lengthMm }) => lengthMm))
    this.perMm = Math.min(...lengths.map(({ leastCost, lengthMm }) => leastCost / lengthMm))
    const joinerCost = (joinersCost(100) - joinersCost(0)) / 100
    this.jointMm = this.perMm > 0 ? Math.max(LEAST_JOINT_MM, joinerCost / this.perMm) : LEAST_JOINT_MM
  }

  /**
   * Lays all runs over some sticks.
   *
   * @param counts how many of each length at most
   * @param mostJoints the most joints
   * @param width how many states are kept after each stick
   */
  lay(counts: readonly number[], mostJoints: number, width: number, work: Work): ChainLayout | null {
    const sources = this.problem.lengths.map(({ lengthMm: stickMm }, t) => ({
      stickMm,
      count: counts[t]!,
      priceMm: stickMm,
    }))
    const sticksMm = sources.reduce((sum, { stickMm, count }) => sum + count * stickMm, 0)
    const spareMm = sticksMm - this.leastMm
    if (exceeds(0, spareMm)) return null
    return this.search(sources, { spareMm, mostJoints, width, paced: false }, work)
  }

  /**
   * Lays all runs over the sticks that cost least: those on hand, and those that can be bought; where the work is too
   * little for all of them, over those that cost least for their length.
   */
  layCheaply(work: Work): ChainLayout | null {
    const { perMm } = this
    const lengths = [...this.problem.lengths].sort((a, b) => a.leastCost / a.lengthMm - b.leastCost / b.lengthMm)
    const onHand = lengths.map(
      ({ lengthMm: stickMm, free, limit }): Source => ({ stickMm, count: Math.min(free, limit), priceMm: 0 }),
    )
    const bought = lengths.map(
      ({ lengthMm: stickMm, free, limit, leastCost }): Source => ({
        stickMm,
        count: limit - Math.min(free, limit),
        priceMm: perMm > 0 ? leastCost / perMm : stickMm,
      }),
    )
    const [cheapest, ...others] = bought.filter(({ count }) => count > 0)
    // A shorter one may not reach from one place for a joint to the next.
    const longest = others.find(({ stickMm }) => stickMm === this.longestMm)
    const sources = [...onHand, longest, cheapest, ...others.filter((each) => each !== longest)].filter(
      (source) => source !== undefined && source.count > 0,
    ) as Source[]
    const anything = { spareMm: Number.POSITIVE_INFINITY, mostJoints: Number.POSITIVE_INFINITY }
    return this.search(sources, { ...anything, width: CHEAP_WIDTH, paced: true }, work)
  }

  /** @param paced whether to look at less so that the work lasts, and for more than the first plan */
  private search(sources: readonly Source[], limits: Limits, work: Work): ChainLayout | null {
    const { width, paced } = limits
    const copying = Math.floor(this.problem.runs.length / RUNS_A_STEP)
    if (copying * (this.leastMm / this.longestMm) > work.left) return null
    const pace = new Pace(work, this.longestMm, this.leastMm)
    let best: Plan | null = null
    let states = [this.states.first(sources, this.leastMm)]
    while (states.length > 0 && work.left > 0) {
      const ways = paced ? Math.max(1, Math.floor(pace.ways(states[0]!.needMm) / states.length)) : sources.length
      const step = (most: number) => {
        const { steps, done } = this.stepsFrom(states, sources, most, limits, pace, work)
        if (done && (!best || done.rank < best.rank)) best = done
        const mostRank = best?.rank ?? Number.POSITIVE_INFINITY
        return this.best(
          steps.filter(({ rank }) => rank < mostRank),
          most === 1 ? 1 : width,
        )
      }
      let next = step(ways)
      if (next.length === 0 && !best && ways < sources.length) next = step(sources.length)
      if (best && !paced) break
      states = next
      work.left -= states.length * copying
    }
    return best && layoutOf((best as Plan).cuts)
  }

  /** What one more stick makes of some states, and the best plan that is complete with it. */
  private stepsFrom(
    states: readonly State[],
    sources: readonly Source[],
    most: number,
    { spareMm, mostJoints, paced }: Limits,
    pace: Pace,
    work: Work,
  ): { steps: RankedStep[]; done: Plan | null } {
    const steps: RankedStep[] = []
    let done: Plan | null = null
    for (const state of states) {
      let tried = 0
      for (const [n, { stickMm, priceMm }] of sources.entries()) {
        if (state.sticksLeft[n] === 0) continue
        if (++tried > most || work.left <= 0) break
        pace.count()
        for (const cut of this.cuts(state, stickMm, work)) {
          const step = this.states.step(state, n, cut, priceMm)
          if (exceeds(step.lossMm, spareMm) || step.jointsNeeded > mostJoints) continue
          const rank = step.lossMm + this.jointMm * step.jointsNeeded
          if (!this.states.isDone(step)) steps.push({ step, rank })
          else if (!done || rank < done.rank) done = { cuts: { cut, before: state.cuts }, rank }
          if (done && !paced) return { steps, done }
        }
      }
    }
    return { steps, done }
  }

  /** The states after the best steps, each with other places, that can be continued. */
  private best(steps: RankedStep[], width: number): State[] {
    const found: State[] = []
    const known = new Set<number>()
    steps.sort((a, b) => a.rank - b.rank)
    for (const { step } of steps) {
      if (found.length === width) break
      if (known.has(step.hash)) continue
      const after = this.states.after(step)
      if (!this.canGoOn(after, step.cut)) continue
      known.add(step.hash)
      found.push(after)
    }
    return found
  }

  /** Whether each run that the last stick has a piece of, and the one beside it, can be continued. */
  private canGoOn(state: State, { pieces }: Cut): boolean {
    const { runs } = this.problem
    return pieces.every(({ run }) => {
      if (!this.canContinue(state, run)) return false
      const beside = runs[run]!.beside?.run
      return beside === undefined || this.canContinue(state, beside)
    })
  }

  /**
   * Whether a run can go on past the joints of the one beside it. Looking as far as it reaches each time is enough:
   * whatever can be reached from a nearer joint can be reached from a further one.
   */
  private canContinue(state: State, run: number): boolean {
    const { lengthMm, jointBy, beside } = this.problem.runs[run]!
    if (!jointBy && !beside) return true
    const pastMm = beside && this.problem.apart ? (state.joints[beside.run]?.stationMm ?? 0) : 0
    for (let fromMm = state.atMm[run]!; ; ) {
      if (!exceeds(this.rests[run]!.sawnMm(fromMm, lengthMm), this.longestMm)) return true
      const joints = this.joints(state, [], run, fromMm, this.longestMm, 0)
      if (joints.length === 0) return false
      fromMm = Math.max(...joints)
      if (!beside || beside.stationAt(fromMm) > pastMm) return true
    }
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
      const at = found.findIndex((each) => each.value < value)
      found.splice(at < 0 ? found.length : at, 0, { cut, value })
      if (found.length > MOST_CUTS) found.pop()
    }
    const fill = (roomMm: number, pieces: readonly CutPiece[], joints: number, gainMm: number) => {
      for (const run of this.runsToLay(state, pieces, roomMm)) {
        work.left--
        const fromMm = state.atMm[run]!
        const rest = this.rests[run]!
        const { lengthMm } = runs[run]!
        const restMm = fromMm === 0 ? this.needsMm[run]! : rest.mm(fromMm)
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
          for (const toMm of this.joints(state, pieces, run, fromMm, roomMm, keptMm))
            take(toMm, rest.sawnMm(fromMm, toMm), 1)
        }
      }
    }
    fill(stickMm, [], 0, 0)
    return found.map(({ cut }) => cut)
  }

  /** No piece is shorter. */
  private leastPieceMm({ atMm }: State): number {
    const { runs, minimumPieceMm } = this.problem
    if (this.shortestRunMm >= minimumPieceMm) return minimumPieceMm
    return runs.reduce(
      (least, { lengthMm }, run) => (atMm[run] === 0 ? Math.min(least, lengthMm) : least),
      minimumPieceMm,
    )
  }

  /** Runs that are begun, and of the others the longest and those that fit best. */
  private runsToLay({ atMm, open, freshCount }: State, pieces: readonly CutPiece[], roomMm: number): number[] {
    const { byNeed, needsMm } = this
    const taken = (run: number) => pieces.some((piece) => piece.run === run)
    const found: number[] = []
    for (const run of open) {
      const next = this.lagging(atMm, run)
      if (!taken(next) && !found.includes(next)) found.push(next)
    }
    if (found.length >= MOST_OPEN) return found
    const left = freshCount - pieces.filter(({ fromMm }) => fromMm === 0).length
    const addFresh = (from: number, most: number) => {
      const first = found.length
      for (let n = from; n < byNeed.length && found.length - first < most; n++) {
        const run = byNeed[n]!
        if (atMm[run] === 0 && !taken(run) && !found.includes(run)) found.push(run)
      }
    }
    if (left <= 2 * MOST_NEW) {
      addFresh(0, left)
      return found
    }
    addFresh(0, MOST_NEW)
    const fitting: number[] = []
    const from = firstIndexWhere(byNeed.length, (n) => !exceeds(needsMm[byNeed[n]!]!, roomMm))
    for (let n = from; n < byNeed.length && fitting.length < MOST_NEW; n++) {
      const run = byNeed[n]!
      if (atMm[run] === 0 && !taken(run)) fitting.push(run)
    }
    for (const run of fitting) if (!found.includes(run)) found.push(run)
    return found
  }

  /** The run itself, or the one beside it if that is a whole stick behind: joints far ahead leave it no choice. */
  private lagging(atMm: Float64Array, run: number): number {
    const { beside } = this.problem.runs[run]!
    if (!beside || this.states.isEnd(beside.run, atMm[beside.run]!)) return run
    return exceeds(atMm[run]! - atMm[beside.run]!, this.longestMm) ? beside.run : run
  }

  /**
   * Where the piece that begins here may end: as far as it reaches, and at the last places with less trim.
   *
   * @param pieces cut from the same stick
   * @param keptMm if not 0, also so that this much of the stick is left
   */
  private joints(
    state: State,
    pieces: readonly CutPiece[],
    run: number,
    fromMm: number,
    roomMm: number,
    keptMm: number,
  ): number[] {
    const { minimumPieceMm } = this.problem
    const rest = this.rests[run]!
    const { lengthMm, trim } = this.problem.runs[run]!
    const jointBy = this.jointBy(state, pieces, run)
    const startMm = rest.x(fromMm) - (trim?.startMm(fromMm) ?? 0)
    const found: number[] = []
    let worthMm = Number.NEGATIVE_INFINITY
    // The kinds with least trim come first: one with more is of use only if it reaches further in spite of it.
    for (const kind of rest.kinds) {
      for (let leftMm = 0; ; leftMm = keptMm) {
        const byMm = Math.min(rest.placeOf(startMm + roomMm - leftMm - kind.beforeMm), lengthMm - minimumPieceMm)
        const place = lastPlace({ lengthMm, jointBy }, kind, byMm, fromMm)
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
  private jointBy(
    { joints }: State,
    pieces: readonly CutPiece[],
    run: number,
  ): ((mm: number, fromMm: number) => number) | undefined {
    const { runs, apart } = this.problem
    const { jointBy, beside } = runs[run]!
    if (!apart || !beside) return jointBy
    let there = joints[beside.run]!
    for (const piece of pieces)
      if (piece.run === beside.run && !this.states.isEnd(piece.run, piece.toMm))
        there = jointAfter(there, runs[piece.run]!.beside!.stationAt(piece.toMm))
    if (!there) return jointBy
    return (furthestMm, fromMm) => {
      let mm = jointBy ? jointBy(furthestMm, fromMm) : furthestMm
      while (mm > fromMm) {
        const nearest = firstWithin(there, beside.stationAt(mm), apart.byMm)
        if (nearest === null) return mm
        const before = Math.min(mm - 2 * LENGTH_SLACK_MM, beside.placeAt(nearest - apart.byMm))
        mm = jointBy ? jointBy(before, fromMm) : before
      }
      return -1
    }
  }
}

/** The first station of a joint that is nearer than this to a station; null where there is none. */
function firstWithin(joints: Joint, stationMm: number, byMm: number): number | null {
  let first: number | null = null
  const withinMm = byMm - LENGTH_SLACK_MM
  for (let at = lastBefore(joints, stationMm + withinMm); at; at = at.before) {
    if (at.stationMm <= stationMm - withinMm) break
    first = at.stationMm
  }
  return first
}
