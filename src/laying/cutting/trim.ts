import { LENGTH_SLACK_MM } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'

/** A stretch of a run. */
export interface Stretch {
  readonly fromMm: number
  readonly toMm: number
}

/** What is cut off the two ends of a piece after bending. */
export interface TrimOfPiece {
  readonly startMm: number
  readonly endMm: number
}

/** Rail that is only needed for bending, by place on a run. */
export interface TrimSpec {
  /** The bent stretches of the run, in order. */
  readonly bends: readonly Stretch[]
  /** h: what the bender leaves straight at an end. */
  readonly eachMm: number
  /** The creep of assembled track from the start of the run to a place, never falling; none when left out. */
  readonly creepMm?: ((mm: number) => number) | undefined
  /** The end of a piece at which its creep is cut off. */
  readonly creepAt: 'start' | 'end'
}

/**
 * How much longer pieces of a run are sawn than laid. A bender leaves h, half its span, straight at an end. So an end
 * that lies in a bend, or less than h from one, is sawn h longer, and that is cut off after bending.
 *
 *   sawn(a, b) = b + creep(b) − a − creep(a) + s(a) + t(b),
 *
 * s(a) = h if a bend ends after a and begins before a + h, t(b) = h if a bend begins before b and ends after b − h.
 * A piece shorter than h may reach no bend at all, and then needs none. Derived; tests/laying/cutting/trim.test.ts.
 */
export class RunTrim {
  readonly spec: TrimSpec
  /** Where the start of a piece is trimmed, and where the end of one is: without their own ends, in order, apart. */
  readonly starts: readonly Stretch[]
  readonly ends: readonly Stretch[]

  constructor(spec: TrimSpec) {
    this.spec = spec
    const { bends, eachMm } = spec
    this.starts = eachMm > 0 ? merged(bends.map(({ fromMm, toMm }) => ({ fromMm: fromMm - eachMm, toMm }))) : []
    this.ends = eachMm > 0 ? merged(bends.map(({ fromMm, toMm }) => ({ fromMm, toMm: toMm + eachMm }))) : []
  }

  /** s: of a piece that starts here. */
  startMm(mm: number): number {
    return stretchAt(this.starts, mm) ? this.spec.eachMm : 0
  }

  /** t: of a piece that ends here. */
  endMm(mm: number): number {
    return stretchAt(this.ends, mm) ? this.spec.eachMm : 0
  }

  creepMm(mm: number): number {
    return this.spec.creepMm?.(mm) ?? 0
  }

  /** What a certain piece loses at its ends. */
  ofPiece(fromMm: number, toMm: number): TrimOfPiece {
    const { bends, eachMm, creepAt } = this.spec
    const near = (a: number, b: number) => eachMm > 0 && overlaps(bends, a, b)
    const startMm = near(fromMm, Math.min(toMm, fromMm + eachMm)) ? eachMm : 0
    const endMm = near(Math.max(fromMm, toMm - eachMm), toMm) ? eachMm : 0
    const creepMm = this.creepMm(toMm) - this.creepMm(fromMm)
    return creepAt === 'start' ? { startMm: startMm + creepMm, endMm } : { startMm, endMm: endMm + creepMm }
  }

  /**
   * The furthest place, up to `byMm`, that a piece from one place on reaches with this much rail.
   *
   * @returns a place before `fromMm` where it is all trim
   */
  reachMm(fromMm: number, sawnMm: number, byMm = Number.POSITIVE_INFINITY): number {
    const leftMm = sawnMm - this.startMm(fromMm)
    const freeMm = Math.min(byMm, this.withoutTrim(fromMm, leftMm))
    const stretch = stretchAt(this.ends, freeMm)
    if (!stretch) return freeMm
    return Math.max(Math.min(freeMm, this.withoutTrim(fromMm, leftMm - this.spec.eachMm)), stretch.fromMm)
  }

  /** Where a piece ends whose rail, with its creep, is this long. */
  withoutTrim(fromMm: number, sawnMm: number): number {
    if (!this.spec.creepMm) return fromMm + sawnMm
    let low = fromMm
    let high = fromMm + Math.max(0, sawnMm)
    const beforeMm = this.creepMm(fromMm)
    for (let n = 0; n < HALVINGS && high - low > LENGTH_SLACK_MM / 10; n++) {
      const middle = (low + high) / 2
      if (middle - fromMm + this.creepMm(middle) - beforeMm <= sawnMm) low = middle
      else high = middle
    }
    return this.creepMm(high) === beforeMm ? fromMm + sawnMm : low
  }
}

const HALVINGS = 60

/** The trim of a piece of a run. */
export function trimOf(
  { trim }: { readonly trim?: RunTrim | undefined },
  fromMm: number,
  lengthMm: number,
): TrimOfPiece {
  return trim ? trim.ofPiece(fromMm, fromMm + lengthMm) : NO_TRIM
}

const NO_TRIM: TrimOfPiece = { startMm: 0, endMm: 0 }

/** The trim of a part of a run, by its own places; null if it is straight. */
export function trimBetween(trim: RunTrim, fromMm: number, toMm: number): RunTrim | null {
  const { bends, creepMm } = trim.spec
  const own = bends.filter((bend) => bend.toMm > fromMm + LENGTH_SLACK_MM && bend.fromMm < toMm - LENGTH_SLACK_MM)
  if (own.length === 0) return null
  return new RunTrim({
    ...trim.spec,
    bends: own.map((bend) => ({ fromMm: Math.max(0, bend.fromMm - fromMm), toMm: Math.min(toMm, bend.toMm) - fromMm })),
    creepMm: creepMm && ((mm) => creepMm(fromMm + mm) - creepMm(fromMm)),
  })
}

function merged(stretches: readonly Stretch[]): Stretch[] {
  const all: { fromMm: number; toMm: number }[] = []
  for (const { fromMm, toMm } of stretches) {
    const last = all.at(-1)
    if (last && fromMm < last.toMm - LENGTH_SLACK_MM) last.toMm = Math.max(last.toMm, toMm)
    else all.push({ fromMm, toMm })
  }
  return all
}

/** The stretch that a place lies in, not just at its end. */
export function stretchAt(stretches: readonly Stretch[], mm: number): Stretch | null {
  const found = stretches[firstEndingAfter(stretches, mm)]
  return found && found.fromMm < mm - LENGTH_SLACK_MM ? found : null
}

function overlaps(stretches: readonly Stretch[], fromMm: number, toMm: number): boolean {
  const next = stretches[firstEndingAfter(stretches, fromMm)]
  return next !== undefined && next.fromMm < toMm - LENGTH_SLACK_MM
}

function firstEndingAfter(stretches: readonly Stretch[], mm: number): number {
  return firstIndexWhere(stretches.length, (index) => stretches[index]!.toMm > mm + LENGTH_SLACK_MM)
}
