import { bodiesOf, type Layout } from './layout.ts'

/** A limit of a layout, beyond which lies another one: a run begins or ends at a station. */
export interface Border {
  /** `unknowns` long; row · unknowns ≥ 0 inside, 0 on the border. */
  readonly row: Float64Array
  /** The layout beyond has this cut moved by this step. */
  readonly cut: number
  readonly step: 1 | -1
}

/**
 * A layout's profile as linear in its unknowns: one level a body (numbers 0 to b − 1), then for each run the ordinate of
 * its only station, or of its first and last (straight between them).
 */
export interface Profile {
  readonly unknowns: number
  /** Row n: the ordinate at station n as multiples of the unknowns, `unknowns` long. */
  readonly ordinates: Float64Array
  /** Inside all of them the runs meet their bodies between the right stations. */
  readonly borders: readonly Border[]
}

/**
 * The profile of a layout. A run that holds the first station may have begun anywhere before it, one that holds the last
 * may end anywhere beyond: there the readings do not reach the straight.
 */
export function profileOf({ cuts, signs }: Layout, stations: number): Profile {
  const bodies = bodiesOf({ cuts, signs })
  let unknowns = bodies
  for (let run = 0; run < signs.length; run++) unknowns += Math.min(2, cuts[2 * run + 1]! - cuts[2 * run]!)

  const ordinates = new Float64Array(stations * unknowns)
  const borders: Border[] = []
  let next = bodies
  for (let run = 0; run < signs.length; run++) {
    const from = cuts[2 * run]!
    const to = cuts[2 * run + 1]!
    const held = to - from
    if (held > 0) {
      const first = next
      const last = first + Math.min(held, 2) - 1
      next = last + 1
      for (let n = 0; n < held; n++) {
        const part = held > 1 ? n / (held - 1) : 0
        ordinates[(from + n) * unknowns + first]! += 1 - part
        ordinates[(from + n) * unknowns + last]! += part
      }
      const before = run - 1
      const after = run < bodies ? run : -1
      const step = held > 1 ? 1 / (held - 1) : 0
      const sign = signs[run]!
      // sign × (a·first + b·last + c·level before + d·level after); level −1 is the straight.
      const border = (cut: number, step: 1 | -1, a: number, b: number, c: number, d: number) => {
        const row = new Float64Array(unknowns)
        row[first]! += sign * a
        row[last]! += sign * b
        if (before >= 0) row[before] = sign * c
        if (after >= 0) row[after] = sign * d
        borders.push({ row, cut, step })
      }
      border(2 * run, 1, 1, 0, -1, 0)
      border(2 * run + 1, -1, 0, -1, 0, 1)
      if (held > 1 && from > 0) border(2 * run, -1, -1 - step, step, 1, 0)
      if (held > 1 && to < stations) border(2 * run + 1, 1, -step, 1 + step, 0, -1)
    }
    if (run < bodies)
      for (let station = to; station < cuts[2 * run + 2]!; station++) ordinates[station * unknowns + run] = 1
  }
  return { unknowns, ordinates, borders }
}
