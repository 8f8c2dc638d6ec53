import { bodiesOf, curvedBodiesOf, type Layout, levelNumbersOf } from './layout.ts'

/** A limit of a layout, with another layout beyond it: a run begins or ends at a station. */
export interface Border {
  /** `unknowns` long; row · unknowns ≥ 0 inside, 0 on the border. */
  readonly row: Float64Array
  /** The layout beyond has this cut moved by this step. */
  readonly cut: number
  readonly step: 1 | -1
}

/**
 * A layout's profile, linear in its unknowns: one level per body that is not held straight, then for each run the ordinate
 * of its only station, or of its first and last (straight between them).
 */
export interface Profile {
  readonly unknowns: number
  /**
   * The ordinate at station n is between two unknowns, (1 − part) of the first and part of the second; where it is one
   * unknown, the two are the same. −1: it is 0, whatever the unknowns.
   */
  readonly first: Int32Array
  readonly second: Int32Array
  readonly part: Float64Array
  /** Inside all of them the runs meet their bodies between the right stations. */
  readonly borders: readonly Border[]
}

/**
 * The profile of a layout. A run that holds the first station may have begun anywhere before it, one that holds the
 * last may end anywhere beyond: there the readings do not reach the straight.
 */
export function profileOf(layout: Layout, stations: number): Profile {
  const { cuts, signs } = layout
  const bodies = bodiesOf(layout)
  const levels = levelNumbersOf(layout)
  let unknowns = curvedBodiesOf(layout)
  for (let run = 0; run < signs.length; run++) unknowns += Math.min(2, cuts[2 * run + 1]! - cuts[2 * run]!)

  const first = new Int32Array(stations).fill(-1)
  const second = new Int32Array(stations).fill(-1)
  const part = new Float64Array(stations)
  const borders: Border[] = []
  let next = curvedBodiesOf(layout)
  for (let run = 0; run < signs.length; run++) {
    const from = cuts[2 * run]!
    const to = cuts[2 * run + 1]!
    const held = to - from
    if (held > 0) {
      const begins = next
      const ends = begins + Math.min(held, 2) - 1
      next = ends + 1
      first.fill(begins, from, to)
      second.fill(ends, from, to)
      if (held > 1) for (let n = 0; n < held; n++) part[from + n] = n / (held - 1)
      const before = levels[run - 1] ?? -1
      const after = levels[run] ?? -1
      const step = held > 1 ? 1 / (held - 1) : 0
      const sign = signs[run]!
      // sign × (a·beginning + b·end + c·level before + d·level after); level −1 is the straight.
      const border = (cut: number, step: 1 | -1, a: number, b: number, c: number, d: number) => {
        const row = new Float64Array(unknowns)
        row[begins]! += sign * a
        row[ends]! += sign * b
        if (before >= 0) row[before] = sign * c
        if (after >= 0) row[after] = sign * d
        borders.push({ row, cut, step })
      }
      border(2 * run, 1, 1, 0, -1, 0)
      border(2 * run + 1, -1, 0, -1, 0, 1)
      if (held > 1 && from > 0) border(2 * run, -1, -1 - step, step, 1, 0)
      if (held > 1 && to < stations) border(2 * run + 1, 1, -step, 1 + step, 0, -1)
    }
    if (run < bodies) {
      first.fill(levels[run]!, to, cuts[2 * run + 2]!)
      second.fill(levels[run]!, to, cuts[2 * run + 2]!)
    }
  }
  return { unknowns, first, second, part, borders }
}

/** The ordinates of a profile at given values of its unknowns. */
export function ordinatesOf({ first, second, part }: Profile, values: ArrayLike<number>, into: Float64Array): void {
  for (let n = 0; n < first.length; n++) {
    const begins = first[n]!
    const share = part[n]!
    into[n] = begins < 0 ? 0 : (1 - share) * values[begins]! + share * values[second[n]!]!
  }
}

/** The ordinates of a layout, one per station. */
export function ordinatesAt(layout: Layout, unknowns: readonly number[], stations: number): number[] {
  const ordinates = new Float64Array(stations)
  ordinatesOf(profileOf(layout, stations), unknowns, ordinates)
  return [...ordinates]
}
