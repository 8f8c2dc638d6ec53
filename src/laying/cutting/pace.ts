import type { Work } from './problem.ts'

/** Before anything is measured: pieces tried to cut one stick in one way. */
const FIRST_GUESS = 16
/** Kept for the last sticks. */
const RESERVE = 0.2

/** How thoroughly sticks may be laid so that the work lasts to the end: judged by what those laid so far took. */
export class Pace {
  private readonly work: Work
  private readonly stickMm: number
  private readonly allMm: number
  private readonly begunWith: number
  private tried = 0
  private sticks = 0

  /**
   * @param stickMm the rail that a stick gives at most
   * @param allMm the rail that is needed
   */
  constructor(work: Work, stickMm: number, allMm: number) {
    this.work = work
    this.stickMm = stickMm
    this.allMm = allMm
    this.begunWith = work.left
  }

  /** A stick has been tried in one way. */
  count(): void {
    this.tried++
  }

  /** How many ways may be tried for the next stick, at least one. */
  ways(needMm: number): number {
    const { work, begunWith, tried, allMm } = this
    const each = tried === 0 ? FIRST_GUESS : Math.max(1, (begunWith - work.left) / tried)
    const stickMm = this.sticks === 0 ? this.stickMm : Math.max(1, (allMm - needMm) / this.sticks)
    this.sticks++
    const left = work.left - RESERVE * begunWith
    return Math.max(1, Math.floor(left / (each * Math.max(1, needMm / stickMm))))
  }
}
