import { exceeds, piecesToCover } from '../../measure/counting.ts'
import { sum } from '../../measure/sum.ts'
import type { Stick } from '../../plan/rows/supplies.ts'
import { cutMm, leftOverOf } from '../sawing.ts'
import { OpenSticks } from './open-sticks.ts'
import type { Run } from './problem.ts'
import { trimOf } from './trim.ts'

/** A stick as it is cut. Sum of the pieces + trim + kerf + offcut = length. */
export interface PlannedStick {
  readonly lengthMm: number
  fromStock: boolean
  kerfMm: number
  trimMm: number
  /** What remains after the cuts so far. */
  offcutMm: number
  pieces: PlannedPiece[]
}

interface PlannedPiece {
  readonly run: number
  /** From the run's own start. */
  readonly fromMm: number
  readonly lengthMm: number
  /** What it is sawn longer by, to be cut off after bending. */
  readonly trimStartMm: number
  readonly trimEndMm: number
}

export interface CutPlan {
  readonly sticks: PlannedStick[]
  /** Number of pieces of each run. */
  readonly piecesPerRun: number[]
  readonly sticksLowerBound: number
  readonly wasteMm: number
  readonly reusableMm: number
  /** Runs with a piece under the minimum, because nothing else is possible. */
  readonly shortPieces: { readonly run: number; readonly lengthMm: number }[]
}

export interface CutRules {
  readonly kerf: number
  readonly minimumPiece: number
}

/**
 * A way to cut the plan: which length is laid stick after stick, and which is started when a remainder fits nowhere.
 */
interface Choice {
  readonly laid: Stick | null
  readonly opened: 'shortest' | 'laid'
}

/**
 * A good cut plan, quickly: each run is laid stick after stick, sticks on hand first; the remainders are then cut,
 * longest first, from whatever open stick they fit most closely (best fit decreasing), from a stick on hand, or from a
 * new one. A remainder under the minimum is lengthened at the expense of the piece before it. Where several lengths can
 * be bought each is tried as the one that is laid: the plans with fewest pieces under the minimum count, and of these
 * `cheaper` decides.
 *
 * @param cheaper orders two plans: negative when the first is the better
 * @returns the plan, or by how much the rail that can be had falls short
 */
export function planCuts(
  runs: readonly Run[],
  sticks: readonly Stick[],
  rules: CutRules,
  cheaper: (a: CutPlan, b: CutPlan) => number,
): { ok: true; plan: CutPlan } | { ok: false; missingMm: number } {
  let best: CutPlan | null = null
  let missingMm = Number.POSITIVE_INFINITY
  for (const choice of choices(longEnough(sticks, rules))) {
    const bench = new Bench(runs, sticks, rules, choice)
    const result = bench.cut()
    if (typeof result === 'number') missingMm = Math.min(missingMm, result)
    else if (!best || (result.shortPieces.length - best.shortPieces.length || cheaper(result, best)) < 0) best = result
  }
  return best ? { ok: true, plan: best } : { ok: false, missingMm }
}

/**
 * The fewest sticks that can hold Σ run lengths: the longest first, those that cannot be bought only as often as they
 * are on hand. Never below ⌈Σ ÷ longest⌉.
 */
export function fewestSticks(totalMm: number, sticks: readonly Stick[]): number {
  let leftMm = totalMm
  let count = 0
  for (const stick of [...sticks].sort((a, b) => b.length - a.length)) {
    const needed = piecesToCover(leftMm, stick.length)
    const taken = stick.buyable ? needed : Math.min(needed, stick.onHand)
    count += taken
    leftMm -= taken * stick.length
  }
  return count
}

function choices(sticks: readonly Stick[]): Choice[] {
  const buyable = sticks.filter((stick) => stick.buyable)
  if (buyable.length === 0) return [{ laid: null, opened: 'laid' }]
  const shortest = buyable.toSorted((a, b) => a.length - b.length)[0]
  return buyable.flatMap((laid): Choice[] => [
    ...(laid === shortest ? [] : [{ laid, opened: 'shortest' } as const]),
    { laid, opened: 'laid' },
  ])
}

/** One attempt: the sticks on hand, the sticks being cut, and the pieces of each run in order. */
class Bench {
  private readonly runs: readonly Run[]
  private readonly sticks: readonly Stick[]
  private readonly rules: CutRules
  private readonly choice: Choice
  /** Longest first. */
  private readonly shed: { readonly lengthMm: number; left: number }[]
  /** Shortest first. */
  private readonly buyable: readonly Stick[]
  private readonly open = new OpenSticks<PlannedStick>()
  private readonly shortPieces: { run: number; lengthMm: number }[] = []

  constructor(runs: readonly Run[], sticks: readonly Stick[], rules: CutRules, choice: Choice) {
    this.runs = runs
    this.sticks = sticks
    this.rules = rules
    this.choice = choice
    this.buyable = longEnough(sticks, rules)
      .filter((stick) => stick.buyable)
      .sort((a, b) => a.length - b.length)
    this.shed = longEnough(sticks, rules)
      .filter((stick) => stick.onHand > 0)
      .map(({ length: lengthMm, onHand }) => ({ lengthMm, left: onHand }))
      .sort((a, b) => b.lengthMm - a.lengthMm)
  }

  /** The finished plan, or the length for which there is no rail. */
  cut(): CutPlan | number {
    const divided = this.runs.map((run, index) => this.divide(run.lengthMm, index))
    const remainders = divided.flat().filter((piece) => !piece.stick)
    remainders.sort((a, b) => b.lengthMm - a.lengthMm)
    for (const piece of remainders) {
      const missingMm = this.place(piece)
      if (missingMm > 0) return missingMm
    }
    return this.finished(divided)
  }

  /** Stick after stick, then the remainder. The sticks are cut immediately; the remainder has no stick yet. */
  private divide(lengthMm: number, run: number): Draft[] {
    const pieces: Draft[] = []
    let leftMm = lengthMm
    const usableMm = (stickMm: number) => this.usableMm(run, lengthMm - leftMm, stickMm)
    const lay = (stickMm: number) => {
      // Within the slack a stick may be longer: the piece ends with the run.
      const pieceMm = Math.min(usableMm(stickMm), leftMm)
      pieces.push({ run, fromMm: lengthMm - leftMm, lengthMm: pieceMm, stick: whole(stickMm) })
      leftMm = exceeds(leftMm, pieceMm) ? leftMm - pieceMm : 0
    }
    const fits = (stickMm: number) => {
      const pieceMm = usableMm(stickMm)
      return exceeds(pieceMm, 0) && !exceeds(pieceMm, leftMm) && !exceeds(this.rules.minimumPiece, pieceMm)
    }
    for (const shelf of this.shed)
      while (shelf.left > 0 && fits(shelf.lengthMm)) {
        shelf.left--
        lay(shelf.lengthMm)
      }
    const laidMm = this.choice.laid?.length
    if (laidMm) while (fits(laidMm)) lay(laidMm)

    if (leftMm > 0) this.addRemainder(pieces, { run, fromMm: lengthMm - leftMm, lengthMm: leftMm })
    for (const piece of pieces) if (piece.stick) this.take(piece.stick, piece)
    return pieces
  }

  private trimMm(run: number, fromMm: number, lengthMm: number): number {
    const { startMm, endMm } = trimOf(this.runs[run]!, fromMm, lengthMm)
    return startMm + endMm
  }

  /** The longest piece, up to `mostMm`, that a stick gives from a place on; at most 0 where it is all trim. */
  private usableMm(run: number, fromMm: number, stickMm: number, mostMm = Number.POSITIVE_INFINITY): number {
    const { trim } = this.runs[run]!
    return trim ? Math.max(0, trim.reachMm(fromMm, stickMm, fromMm + mostMm) - fromMm) : Math.min(stickMm, mostMm)
  }

  /** A remainder under the minimum is lengthened from the piece before it, or from as many pieces as necessary. */
  private addRemainder(pieces: Draft[], remainder: Draft): void {
    const { minimumPiece: minimumPieceMm } = this.rules
    const spareMm = (piece: Draft) => Math.max(0, piece.lengthMm - minimumPieceMm)
    // A piece that moves may end up on a bend: where there is trim, only the last piece is shortened.
    const trimmed = this.runs[remainder.run]!.trim !== undefined
    const lenders = trimmed ? pieces.slice(-1) : pieces
    let wantedMm = Math.max(0, minimumPieceMm - remainder.lengthMm)
    if (trimmed && wantedMm > 0) wantedMm = this.lendableMm(lenders[0], wantedMm)
    if (exceeds(wantedMm, sum(lenders.map(spareMm)))) {
      this.shortPieces.push({ run: remainder.run, lengthMm: remainder.lengthMm })
      wantedMm = 0
    }
    remainder.lengthMm += wantedMm
    remainder.fromMm -= wantedMm
    for (const piece of lenders.toReversed()) {
      const lentMm = Math.min(wantedMm, spareMm(piece))
      piece.lengthMm -= lentMm
      wantedMm -= lentMm
      piece.fromMm -= wantedMm
    }
    pieces.push(remainder)
  }

  /** By how much a piece is shortened to lend a length: by more if it would otherwise end where it needs more trim. */
  private lendableMm(lender: Draft | undefined, wantedMm: number): number {
    if (!lender) return wantedMm
    const { run, fromMm, lengthMm, stick } = lender
    return lengthMm - this.usableMm(run, fromMm, stick!.lengthMm, lengthMm - wantedMm)
  }

  /** Cuts one piece from the stick it fits most closely; returns 0, or the length that is missing. */
  private place(piece: Draft): number {
    const neededMm = piece.lengthMm + this.trimMm(piece.run, piece.fromMm, piece.lengthMm)
    const stick = this.open.closest(neededMm) ?? this.fromShed(neededMm) ?? this.bought(neededMm)
    if (!stick) return this.placeInParts(piece)
    piece.stick = stick
    this.take(stick, piece)
    return 0
  }

  private fromShed(lengthMm: number): PlannedStick | null {
    const shelf = this.shed.findLast((row) => row.left > 0 && !exceeds(lengthMm, row.lengthMm))
    if (!shelf) return null
    shelf.left--
    return whole(shelf.lengthMm)
  }

  private bought(lengthMm: number): PlannedStick | null {
    const { laid, opened } = this.choice
    const fitting = this.buyable.filter((stick) => !exceeds(lengthMm, stick.length))
    const chosen = opened === 'laid' && laid && fitting.includes(laid) ? laid : fitting[0]
    return chosen ? whole(chosen.length) : null
  }

  /** With nothing to buy a remainder may fit nowhere in one piece: it is then made of the longest offcuts left. */
  private placeInParts(piece: Draft): number {
    const { minimumPiece: minimumPieceMm } = this.rules
    const { run } = piece
    const parts: Draft[] = []
    let leftMm = piece.lengthMm
    while (leftMm > 0) {
      const fromMm = piece.fromMm + piece.lengthMm - leftMm
      const offcut = this.open.longest()
      const shelfMm = this.shed.find((row) => row.left > 0)?.lengthMm ?? 0
      const stickMm = Math.max(offcut?.offcutMm ?? 0, shelfMm)
      const haveMm = this.usableMm(run, fromMm, stickMm)
      const lengthMm = exceeds(leftMm, haveMm) ? this.usableMm(run, fromMm, stickMm, leftMm - minimumPieceMm) : leftMm
      if (!exceeds(lengthMm, 0) || (exceeds(leftMm, lengthMm) && exceeds(minimumPieceMm, lengthMm))) return leftMm
      const stick = shelfMm === stickMm ? this.fromShed(stickMm)! : offcut!
      const part = { run, fromMm, lengthMm, stick }
      this.take(stick, part)
      parts.push(part)
      leftMm = exceeds(leftMm, lengthMm) ? leftMm - lengthMm : 0
    }
    piece.parts = parts
    return 0
  }

  /**
   * Takes a piece off a stick. A cut takes the kerf, or the rest if that is thinner; there is no cut at the very end.
   */
  private take(stick: PlannedStick, { run, fromMm, lengthMm }: Draft): void {
    const trimMm = this.trimMm(run, fromMm, lengthMm)
    const restMm = Math.max(0, stick.offcutMm - lengthMm - trimMm)
    const takenMm = cutMm(restMm, this.rules.kerf)
    this.open.remove(stick)
    stick.trimMm += trimMm
    stick.kerfMm += takenMm
    stick.offcutMm = restMm - takenMm
    if (stick.offcutMm > 0) this.open.add(stick)
  }

  private finished(divided: readonly Draft[][]): CutPlan {
    const sticks: PlannedStick[] = []
    const piecesPerRun = divided.map((drafts, run) => {
      const pieces = drafts.some(({ parts }) => parts) ? drafts.flatMap((draft) => draft.parts ?? [draft]) : drafts
      for (const { stick, fromMm, lengthMm } of pieces) {
        const trim = trimOf(this.runs[run]!, fromMm, lengthMm)
        if (stick!.pieces.length === 0) sticks.push(stick!)
        stick!.pieces.push({ run, fromMm, lengthMm, trimStartMm: trim.startMm, trimEndMm: trim.endMm })
      }
      return pieces.length
    })
    this.markStock(sticks)
    return {
      sticks,
      piecesPerRun,
      sticksLowerBound: fewestSticks(sum(this.runs.map(({ lengthMm }) => lengthMm)), this.sticks),
      ...leftOverOf(sticks, this.rules.minimumPiece),
      shortPieces: this.shortPieces,
    }
  }

  /** Sticks on hand are used first for each length. */
  private markStock(sticks: readonly PlannedStick[]): void {
    const left = new Map(this.sticks.map((stick) => [stick.length, stick.onHand]))
    for (const stick of sticks) {
      const onHand = left.get(stick.lengthMm) ?? 0
      stick.fromStock = onHand > 0
      left.set(stick.lengthMm, onHand - 1)
    }
  }
}

/** A piece while the plan is being made: cut from a stick, made of several parts, or neither yet. */
interface Draft {
  readonly run: number
  fromMm: number
  lengthMm: number
  stick?: PlannedStick
  parts?: Draft[]
}

/** A stick that is still whole. */
function whole(lengthMm: number): PlannedStick {
  return { lengthMm, fromStock: false, kerfMm: 0, trimMm: 0, offcutMm: lengthMm, pieces: [] }
}

/** Sticks shorter than the shortest piece allowed are of no use. */
function longEnough(sticks: readonly Stick[], { minimumPiece: minimumPieceMm }: CutRules): Stick[] {
  return sticks.filter((stick) => !exceeds(minimumPieceMm, stick.length))
}
