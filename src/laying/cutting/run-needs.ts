import { exceeds, LENGTH_SLACK_MM, piecesToCover } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import type { Run } from './problem.ts'
import { RunTrim, type Stretch } from './trim.ts'

/** A stretch of a run along which joints take the same trim: off the piece before them, and off the one after. */
interface Zone extends Stretch {
  readonly beforeMm: number
  readonly afterMm: number
}

/** Zones with the same trim, in order. */
export interface ZoneKind {
  readonly beforeMm: number
  readonly afterMm: number
  /** How many of the two ends are trimmed. */
  readonly ends: number
  readonly zones: readonly Zone[]
}

/** For runs of more pieces than this, the trim is not worked out for each number of joints. */
const MOST_PIECES = 60

/**
 * The least rail that a run needs, however it is divided: its length, its creep, the trim of its own ends, and the trim
 * of its joints. Joints outside the bends take no trim, but no piece is longer than the longest stick S, so some joints
 * may have to lie in a long bend.
 *
 * With x(p) = p + creep(p), a piece from a reaches b if x(b) + t(b) ≤ x(a) − s(a) + S. So of all the ways to some joint
 * with the same number of trimmed ends only the greatest x − s matters. `reach[c]` is that greatest with c trimmed ends.
 *
 * It is a lower bound: sticks may be shorter, and pieces long enough, and joints apart from others, are not asked for. A
 * bend counts only where it is certainly on the piece, which is no shorter than the shortest piece. Compared with every
 * division in tests/laying/cutting/with-trim.test.ts.
 */
export class RunNeeds {
  /** No division has fewer joints; infinite if there is none. */
  readonly fewestJoints: number
  /** Of every division. */
  readonly leastMm: number
  /** From this many joints on further ones save no trim. */
  readonly settledAt: number
  private readonly run: Run
  private readonly trim: RunTrim | null
  private readonly longestMm: number
  private readonly eachMm: number
  private readonly kinds: readonly ZoneKind[]
  private readonly withoutJointsMm: number
  /** The fewest trimmed ends with each number of joints, from the fewest joints on. */
  private readonly ends: readonly number[]

  constructor(run: Run, longestMm: number, shortestMm: number) {
    const { lengthMm } = run
    this.run = run
    this.longestMm = longestMm
    this.trim = run.trim ? withNearBends(run.trim, shortestMm) : null
    this.eachMm = run.trim?.spec.eachMm ?? 0
    if (!run.trim && !run.jointBy) {
      // Without trim or rules a run needs its own length, whatever its joints.
      this.kinds = []
      this.withoutJointsMm = lengthMm
      this.fewestJoints = piecesToCover(lengthMm, longestMm) - 1
      this.ends = [0]
      this.leastMm = lengthMm
      this.settledAt = this.fewestJoints
      return
    }
    this.kinds = zoneKinds(lengthMm, this.trim, this.eachMm)
    this.withoutJointsMm = this.x(lengthMm) + this.afterMm(0) + this.beforeMm(lengthMm)
    const least = this.fewestEnds()
    if (least === null) {
      this.fewestJoints = Number.POSITIVE_INFINITY
      this.ends = []
    } else {
      const byJoints = this.endsByJoints(least)
      this.fewestJoints = byJoints.fewest
      this.ends = byJoints.ends
    }
    this.leastMm = this.withoutJointsMm + (least ?? 0) * this.eachMm
    this.settledAt = this.fewestJoints + this.ends.length - 1
  }

  /** The least rail with at most this many joints; infinite if there have to be more. */
  withJoints(joints: number): number {
    const ends = this.ends[Math.min(joints - this.fewestJoints, this.ends.length - 1)]
    return ends === undefined ? Number.POSITIVE_INFINITY : this.withoutJointsMm + ends * this.eachMm
  }

  private x(mm: number): number {
    return mm + (this.trim?.creepMm(mm) ?? 0)
  }

  /** t and s: trim at the end of a piece that ends here, and at the start of one that starts here. */
  private beforeMm(mm: number): number {
    return this.trim && this.trim.endMm(mm) > 0 ? this.eachMm : 0
  }

  private afterMm(mm: number): number {
    return this.trim && this.trim.startMm(mm) > 0 ? this.eachMm : 0
  }

  private ended(reachMm: number): boolean {
    const { lengthMm } = this.run
    return !exceeds(this.x(lengthMm) + this.beforeMm(lengthMm), reachMm + this.longestMm)
  }

  /** The fewest trimmed ends with any number of joints; null if there is no division. */
  private fewestEnds(): number | null {
    const reach: number[] = []
    for (let ends = 0, idle = 0; idle <= 2; ends++) {
      let mm = ends === 0 ? -this.afterMm(0) : reach[ends - 1]!
      const before = mm
      for (const kind of this.kinds)
        if (kind.ends > 0 && ends >= kind.ends) mm = Math.max(mm, this.furthest(reach[ends - kind.ends]!, kind))
      for (;;) {
        if (this.ended(mm)) return ends
        const further = this.furthest(mm, ...this.kinds.filter((kind) => kind.ends === 0))
        if (!exceeds(further, mm)) break
        mm = further
      }
      reach.push(mm)
      idle = exceeds(mm, before) ? 0 : idle + 1
    }
    return null
  }

  /** @param least the fewest with any number */
  private endsByJoints(least: number): { readonly fewest: number; readonly ends: number[] } {
    const { run, longestMm } = this
    const atLeast = piecesToCover(run.lengthMm, longestMm) - 1
    if (atLeast >= MOST_PIECES) return { fewest: atLeast, ends: [least] }
    const most = 2 * (atLeast + 2) + least
    let reach = new Array<number>(most + 1).fill(-this.afterMm(0))
    const ends: number[] = []
    let fewest = 0
    for (let joints = 0; joints <= 4 * MOST_PIECES; joints++) {
      const enough = reach.findIndex((mm) => this.ended(mm))
      if (enough >= 0) {
        if (ends.length === 0) fewest = joints
        ends.push(enough)
        if (enough === least) return { fewest, ends }
      }
      const before = reach
      let furthest = Number.NEGATIVE_INFINITY
      reach = before.map((mm, count) => {
        furthest = Math.max(furthest, mm)
        for (const kind of this.kinds) {
          const from = count - kind.ends
          // Otherwise the same place was reached with fewer.
          if (from === 0 || (from > 0 && before[from]! > before[from - 1]!))
            furthest = Math.max(furthest, this.furthest(before[from]!, kind))
        }
        return furthest
      })
    }
    return ends.length > 0 ? { fewest, ends: [...ends, least] } : { fewest: atLeast, ends: [least] }
  }

  /** The greatest x − s of a joint of some kinds that a piece can reach. */
  private furthest(reachMm: number, ...kinds: readonly ZoneKind[]): number {
    let best = Number.NEGATIVE_INFINITY
    for (const kind of kinds) {
      const mm = lastPlace(this.run, kind, this.placeOf(reachMm + this.longestMm - kind.beforeMm))
      if (mm !== null) best = Math.max(best, this.x(mm) - kind.afterMm)
    }
    return best
  }

  /** The place with this x. */
  private placeOf(xMm: number): number {
    return this.trim ? this.trim.withoutTrim(0, xMm) : xMm
  }
}

/** The last place in zones of a kind, up to a place, where a joint may be; null if there is none. */
export function lastPlace(
  { jointBy, lengthMm }: Pick<Run, 'jointBy' | 'lengthMm'>,
  { zones }: ZoneKind,
  byMm: number,
  fromMm = 0,
): number | null {
  let mm = Math.min(byMm, lengthMm)
  let n = firstIndexWhere(zones.length, (index) => zones[index]!.fromMm > mm + LENGTH_SLACK_MM) - 1
  for (; n >= 0 && mm > fromMm; n--) {
    const zone = zones[n]!
    if (exceeds(zone.fromMm, mm)) continue
    const place = jointBy ? jointBy(Math.min(mm, zone.toMm), fromMm) : Math.min(mm, zone.toMm)
    if (place <= fromMm) return null
    if (!exceeds(zone.fromMm, place)) return place
    mm = place
  }
  return null
}

/** The stretches of a run by the trim of a joint there; where two meet, a joint takes the lesser. */
export function zoneKinds(lengthMm: number, trim: RunTrim | null, eachMm: number): ZoneKind[] {
  const at = (mm: number): Omit<Zone, 'fromMm' | 'toMm'> => ({
    beforeMm: trim && trim.endMm(mm) > 0 ? eachMm : 0,
    afterMm: trim && trim.startMm(mm) > 0 ? eachMm : 0,
  })
  const borders = trim ? [...trim.starts, ...trim.ends].flatMap(({ fromMm, toMm }) => [fromMm, toMm]) : []
  const inside = [...new Set(borders)].filter((mm) => exceeds(mm, 0) && exceeds(lengthMm, mm)).sort((a, b) => a - b)
  const zones: Zone[] = []
  let fromMm = 0
  for (const toMm of [...inside, lengthMm]) {
    zones.push({ fromMm, toMm, ...at((fromMm + toMm) / 2) })
    if (toMm < lengthMm) zones.push({ fromMm: toMm, toMm, ...at(toMm) })
    fromMm = toMm
  }
  const kinds = new Map<string, { beforeMm: number; afterMm: number; ends: number; zones: Zone[] }>()
  for (const zone of zones) {
    const { beforeMm, afterMm } = zone
    const name = `${beforeMm}, ${afterMm}`
    const ends = (beforeMm > 0 ? 1 : 0) + (afterMm > 0 ? 1 : 0)
    const kind = kinds.get(name) ?? { beforeMm, afterMm, ends, zones: [] }
    kinds.set(name, kind)
    kind.zones.push(zone)
  }
  return [...kinds.values()].sort((a, b) => a.ends - b.ends)
}

/** The same trim, but only of bends that are so near to an end that they are certainly on the piece. */
function withNearBends(trim: RunTrim, shortestMm: number): RunTrim {
  const { eachMm } = trim.spec
  return eachMm <= shortestMm ? trim : new RunTrim({ ...trim.spec, eachMm: shortestMm })
}
