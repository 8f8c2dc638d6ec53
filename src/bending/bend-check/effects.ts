import type { Rows } from './linear-program.ts'
import { ordinatesOf, type Profile } from './profile.ts'

/**
 * What the unknowns of a profile, and after them the doubted readings, subtract from the half throws: row n < stations
 * from that at station n, row `stations` from the last sum. A half throw is a sum of sums, so all the products are
 * calculated in one pass along the stations.
 */
export class Effects implements Rows {
  readonly unknowns: number
  readonly stations: number
  private readonly profile: Profile
  private readonly doubted: readonly number[]
  private readonly ordinates: Float64Array

  constructor(profile: Profile, doubted: readonly number[]) {
    this.unknowns = profile.unknowns + doubted.length
    this.stations = profile.first.length
    this.profile = profile
    this.doubted = doubted
    this.ordinates = new Float64Array(this.stations)
  }

  products(x: ArrayLike<number>, into: Float64Array): void {
    const { ordinates, doubted, profile, stations } = this
    ordinatesOf(profile, x, ordinates)
    for (let d = 0; d < doubted.length; d++) ordinates[doubted[d]!]! += x[profile.unknowns + d]!
    let sum = 0
    let half = 0
    for (let n = 0; n < stations; n++) {
      half += sum
      sum += ordinates[n]!
      into[n] = half
    }
    into[stations] = sum
  }

  row(n: number, into: Float64Array): void {
    const { profile, doubted, stations, unknowns } = this
    const { first, second, part } = profile
    const isSum = n === stations
    for (let k = 0; k < unknowns; k++) into[k] = 0
    for (let station = 0; station < n; station++) {
      const begins = first[station]!
      if (begins < 0) continue
      const weight = isSum ? 1 : n - station
      const share = part[station]!
      into[begins]! += weight * (1 - share)
      into[second[station]!]! += weight * share
    }
    for (let d = 0; d < doubted.length; d++) {
      const station = doubted[d]!
      if (station < n) into[profile.unknowns + d] = isSum ? 1 : n - station
    }
  }
}

/**
 * The same without row 0, which is 0, with the last row multiplied by the number of stations, and every unknown
 * scaled by its own size: the form a linear programme needs.
 */
export class EffectsInSizes implements Rows {
  private readonly effects: Effects
  private readonly sizes: Float64Array
  private readonly values: Float64Array
  private readonly all: Float64Array

  constructor(effects: Effects, sizes: Float64Array) {
    this.effects = effects
    this.sizes = sizes
    this.values = new Float64Array(effects.unknowns)
    this.all = new Float64Array(effects.stations + 1)
  }

  products(x: Float64Array, into: Float64Array): void {
    const { effects, sizes, values, all } = this
    for (let k = 0; k < values.length; k++) values[k] = x[k]! / sizes[k]!
    effects.products(values, all)
    into.set(all.subarray(1))
    into[effects.stations - 1]! *= effects.stations
  }

  row(n: number, into: Float64Array): void {
    const { effects, sizes } = this
    effects.row(n + 1, into)
    const weight = n + 1 === effects.stations ? effects.stations : 1
    for (let k = 0; k < effects.unknowns; k++) into[k] = (weight * into[k]!) / sizes[k]!
  }
}
