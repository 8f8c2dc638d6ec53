import { Effects, EffectsInSizes } from './effects.ts'
import { type Layout, STRAIGHT } from './layout.ts'
import { type Effort, smallestBounds } from './linear-program.ts'
import { type Border, type Profile, profileOf } from './profile.ts'
import { product, without } from './vectors.ts'

/** A curve to be lined, one unit of length throughout. */
export interface Survey {
  readonly measured: readonly number[]
  /** One per station: its largest half throw (0: it is fixed); null where it counts towards the largest throw. */
  readonly limits: readonly (number | null)[]
  /** Stations whose reading is ignored: any ordinate is allowed there. */
  readonly doubted: readonly number[]
}

export interface Lined {
  readonly layout: Layout
  /** The profile's unknowns, as `profileOf` numbers them. */
  readonly unknowns: readonly number[]
  /** The largest half throw among the stations without a limit. */
  readonly largestHalfThrow: number
  /** By how much, as a half throw, the end and the limited stations miss; 0 except for rounding when all are kept. */
  readonly missed: number
  /** Stations at which the largest half throw cannot be made smaller. */
  readonly decisive: readonly number[]
  /** Borders of the layout beyond which the throw may be smaller. */
  readonly pressing: readonly Border[]
  /** Bands of the linear programme that meet in the corner that was found; a similar layout shares most of them. */
  readonly meeting: readonly number[]
}

/** Cost of missing a condition by a millimetre against a millimetre of throw: more than keeping it can ever cost. */
const PENALTY = 1000
/** Cost of a layout besides its linear programme, in multiplications per station. */
const LAYOUT_COST = 100
/** Levels are limited to this many times the largest reading. */
const WIDEST_LEVEL = 100
/** A condition closer than this to following from the others is taken to follow from them. */
const INDEPENDENT = 1e-9

/**
 * The profile of a given layout with the smallest largest throw that leaves the end's place and direction and the fixed
 * stations where they are. Ordinates are linear in the profile's unknowns and half throws in the ordinates, so this is
 * a linear programme in a handful of unknowns: T → min with |half throw(n)| ≤ T.
 *
 * A layout that cannot keep the conditions is returned all the same, with how far it misses: the search over layouts
 * needs to know which way is better.
 *
 * @param survey with some reading that is not 0
 * @param effort the cost is subtracted from it
 * @param like a similar layout, if there is one: it saves work and changes nothing else
 * @returns null when the programme could not be solved
 */
export function smallestThrow(
  survey: Survey,
  layout: Layout,
  effort: Effort,
  like?: Lined,
  conditions: Conditions = conditionsOf(survey),
): Lined | null {
  const stations = survey.measured.length
  const { scale, middles, allowances, boundOf } = conditions
  const profile = profileOf(layout, stations)
  const effects = new Effects(profile, survey.doubted)
  const { unknowns } = effects
  effort.left -= LAYOUT_COST * stations
  // Along the track an unknown subtracts more and more from the half throws.
  const sizes = new Float64Array(unknowns)
  effects.row(stations - 1, sizes)
  for (let k = 0; k < unknowns; k++) sizes[k] = Math.max(1, sizes[k]!)

  const notNegative = profile.borders.map(({ row }) => {
    const parts = new Float64Array(unknowns)
    let largest = 0
    for (let k = 0; k < profile.unknowns; k++) {
      parts[k] = row[k]! / sizes[k]!
      largest = Math.max(largest, Math.abs(parts[k]!))
    }
    for (let k = 0; k < profile.unknowns; k++) parts[k]! /= largest
    return parts
  })
  const lower = sizes.map((size) => -WIDEST_LEVEL * size)

  const bands = new EffectsInSizes(effects, sizes)
  const programme = { unknowns, bands, middles, allowances, boundOf, notNegative, lower }
  const corner = smallestBounds(programme, PENALTY, effort, like?.meeting)
  if (!corner) return null
  const found = Array.from(sizes, (size, k) => (corner.x[k]! * scale) / size)
  return judged(survey, layout, profile, found, {
    decisive: corner.decisive.map((band) => band + 1),
    pressing: corner.pressing.map((row) => profile.borders[row]!),
    meeting: corner.meeting,
  })
}

/**
 * The conditions on every layout of a survey: bands for the half throws at the stations from the second on, and for the
 * last sum.
 */
export interface Conditions {
  /** The largest reading, the unit of middles and allowances. */
  readonly scale: number
  readonly middles: Float64Array
  readonly allowances: Float64Array
  readonly boundOf: Uint8Array
}

export function conditionsOf({ measured, limits }: Survey): Conditions {
  const stations = measured.length
  const wanted = wantedHalfThrows(measured)
  let scale = 0
  for (const ordinate of measured) scale = Math.max(scale, Math.abs(ordinate))
  const middles = new Float64Array(stations)
  const allowances = new Float64Array(stations)
  const boundOf = new Uint8Array(stations)
  for (let n = 1; n <= stations; n++) {
    const limit = n >= stations - 1 ? 0 : limits[n]!
    middles[n - 1] = ((n === stations ? stations : 1) * wanted[n]!) / scale
    allowances[n - 1] = (limit ?? 0) / scale
    boundOf[n - 1] = limit === null ? 0 : 1
  }
  return { scale, middles, allowances, boundOf }
}

/** The result for a track that is to be straight throughout. */
export function straightThroughout(survey: Survey): Lined {
  const profile = profileOf(STRAIGHT, survey.measured.length)
  return judged(survey, STRAIGHT, profile, [], { decisive: [], pressing: [], meeting: [] })
}

/**
 * The same profile with the end's place and direction and the fixed stations kept to the last digits: the smallest
 * change of the unknowns (least squares) that removes what rounding left.
 */
export function settled(survey: Survey, lined: Lined): Lined {
  const { measured, limits, doubted } = survey
  const stations = measured.length
  const profile = profileOf(lined.layout, stations)
  const effects = new Effects(profile, doubted)
  const { unknowns } = effects
  const wanted = wantedHalfThrows(measured)
  const conditions = [stations]
  for (let n = 1; n < stations; n++) if (n === stations - 1 || limits[n] === 0) conditions.push(n)

  const values = [...lined.unknowns]
  for (let pass = 0; pass < 2; pass++) {
    // What each condition asks for, at right angles to those before it.
    const steps: { direction: number[]; by: number }[] = []
    for (const n of conditions) {
      const effect = new Float64Array(unknowns)
      effects.row(n, effect)
      let row = [...effect]
      const size = Math.sqrt(product(row, row))
      if (size === 0) continue
      row = row.map((part) => part / size)
      let by = wanted[n]! / size - product(row, values)
      for (const step of steps) {
        by -= product(row, step.direction) * step.by
        row = without(row, step.direction)
      }
      const left = Math.sqrt(product(row, row))
      if (left > INDEPENDENT) steps.push({ direction: row.map((part) => part / left), by: by / left })
    }
    for (const { direction, by } of steps) for (let k = 0; k < unknowns; k++) values[k]! += by * direction[k]!
  }
  return judged(survey, lined.layout, profile, values, lined)
}

function judged(
  survey: Survey,
  layout: Layout,
  profile: Profile,
  unknowns: readonly number[],
  { decisive, pressing, meeting }: Pick<Lined, 'decisive' | 'pressing' | 'meeting'>,
): Lined {
  const { measured, limits, doubted } = survey
  const stations = measured.length
  const { first, second, part } = profile
  let accounted = measured
  for (const [d, station] of doubted.entries())
    accounted = accounted.with(station, accounted[station]! - unknowns[profile.unknowns + d]!)
  let sum = 0
  let half = 0
  let missed = 0
  let largestHalfThrow = 0
  for (let n = 0; n < stations; n++) {
    half += sum
    const begins = first[n]!
    const ordinate = begins < 0 ? 0 : (1 - part[n]!) * unknowns[begins]! + part[n]! * unknowns[second[n]!]!
    sum += accounted[n]! - ordinate
    const limit = limits[n]!
    if (limit === null) largestHalfThrow = Math.max(largestHalfThrow, Math.abs(half))
    else missed = Math.max(missed, Math.abs(half) - limit)
  }
  missed = Math.max(missed, Math.abs(half), Math.abs(sum) * stations)
  return { layout, unknowns, largestHalfThrow, missed, decisive, pressing, meeting }
}

/** The half throws without a proposal, and at the end the last sum. */
function wantedHalfThrows(measured: readonly number[]): Float64Array {
  const wanted = new Float64Array(measured.length + 1)
  let sum = 0
  let half = 0
  for (let n = 0; n < measured.length; n++) {
    half += sum
    sum += measured[n]!
    wanted[n] = half
  }
  wanted[measured.length] = sum
  return wanted
}
