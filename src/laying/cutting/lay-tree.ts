import { exceeds, LENGTH_SLACK_MM } from '../../measure/counting.ts'
import type { ChainLayout, ChainPiece, LayingRules } from './lay-chain.ts'
import type { Run, Work } from './problem.ts'

/** A layout, or there is none, or there was too much to search. */
export type TreeLaid = { readonly layout: ChainLayout } | 'none' | 'gave-up'

/**
 * Lays r runs over b sticks in r + b − 1 pieces or fewer, whichever runs share a stick: end to end is only one way, and
 * where there is a minimum piece another one may work. Joints may be anywhere.
 *
 * Runs and sticks with the pieces between them form a tree. Without the sticks of a single run, it has a run at its end
 * that shares only one stick with others. It should take as little as possible of that stick: the rest is for
 * the others. So the tree is taken apart run by run: the run's own sticks, the stick it shares, then the same with what
 * is left. The search is complete, end to end first, so that it finds a solution whenever there is one.
 *
 * @param work it gives up when this runs out
 */
export function layTree(
  runs: readonly Run[],
  group: readonly number[],
  sticksMm: readonly number[],
  rules: Pick<LayingRules, 'kerfMm' | 'shortestMm'>,
  work: Work,
): TreeLaid {
  const search = new TreeSearch(runs, sticksMm, rules, work)
  const neededMm = group.reduce((sum, run) => sum + runs[run]!.lengthMm + rules.kerfMm, -rules.kerfMm)
  const spareMm = sticksMm.reduce((sum, mm) => sum + mm, 0) - neededMm
  if (search.lay(group, spareMm)) return { layout: { sticksMm, pieces: search.pieces } }
  return work.left < 0 ? 'gave-up' : 'none'
}

function broughtForward(order: readonly number[], stick: number): number[] {
  const changed = [stick]
  for (const each of order) if (each !== stick) changed.push(each)
  return changed
}

/** A stick, or the rest of one, that the run at the end of the tree shares with no other. */
interface OwnStick {
  readonly stick: number
  readonly mm: number
}

class TreeSearch {
  readonly pieces: ChainPiece[] = []
  private readonly runs: readonly Run[]
  private readonly kerfMm: number
  private readonly shortestMm: number
  private readonly work: Work
  /** The rest of each stick; 0 where it belongs to one run. */
  private readonly roomsMm: number[]
  /** Sticks in the order in which they are tried: rests before whole ones. */
  private order: readonly number[]

  constructor(
    runs: readonly Run[],
    sticksMm: readonly number[],
    { kerfMm, shortestMm }: Pick<LayingRules, 'kerfMm' | 'shortestMm'>,
    work: Work,
  ) {
    this.runs = runs
    this.kerfMm = kerfMm
    this.shortestMm = shortestMm
    this.work = work
    this.roomsMm = [...sticksMm]
    this.order = sticksMm.map((_, stick) => stick).sort((a, b) => sticksMm[b]! - sticksMm[a]! || a - b)
  }

  /** @param spareMm the waste that is still allowed */
  lay(left: readonly number[], spareMm: number): boolean {
    this.work.left -= left.length
    if (this.work.left < 0 || exceeds(0, spareMm)) return false
    if (left.length === 1) return this.layLast(left[0]!)
    const tried = new Set<number>()
    return left.some((run) => {
      const { lengthMm } = this.runs[run]!
      if (tried.has(lengthMm)) return false
      tried.add(lengthMm)
      const others = left.filter((each) => each !== run)
      return this.layRun(run, others, spareMm, 0, [], lengthMm)
    })
  }

  /** With as few sticks as possible, the longest first. */
  private layLast(run: number): boolean {
    const { roomsMm } = this
    const { lengthMm } = this.runs[run]!
    const order = roomsMm.map((_, stick) => stick).sort((a, b) => roomsMm[b]! - roomsMm[a]!)
    let sumMm = 0
    for (const [n, stick] of order.entries()) {
      sumMm += roomsMm[stick]!
      const pieces = n + 1
      const shortestMm = pieces === 1 ? 0 : this.shortestMm
      if (exceeds(shortestMm, roomsMm[stick]!) || exceeds(pieces * shortestMm, lengthMm)) return false
      if (exceeds(lengthMm, sumMm)) continue
      this.cut(
        run,
        0,
        order.slice(0, pieces).map((each) => ({ stick: each, mm: roomsMm[each]! })),
      )
      return true
    }
    return false
  }

  /** @param missingMm the length that the run's own sticks do not cover yet */
  private layRun(
    run: number,
    others: readonly number[],
    spareMm: number,
    from: number,
    own: readonly OwnStick[],
    missingMm: number,
  ): boolean {
    this.work.left -= others.length + this.order.length
    if (this.work.left < 0) return false
    if (this.share(run, others, spareMm, own, missingMm)) return true
    const { roomsMm, order } = this
    let before = 0
    for (let at = from; at < order.length; at++) {
      const stick = order[at]!
      const mm = roomsMm[stick]!
      if (mm === before) continue
      before = mm
      if (!exceeds(missingMm, mm)) {
        if (this.apart(run, others, spareMm, own, missingMm, { stick, mm })) return true
        continue
      }
      if (exceeds(this.shortestMm, mm)) continue
      roomsMm[stick] = 0
      const done = this.layRun(run, others, spareMm, at + 1, [...own, { stick, mm }], missingMm - mm)
      roomsMm[stick] = mm
      if (done) return true
    }
    return false
  }

  /** The run shares no stick. */
  private apart(
    run: number,
    others: readonly number[],
    spareMm: number,
    own: readonly OwnStick[],
    missingMm: number,
    last: OwnStick,
  ): boolean {
    const { roomsMm, pieces, kerfMm, shortestMm } = this
    const tooShort = exceeds(shortestMm, last.mm) || exceeds((own.length + 1) * shortestMm, this.runs[run]!.lengthMm)
    if (own.length > 0 && tooShort) return false
    const before = pieces.length
    this.cut(run, 0, [...own, last])
    roomsMm[last.stick] = 0
    if (this.lay(others, spareMm - (last.mm - missingMm) + kerfMm)) return true
    roomsMm[last.stick] = last.mm
    pieces.length = before
    return false
  }

  private share(
    run: number,
    others: readonly number[],
    spareMm: number,
    own: readonly OwnStick[],
    missingMm: number,
  ): boolean {
    const { roomsMm, pieces, order, kerfMm, shortestMm } = this
    const { lengthMm } = this.runs[run]!
    const takenMm = own.length === 0 ? lengthMm : Math.max(missingMm, shortestMm)
    const wastedMm = takenMm - missingMm
    if (exceeds(wastedMm, spareMm) || exceeds(own.length * shortestMm, lengthMm - takenMm)) return false
    let leastMm = shortestMm
    for (const other of others) leastMm = Math.min(leastMm, this.runs[other]!.lengthMm)
    let tried = 0
    for (const stick of order) {
      const mm = roomsMm[stick]!
      const keptMm = mm - takenMm - kerfMm
      if (mm === tried || keptMm <= LENGTH_SLACK_MM || exceeds(leastMm, keptMm)) continue
      tried = mm
      const before = pieces.length
      pieces.push({ run, fromMm: 0, lengthMm: takenMm, stick })
      this.cut(run, takenMm, own)
      roomsMm[stick] = keptMm
      this.order = broughtForward(order, stick)
      if (this.lay(others, spareMm - wastedMm)) return true
      this.order = order
      roomsMm[stick] = mm
      pieces.length = before
    }
    return false
  }

  /** The rest of a run from sticks that it does not share, each piece long enough. */
  private cut(run: number, fromMm: number, sticks: readonly OwnStick[]): void {
    const endMm = this.runs[run]!.lengthMm
    let atMm = fromMm
    for (const [n, { stick, mm: stickMm }] of sticks.entries()) {
      const after = sticks.length - n - 1
      const mm = after === 0 ? endMm - atMm : Math.min(stickMm, endMm - atMm - after * this.shortestMm)
      this.pieces.push({ run, fromMm: atMm, lengthMm: mm, stick })
      atMm += mm
    }
  }
}
