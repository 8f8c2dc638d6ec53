import { type Layout, STRAIGHT } from './layout.ts'
import { smallestBounds } from './linear-program.ts'
import { type Border, type Profile, profileOf } from './profile.ts'
import { liningTable } from './string-lining.ts'
import { product, without } from './vectors.ts'

/** A curve to be lined, one unit of length throughout. */
export interface Survey {
  readonly measured: readonly number[]
  /** One a station: how large its half throw may be (0: it is fixed); null where it counts towards the largest throw. */
  readonly limits: readonly (number | null)[]
  /** Stations whose reading is left out of account: any ordinate may stand there. */
  readonly doubted: readonly number[]
}

export interface Lined {
  readonly layout: Layout
  /** The profile's unknowns, as `profileOf` numbers them. */
  readonly unknowns: readonly number[]
  readonly ordinates: readonly number[]
  /** The largest half throw among the stations without a limit. */
  readonly largestHalfThrow: number
  /** By how much, as a half throw, the end and the limited stations miss; 0 up to rounding when all is kept. */
  readonly missed: number
  /** Stations at which the largest half throw cannot be made smaller. */
  readonly decisive: readonly number[]
  /** Borders of the layout beyond which the throw may be smaller. */
  readonly pressing: readonly Border[]
}

/** What a millimetre of a condition missed costs against a millimetre of throw: more than keeping it can ever cost. */
const PENALTY = 1000
/** No level is looked for beyond this many times the largest reading. */
const WIDEST_LEVEL = 100
/** A condition less than this far from following from the others follows from them. */
const INDEPENDENT = 1e-9

/**
 * The profile of a given layout with the smallest largest throw that leaves the end's place and direction and the fixed
 * stations where they are. Ordinates are linear in the profile's unknowns and half throws in the ordinates, so this is
 * a linear programme in a handful of unknowns: T → min with |half throw(n)| ≤ T.
 *
 * A layout that cannot keep the conditions is answered all the same, with how far it misses: the search over layouts
 * needs to know which way is better.
 *
 * @param survey with some reading that is not 0
 * @returns null when the programme could not be solved
 */
export function smallestThrow(survey: Survey, layout: Layout): Lined | null {
  const { measured, limits, doubted } = survey
  const stations = measured.length
  let scale = 0
  for (const ordinate of measured) scale = Math.max(scale, Math.abs(ordinate))
  const profile = profileOf(layout, stations)
  const unknowns = profile.unknowns + doubted.length
  const effects = effectsOf(profile, doubted, stations)
  const wanted = wantedHalfThrows(measured)
  const sizes = new Float64Array(unknowns).fill(1)
  for (let n = 0; n <= stations; n++)
    for (let k = 0; k < unknowns; k++) sizes[k] = Math.max(sizes[k]!, Math.abs(effects[n * unknowns + k]!))

  const bands = new Float64Array(stations * unknowns)
  const middles = new Float64Array(stations)
  const allowances = new Float64Array(stations)
  const boundOf = new Uint8Array(stations)
  for (let n = 1; n <= stations; n++) {
    const limit = n >= stations - 1 ? 0 : limits[n]!
    const weight = n === stations ? stations : 1
    for (let k = 0; k < unknowns; k++) bands[(n - 1) * unknowns + k] = (weight * effects[n * unknowns + k]!) / sizes[k]!
    middles[n - 1] = (weight * wanted[n]!) / scale
    allowances[n - 1] = (limit ?? 0) / scale
    boundOf[n - 1] = limit === null ? 0 : 1
  }
  const notNegative = new Float64Array(profile.borders.length * unknowns)
  for (const [n, { row: parts }] of profile.borders.entries()) {
    let largest = 0
    for (let k = 0; k < profile.unknowns; k++) largest = Math.max(largest, Math.abs(parts[k]!) / sizes[k]!)
    for (let k = 0; k < profile.unknowns; k++) notNegative[n * unknowns + k] = parts[k]! / sizes[k]! / largest
  }
  const lower = sizes.map((size) => -WIDEST_LEVEL * size)

  const corner = smallestBounds({ unknowns, bands, middles, allowances, boundOf, notNegative, lower }, PENALTY)
  if (!corner) return null
  const found = Array.from(sizes, (size, k) => (corner.x[k]! * scale) / size)
  return judged(survey, layout, profile, found, {
    decisive: corner.decisive.map((band) => band + 1),
    pressing: corner.pressing.map((row) => profile.borders[row]!),
  })
}

/** What becomes of the stations when the track is to be straight throughout. */
export function straightThroughout(survey: Survey): Lined {
  const profile = { unknowns: 0, ordinates: new Float64Array(0), borders: [] }
  return judged(survey, STRAIGHT, profile, [], { decisive: [], pressing: [] })
}

/**
 * The same profile with the end's place and direction and the fixed stations kept to the last digits: the smallest
 * change of the unknowns (least squares) that removes what rounding left.
 */
export function settled(survey: Survey, lined: Lined): Lined {
  const { measured, limits, doubted } = survey
  const stations = measured.length
  const profile = profileOf(lined.layout, stations)
  const unknowns = profile.unknowns + doubted.length
  const effects = effectsOf(profile, doubted, stations)
  const wanted = wantedHalfThrows(measured)
  const conditions = [stations]
  for (let n = 1; n < stations; n++) if (n === stations - 1 || limits[n] === 0) conditions.push(n)

  const values = [...lined.unknowns]
  for (let pass = 0; pass < 2; pass++) {
    // What each condition asks for, at right angles to those before it.
    const steps: { direction: number[]; by: number }[] = []
    for (const n of conditions) {
      let row = Array.from({ length: unknowns }, (_, k) => effects[n * unknowns + k]!)
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
  { decisive, pressing }: Pick<Lined, 'decisive' | 'pressing'>,
): Lined {
  const { measured, limits, doubted } = survey
  const ordinates: number[] = []
  for (let n = 0; n < measured.length; n++) {
    let ordinate = 0
    for (let k = 0; k < profile.unknowns; k++) ordinate += profile.ordinates[n * profile.unknowns + k]! * unknowns[k]!
    ordinates.push(ordinate)
  }
  const accounted = [...measured]
  for (const [d, station] of doubted.entries()) accounted[station]! -= unknowns[profile.unknowns + d]!
  const table = liningTable(accounted, ordinates)
  let missed = Math.max(Math.abs(table.lastHalfThrow), Math.abs(table.lastSum) * measured.length)
  let largestHalfThrow = 0
  for (const [n, half] of table.halfThrows.entries()) {
    const limit = limits[n] ?? null
    if (limit === null) largestHalfThrow = Math.max(largestHalfThrow, Math.abs(half))
    else missed = Math.max(missed, Math.abs(half) - limit)
  }
  return { layout, unknowns, ordinates, largestHalfThrow, missed, decisive, pressing }
}

/** Row n < stations: what each unknown takes off the half throw at station n; row `stations`: off the last sum. */
function effectsOf(profile: Profile, doubted: readonly number[], stations: number): Float64Array {
  const own = profile.unknowns
  const unknowns = own + doubted.length
  const effects = new Float64Array((stations + 1) * unknowns)
  for (let k = 0; k < unknowns; k++) {
    let sum = 0
    let half = 0
    for (let n = 0; n < stations; n++) {
      half += sum
      sum += k < own ? profile.ordinates[n * own + k]! : doubted[k - own] === n ? 1 : 0
      effects[n * unknowns + k] = half
    }
    effects[stations * unknowns + k] = sum
  }
  return effects
}

/** The half throws against no proposal at all, and at the end the last sum. */
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
