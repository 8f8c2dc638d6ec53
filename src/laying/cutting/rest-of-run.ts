import { exceeds, LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import type { Run } from './problem.ts'
import { type ZoneKind, zoneKinds } from './run-needs.ts'

/**
 * The least rail that the rest of a run needs from a joint on, trim of that end included: as `RunNeeds`, from the end of
 * the run backwards. Rules for places of joints are left out. Used to compare half-finished plans.
 */
export class RestOfRun {
  readonly kinds: readonly ZoneKind[]
  private readonly run: Run
  private readonly longestMm: number
  private readonly eachMm: number
  /** The x of the end and its trim, and the least x + t of a joint from which c trimmed ends are enough. */
  private readonly reach: number[]

  constructor(run: Run, longestMm: number) {
    const { trim = null, lengthMm } = run
    this.run = run
    this.longestMm = longestMm
    this.eachMm = trim?.spec.eachMm ?? 0
    this.kinds = zoneKinds(lengthMm, trim, this.eachMm)
    this.reach = [this.x(lengthMm) + (trim?.endMm(lengthMm) ?? 0)]
    if (trim) this.goBack()
  }

  x(mm: number): number {
    return mm + (this.run.trim?.creepMm(mm) ?? 0)
  }

  /** The place with this x. */
  placeOf(xMm: number): number {
    return this.run.trim ? this.run.trim.withoutTrim(0, xMm) : xMm
  }

  /** The rail of a piece. */
  sawnMm(fromMm: number, toMm: number): number {
    const { trim } = this.run
    return trim ? this.x(toMm) - this.x(fromMm) + trim.startMm(fromMm) + trim.endMm(toMm) : toMm - fromMm
  }

  /** From a joint, or the start of the run, to its end; 0 at its end. */
  mm(fromMm: number): number {
    const { trim, lengthMm } = this.run
    if (!exceeds(lengthMm, fromMm)) return 0
    if (!trim) return lengthMm - fromMm
    const startMm = this.x(fromMm) - trim.startMm(fromMm)
    // With more trimmed ends the rest reaches no less far back.
    const ends = firstIndexWhere(
      this.reach.length - 1,
      (count) => !exceeds(this.reach[count]!, startMm + this.longestMm),
    )
    return this.reach[0]! - startMm + ends * this.eachMm
  }

  private goBack(): void {
    const { reach, longestMm } = this
    const startMm = this.x(0) - (this.run.trim?.startMm(0) ?? 0)
    for (let ends = 0, idle = 0; idle <= 2; ends++) {
      let mm = ends === 0 ? reach[0]! : reach[ends - 1]!
      const before = mm
      for (const kind of this.kinds)
        if (kind.ends > 0 && ends >= kind.ends) mm = Math.min(mm, this.before(reach[ends - kind.ends]!, kind))
      for (;;) {
        if (!exceeds(mm, startMm + longestMm)) break
        const earlier = Math.min(...this.kinds.filter((kind) => kind.ends === 0).map((kind) => this.before(mm, kind)))
        if (!exceeds(mm, earlier)) break
        mm = earlier
      }
      reach[ends] = mm
      if (!exceeds(mm, startMm + longestMm)) return
      idle = exceeds(before, mm) ? 0 : idle + 1
    }
  }

  /** The least x + t of a joint of some kind from which a piece reaches so far. */
  private before(reachMm: number, { zones, beforeMm, afterMm }: ZoneKind): number {
    const leastMm = this.placeOf(Math.max(0, reachMm - this.longestMm + afterMm))
    const zone = zones[firstIndexWhere(zones.length, (n) => zones[n]!.toMm >= leastMm - LENGTH_SLACK_MM)]
    return zone ? this.x(Math.max(leastMm, zone.fromMm)) + beforeMm : Number.POSITIVE_INFINITY
  }
}
