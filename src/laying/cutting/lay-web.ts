import { exceeds, LENGTH_SLACK_MM, piecesToCover, wholePiecesIn } from '../../measure/counting.ts'
import { cutSticks } from './cut-sticks.ts'
import type { ChainLayout, ChainPiece } from './lay-chain.ts'
import { compareNeatness, type Neatness, neatnessOf } from './neatness.ts'
import type { CuttingStyle, Run, Work } from './problem.ts'

export interface WebLaid {
  /** Null where there is none, or none was found. */
  readonly layout: ChainLayout | null
  readonly shortestMm: number
  /** The search was complete. */
  readonly whole: boolean
}

/** Pieces must be longer by more than this for another way of cutting to be better. */
const WORTH_MM = 1e-3
/** Bisection steps for the longest shortest piece. */
const HALVINGS = 32
/** More runs or sticks do not fit in the bits of a number. */
const MOST_BITS = 30

/**
 * Lays runs over sticks in exactly the given number of pieces, using every stick, whichever runs have pieces of which
 * sticks: pieces may go round in circles. Joints may be anywhere. Of all solutions it returns one with the longest
 * shortest piece, or the one that cuts whole sticks best.
 *
 * Run by run, the longest first, it chooses the sticks the run has pieces of; among equal sticks that have pieces
 * of the same runs the choice does not matter. The lengths of the pieces are then a flow from the runs to their sticks
 * with a minimum flow on each piece: a choice is dropped as soon as there is no flow for the runs so far.
 *
 * @param sticksMm equal ones next to each other
 * @param pieces total number
 * @param shortestMm pieces of divided runs are no shorter than this
 * @param work it gives up when this runs out
 */
export function layWeb(
  runs: readonly Run[],
  sticksMm: readonly number[],
  pieces: number,
  rules: { readonly kerfMm: number; readonly shortestMm: number; readonly cutting: CuttingStyle },
  work: Work,
): WebLaid {
  if (runs.length > MOST_BITS || sticksMm.length > MOST_BITS) return { layout: null, shortestMm: 0, whole: false }
  return new WebSearch(runs, sticksMm, rules, work).search(pieces)
}

class WebSearch {
  private readonly runs: readonly Run[]
  private readonly kerfMm: number
  private readonly cutting: CuttingStyle
  private readonly sticksMm: readonly number[]
  private readonly work: Work
  /** The runs' own numbers and their lengths, the longest first. */
  private readonly order: readonly number[]
  private readonly runsMm: readonly number[]
  /** The least number of pieces of all runs from each one on. */
  private readonly fewestFrom: number[]
  /** The sticks each run has pieces of, and the runs of each stick. */
  private readonly sticksOf: number[]
  private readonly runsOf: number[]
  private readonly flow: WebFlow
  /** The current target, and the best solution. */
  private shortestMm: number
  private foundMm = 0
  private layout: ChainLayout | null = null
  private neatest: Neatness | null = null

  constructor(
    runs: readonly Run[],
    sticksMm: readonly number[],
    { kerfMm, shortestMm, cutting }: { kerfMm: number; shortestMm: number; cutting: CuttingStyle },
    work: Work,
  ) {
    this.runs = runs
    this.kerfMm = kerfMm
    this.cutting = cutting
    this.sticksMm = sticksMm
    this.shortestMm = shortestMm
    this.work = work
    this.order = runs.map((_, run) => run).sort((a, b) => runs[b]!.lengthMm - runs[a]!.lengthMm || a - b)
    this.runsMm = this.order.map((run) => runs[run]!.lengthMm)
    const longestMm = Math.max(...sticksMm)
    this.fewestFrom = new Array<number>(runs.length + 1).fill(0)
    for (let n = runs.length - 1; n >= 0; n--)
      this.fewestFrom[n] = this.fewestFrom[n + 1]! + piecesToCover(this.runsMm[n]!, longestMm)
    this.sticksOf = runs.map(() => 0)
    this.runsOf = sticksMm.map(() => 0)
    this.flow = new WebFlow(this.runsMm, sticksMm, kerfMm, this.sticksOf, work)
  }

  search(pieces: number): WebLaid {
    if (pieces >= this.fewestFrom[0]!) this.divide(0, pieces)
    return { layout: this.layout, shortestMm: this.foundMm, whole: this.work.left > 0 }
  }

  /** Chooses the sticks of the n-th run and of those after it. */
  private divide(n: number, piecesLeft: number): void {
    if (n === this.runsMm.length) {
      this.take()
      return
    }
    const lengthMm = this.runsMm[n]!
    const last = n === this.runsMm.length - 1
    const most = piecesLeft - this.fewestFrom[n + 1]!
    let fewest = last ? piecesLeft : this.fewestFrom[n]! - this.fewestFrom[n + 1]!
    // Equal runs have ascending numbers of pieces.
    if (n > 0 && this.runsMm[n - 1] === lengthMm) fewest = Math.max(fewest, bits(this.sticksOf[n - 1]!))
    for (let own = fewest; own <= most; own++) {
      if (own > 1 && own > wholePiecesIn(lengthMm, this.shortestMm)) return
      this.choose(n, own, piecesLeft - own, 0, own, 0)
    }
  }

  /** @param missing pieces of this run that have no stick yet */
  private choose(n: number, own: number, piecesLeft: number, from: number, missing: number, roomMm: number): void {
    if (this.work.left-- <= 0) return
    const { sticksMm, runsOf, sticksOf } = this
    const lengthMm = this.runsMm[n]!
    if (missing === 0) {
      if (exceeds(lengthMm, roomMm)) return
      const unused = runsOf.reduce((sum, runs) => sum + (runs === 0 ? 1 : 0), 0)
      if (unused > piecesLeft || !this.flow.feasibleUpTo(n + 1, this.shortestMm)) return
      this.divide(n + 1, piecesLeft)
      return
    }
    const leastMm = own === 1 ? lengthMm : this.shortestMm
    for (let stick = from; stick <= sticksMm.length - missing; stick++) {
      if (this.equalsSkippedStick(stick)) continue
      const haveMm = this.flow.roomFor(stick, runsOf[stick]!, this.shortestMm)
      if (exceeds(leastMm, haveMm)) continue
      sticksOf[n]! |= 1 << stick
      runsOf[stick]! |= 1 << n
      this.choose(n, own, piecesLeft, stick + 1, missing - 1, roomMm + haveMm)
      sticksOf[n]! &= ~(1 << stick)
      runsOf[stick]! &= ~(1 << n)
    }
  }

  /** Of sticks that are equal so far the first are taken. */
  private equalsSkippedStick(stick: number): boolean {
    const { sticksMm, runsOf } = this
    for (let before = stick - 1; before >= 0 && sticksMm[before] === sticksMm[stick]; before--)
      if (runsOf[before] === runsOf[stick]) return true
    return false
  }

  /** A solution was found: its pieces are made as long as possible with these sticks, and others must be better. */
  private take(): void {
    if (this.cutting === 'whole-sticks') {
      this.takeIfNeater()
      return
    }
    const { flow, sticksMm } = this
    let low = this.shortestMm
    let high = Math.max(low, ...sticksMm)
    const count = this.runsMm.length
    for (let n = 0; n < HALVINGS && high - low > LENGTH_SLACK_MM; n++) {
      const middle = (low + high) / 2
      if (flow.feasibleUpTo(count, middle)) low = middle
      else high = middle
    }
    flow.feasibleUpTo(count, low)
    this.layout = { sticksMm, pieces: this.piecesOf(low) }
    this.foundMm = low
    this.shortestMm = low + WORTH_MM
  }

  /** The flow fills one stick after the other. */
  private takeIfNeater(): void {
    if (!this.flow.feasibleUpTo(this.runsMm.length, this.shortestMm)) return
    const layout = { sticksMm: this.sticksMm, pieces: this.piecesOf(this.shortestMm) }
    const neat = neatnessOf(cutSticks(this.runs, layout, this.kerfMm), this.kerfMm)
    if (this.neatest && compareNeatness(neat, this.neatest) >= 0) return
    this.layout = layout
    this.neatest = neat
    this.foundMm = this.shortestMm
  }

  private piecesOf(shortestMm: number): ChainPiece[] {
    const pieces: ChainPiece[] = []
    for (const [n, run] of this.order.entries()) {
      let fromMm = 0
      const own = this.sticksMm.map((_, stick) => stick).filter((stick) => (this.sticksOf[n]! >> stick) & 1)
      for (const stick of own) {
        const lengthMm = stick === own.at(-1) ? this.runsMm[n]! - fromMm : shortestMm + this.flow.beyond(n, stick)
        pieces.push({ run, fromMm, lengthMm, stick })
        fromMm += lengthMm
      }
    }
    return pieces
  }
}

/** How the lengths of runs are divided among their sticks. */
class WebFlow {
  private readonly runsMm: readonly number[]
  private readonly sticksMm: readonly number[]
  private readonly kerfMm: number
  private readonly sticksOf: readonly number[]
  private readonly work: Work
  /** What each run has of each stick beyond the shortest piece. */
  private readonly beyondMm: Float64Array
  private readonly leftMm: Float64Array
  private visited = 0

  constructor(
    runsMm: readonly number[],
    sticksMm: readonly number[],
    kerfMm: number,
    sticksOf: readonly number[],
    work: Work,
  ) {
    this.runsMm = runsMm
    this.sticksMm = sticksMm
    this.kerfMm = kerfMm
    this.sticksOf = sticksOf
    this.work = work
    this.beyondMm = new Float64Array(runsMm.length * sticksMm.length)
    this.leftMm = new Float64Array(sticksMm.length)
  }

  beyond(run: number, stick: number): number {
    return this.beyondMm[run * this.sticksMm.length + stick]!
  }

  /** How long another piece of a stick can be if its existing pieces are as short as allowed. */
  roomFor(stick: number, runs: number, shortestMm: number): number {
    let mm = this.sticksMm[stick]!
    for (let run = 0, rest = runs; rest > 0; run++, rest >>= 1)
      if (rest & 1) mm -= this.kerfMm + (isWhole(this.sticksOf[run]!) ? this.runsMm[run]! : shortestMm)
    return mm
  }

  /** Whether the first runs fit in their sticks with no piece shorter than this. */
  feasibleUpTo(count: number, shortestMm: number): boolean {
    const { sticksMm, sticksOf, runsMm, leftMm, kerfMm } = this
    this.work.left -= count
    for (let stick = 0; stick < sticksMm.length; stick++) {
      let mm = sticksMm[stick]! + kerfMm
      for (let run = 0; run < count; run++)
        if ((sticksOf[run]! >> stick) & 1) mm -= kerfMm + (isWhole(sticksOf[run]!) ? runsMm[run]! : shortestMm)
      if (mm < -LENGTH_SLACK_MM) return false
      leftMm[stick] = mm
    }
    this.beyondMm.fill(0)
    for (let run = 0; run < count; run++) {
      if (isWhole(sticksOf[run]!)) continue
      let neededMm = runsMm[run]! - bits(sticksOf[run]!) * shortestMm
      if (neededMm < -LENGTH_SLACK_MM) return false
      while (neededMm > LENGTH_SLACK_MM) {
        this.visited = 0
        const pushedMm = this.push(run, neededMm)
        if (pushedMm <= 0) return false
        neededMm -= pushedMm
      }
    }
    return true
  }

  /** Finds room for more of a run, in its sticks or by moving other runs; returns how much. */
  private push(run: number, neededMm: number): number {
    const { leftMm, beyondMm, runsMm, sticksMm, sticksOf } = this
    this.work.left--
    const first = run * sticksMm.length
    for (let stick = 0; stick < sticksMm.length; stick++) {
      if (!((sticksOf[run]! >> stick) & 1) || (this.visited >> stick) & 1 || leftMm[stick]! <= LEAST_FLOW_MM) continue
      const mm = Math.min(neededMm, leftMm[stick]!)
      leftMm[stick]! -= mm
      beyondMm[first + stick]! += mm
      return mm
    }
    for (let stick = 0; stick < sticksMm.length; stick++) {
      if (!((sticksOf[run]! >> stick) & 1) || (this.visited >> stick) & 1) continue
      this.visited |= 1 << stick
      for (let other = 0; other < runsMm.length; other++) {
        const taken = other * sticksMm.length + stick
        if (other === run || beyondMm[taken]! <= LEAST_FLOW_MM) continue
        const mm = this.push(other, Math.min(neededMm, beyondMm[taken]!))
        if (mm <= 0) continue
        beyondMm[taken]! -= mm
        beyondMm[first + stick]! += mm
        return mm
      }
    }
    return 0
  }
}

/** Smaller flows are rounding errors. */
const LEAST_FLOW_MM = 1e-9

/** Whether a run has a single piece. */
function isWhole(sticks: number): boolean {
  return (sticks & (sticks - 1)) === 0
}

function bits(mask: number): number {
  let count = 0
  for (let rest = mask; rest > 0; rest &= rest - 1) count++
  return count
}
