import { exceeds, LENGTH_SLACK_MM, piecesToCover } from '../../measure/counting.ts'
import type { ChainLayout, ChainPiece } from './lay-chain.ts'
import type { CutProblem, Run, Work } from './problem.ts'
import { trimOf } from './trim.ts'

/** The criteria for a plan, in this order; the shortest piece is that of the divided runs. */
export interface PlanScore {
  readonly cost: number
  readonly joints: number
  readonly shortestMm: number
}

export interface PiecesPlaced {
  /** All the sticks as one layout; null where nothing better was found. */
  readonly layout: ChainLayout | null
  readonly judged: PlanScore
  /** Every plan was tried or ruled out: none is better. */
  readonly whole: boolean
}

/** Pieces must be longer by more than this for another way of cutting to be better. */
const WORTH_MM = 1e-3
/** Problems with more pieces than this are too large to search. */
const MOST_PIECES = 10
/** Places that are tried for one joint. */
const MOST_PLACES = 200

/**
 * Tries all plans of a small problem with rules for joints: piece after piece, every place a joint
 * may have and every stick it may be cut from. Where joints may be anywhere along a stretch only those places are tried
 * at which something is used up: a stick, a run, the shortest piece, what joints keep apart.
 *
 * @param better only better plans are of use
 */
export function placePieces(problem: CutProblem, better: PlanScore, work: Work): PiecesPlaced {
  const fewest = fewestPieces(problem)
  if (fewest.reduce((sum, pieces) => sum + pieces, 0) > MOST_PIECES)
    return { layout: null, judged: better, whole: false }
  let found = new PieceSearch(problem, fewest, better, work).search()
  if (found.whole) return found
  // Pieces of any length: the longest shortest piece is found by bisection.
  let high = Math.max(...problem.lengths.map(({ lengthMm }) => lengthMm))
  for (let n = 0; n < HALVINGS && work.left > 0 && high - found.judged.shortestMm > WORTH_MM; n++) {
    const { cost, joints, shortestMm } = found.judged
    const middle = (Math.max(shortestMm, problem.minimumPieceMm) + high) / 2
    const slice = { left: Math.ceil(work.left / 4) }
    const before = slice.left
    const longer = new PieceSearch(problem, fewest, { cost, joints, shortestMm: middle }, slice).search()
    work.left -= before - slice.left
    if (longer.layout) found = { ...longer, whole: false }
    else high = middle
  }
  return found
}

/** Bisection steps for the longest shortest piece. */
const HALVINGS = 24

function fewestPieces({ runs, lengths }: CutProblem): number[] {
  const longestMm = Math.max(...lengths.map(({ lengthMm }) => lengthMm))
  return runs.map(({ lengthMm }) => piecesToCover(lengthMm, longestMm))
}

class PieceSearch {
  private readonly problem: CutProblem
  private readonly fewest: readonly number[]
  private readonly work: Work
  /** Runs in the order in which they are divided: the longest first, each followed by the one beside it. */
  private readonly order: readonly number[]
  /** The least number of joints and length of rail of the runs from each place in that order on. */
  private readonly jointsFrom: number[]
  private readonly railFromMm: number[]
  private readonly longestMm: number
  private readonly leastPerMm: number
  private readonly counts: number[]
  private readonly sticksMm: number[] = []
  private readonly roomsMm: number[] = []
  private readonly pieces: ChainPiece[] = []
  private readonly joints: number[][]
  private best: PlanScore
  private layout: ChainLayout | null = null
  private whole = true

  constructor(problem: CutProblem, fewest: readonly number[], better: PlanScore, work: Work) {
    const { runs, lengths } = problem
    this.problem = problem
    this.fewest = fewest
    this.work = work
    this.best = better
    this.order = inOrder(runs)
    this.jointsFrom = new Array<number>(runs.length + 1).fill(0)
    this.railFromMm = new Array<number>(runs.length + 1).fill(0)
    for (let n = runs.length - 1; n >= 0; n--) {
      const run = this.order[n]!
      this.jointsFrom[n] = this.jointsFrom[n + 1]! + fewest[run]! - 1
      this.railFromMm[n] = this.railFromMm[n + 1]! + runs[run]!.lengthMm
    }
    this.longestMm = Math.max(...lengths.map(({ lengthMm }) => lengthMm))
    this.leastPerMm = Math.min(...lengths.map(({ leastCost, lengthMm, free }) => (free > 0 ? 0 : leastCost / lengthMm)))
    this.counts = lengths.map(() => 0)
    this.joints = runs.map(() => [])
  }

  search(): PiecesPlaced {
    this.lay(0, 0, 0, Number.POSITIVE_INFINITY)
    return { layout: this.layout, judged: this.best, whole: this.whole }
  }

  private lay(n: number, fromMm: number, joints: number, shortestMm: number): void {
    const { order } = this
    if (this.cannotImprove(n, fromMm, joints, shortestMm)) return
    if (n === order.length) {
      const { costOf, joinersCost } = this.problem
      this.best = { cost: costOf(this.counts) + joinersCost(joints), joints, shortestMm }
      this.layout = { sticksMm: [...this.sticksMm], pieces: [...this.pieces] }
      return
    }
    if (this.work.left <= 0) {
      this.whole = false
      return
    }
    this.work.left--
    const run = order[n]!
    const endMm = this.problem.runs[run]!.lengthMm
    if (!exceeds(endMm - fromMm, this.longestMm)) {
      const shorter = fromMm > 0 ? Math.min(shortestMm, endMm - fromMm) : shortestMm
      if (fromMm === 0 || !exceeds(this.problem.minimumPieceMm, endMm - fromMm))
        this.cut(run, fromMm, endMm, () => this.lay(n + 1, 0, joints, shorter))
    }
    for (const toMm of this.places(run, fromMm)) {
      const shorter = Math.min(shortestMm, toMm - fromMm)
      this.joints[run]!.push(toMm)
      this.cut(run, fromMm, toMm, () => this.lay(n, toMm, joints + 1, shorter))
      this.joints[run]!.pop()
    }
  }

  /** Takes the piece from each possible stick, and continues from there. */
  private cut(run: number, fromMm: number, toMm: number, goOn: () => void): void {
    const { lengths, kerfMm } = this.problem
    const { roomsMm, sticksMm, pieces, counts } = this
    const lengthMm = toMm - fromMm
    const { startMm, endMm } = trimOf(this.problem.runs[run]!, fromMm, lengthMm)
    const sawnMm = startMm + lengthMm + endMm
    for (let stick = 0; stick < roomsMm.length; stick++) {
      const had = roomsMm[stick]!
      if (exceeds(sawnMm, had) || roomsMm.indexOf(had) < stick) continue
      this.work.left--
      roomsMm[stick] = had - sawnMm - kerfMm
      pieces.push({ run, fromMm, lengthMm, stick })
      goOn()
      pieces.pop()
      roomsMm[stick] = had
    }
    for (let t = 0; t < lengths.length; t++) {
      const { lengthMm: stickMm, limit } = lengths[t]!
      if (exceeds(sawnMm, stickMm) || counts[t]! >= limit) continue
      this.work.left--
      counts[t]!++
      pieces.push({ run, fromMm, lengthMm, stick: sticksMm.length })
      sticksMm.push(stickMm)
      roomsMm.push(stickMm - sawnMm - kerfMm)
      goOn()
      roomsMm.pop()
      sticksMm.pop()
      pieces.pop()
      counts[t]!--
    }
  }

  /** Whether the rest cannot give anything better than the best so far. */
  private cannotImprove(n: number, fromMm: number, joints: number, shortestMm: number): boolean {
    const { best, order, problem } = this
    let least = joints + this.jointsFrom[n]!
    if (n < order.length && fromMm > 0) {
      const run = order[n]!
      least += piecesToCover(problem.runs[run]!.lengthMm - fromMm, this.longestMm) - this.fewest[run]!
    }
    let roomMm = 0
    for (const mm of this.roomsMm) if (mm > 0) roomMm += mm
    const missingMm = this.railFromMm[n]! - fromMm - roomMm - LENGTH_SLACK_MM
    let leastSticks = Math.max(0, missingMm) * this.leastPerMm
    for (const [t, { leastCost, free }] of problem.lengths.entries())
      leastSticks += Math.max(0, this.counts[t]! - free) * leastCost
    const sticksCost = Math.max(problem.costOf(this.counts), Math.ceil(leastSticks - ROUNDING))
    const cost = sticksCost + problem.joinersCost(least)
    if (cost !== best.cost) return cost > best.cost
    if (least !== best.joints) return least > best.joints
    return shortestMm <= best.shortestMm + WORTH_MM
  }

  /** Where the piece that begins here may end before the run's own end: the furthest first. */
  private places(run: number, fromMm: number): number[] {
    const { runs, minimumPieceMm } = this.problem
    const { lengthMm, jointBy } = runs[run]!
    const leastMm = fromMm + minimumPieceMm
    const mostMm = Math.min(fromMm + this.longestMm, lengthMm - minimumPieceMm)
    const by = (mm: number) => (jointBy ? jointBy(mm, fromMm) : mm)
    const found: number[] = []
    const add = (mm: number) => {
      if (!exceeds(mm, mostMm) && !exceeds(leastMm, mm) && this.farEnough(run, mm)) found.push(mm)
    }
    let mm = mostMm
    for (let tried = 0; !exceeds(leastMm, mm); tried++) {
      const place = by(mm)
      if (exceeds(leastMm, place)) break
      if (tried >= MOST_PLACES) {
        this.whole = false
        break
      }
      add(place)
      const nextMm = place - STEP_MM
      // A stretch along which a joint may be anywhere.
      if (by(nextMm) > nextMm - LENGTH_SLACK_MM) {
        this.whole = false
        for (const at of this.usefulPlaces(run, fromMm, leastMm)) if (at <= mostMm) add(by(at))
        add(by(mostMm))
        break
      }
      mm = nextMm
    }
    this.work.left -= found.length
    return [...new Set(found)].sort((a, b) => b - a)
  }

  /** Where something is used up, in any order, including places out of reach. */
  private usefulPlaces(run: number, fromMm: number, leastMm: number): number[] {
    const { runs, lengths, apart } = this.problem
    const { lengthMm, beside, trim } = runs[run]!
    const longerMm = this.best.shortestMm + 2 * WORTH_MM
    const found = [leastMm, fromMm + longerMm, lengthMm - longerMm]
    for (const reachMm of [...this.roomsMm, ...lengths.map((stick) => stick.lengthMm)])
      if (!trim) found.push(fromMm + reachMm, lengthMm - reachMm)
      else {
        const { eachMm } = trim.spec
        found.push(trim.reachMm(fromMm, reachMm))
        for (const ends of [0, 1, 2]) found.push(lengthMm - reachMm + ends * eachMm)
      }
    for (const { fromMm: from, toMm: to } of trim ? [...trim.starts, ...trim.ends] : []) found.push(from, to)
    found.push(fromMm + (lengthMm - fromMm) / piecesToCover(lengthMm - fromMm, this.longestMm))
    if (apart && beside) {
      const { stationAt } = runs[beside.run]!.beside!
      for (const there of this.joints[beside.run]!)
        for (const way of [-apart.byMm, apart.byMm]) found.push(beside.placeAt(stationAt(there) + way))
    }
    return found
  }

  private farEnough(run: number, mm: number): boolean {
    const { runs, apart } = this.problem
    const { beside } = runs[run]!
    if (!apart || !beside) return true
    const station = beside.stationAt(mm)
    const there = runs[beside.run]!.beside!
    return this.joints[beside.run]!.every((other) => !exceeds(apart.byMm, Math.abs(there.stationAt(other) - station)))
  }
}

/** Of sums of fractions of a cent. */
const ROUNDING = 1e-6
/** How far before one place the next is looked for. */
const STEP_MM = 0.01

function inOrder(runs: readonly Run[]): number[] {
  const order = runs.map((_, run) => run).sort((a, b) => runs[b]!.lengthMm - runs[a]!.lengthMm || a - b)
  const placed = new Set<number>()
  return order.flatMap((run) => {
    const own = [run, runs[run]!.beside?.run].filter((each) => each !== undefined && !placed.has(each)) as number[]
    for (const each of own) placed.add(each)
    return own
  })
}
