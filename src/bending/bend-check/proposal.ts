import {
  bodiesOf,
  curvedBodiesOf,
  firstGuesses,
  keyOf,
  type Layout,
  levelsOf,
  type Reach,
  withOneMoreBody,
} from './layout.ts'
import type { Effort } from './linear-program.ts'
import { ordinatesAt } from './profile.ts'
import { bestLayout, type Search } from './search.ts'
import { type Lined, type Survey, settled, straightThroughout } from './smallest-throw.ts'
import { misreadHalfThrow, showsStraight, straightened, withStraightsBetween } from './straights.ts'

export interface LiningInput {
  readonly measuredMm: readonly number[]
  /** Station indexes, each in range. */
  readonly fixed: readonly number[]
  /** How far a reading may be off, either way. */
  readonly resolutionMm: number
  /** Two levels that differ by no more than this share of the larger, or by the resolution, are one body. */
  readonly tolerancePct: number
  readonly maximumThrowMm: number | null
  /** Stations whose reading is probably wrong: throws are as small as they can be whatever it should have been. */
  readonly doubted: readonly number[]
}

export interface Proposal {
  readonly layout: Layout
  /** The stations the curve may cover; the whole survey where it continues beyond its ends. */
  readonly reach: Reach
  /** The unknowns of the layout's profile, as `profileOf` numbers them. */
  readonly unknowns: readonly number[]
  readonly ordinatesMm: readonly number[]
  /** The readings, the doubted ones as they should have been. */
  readonly correctedMm: readonly number[]
}

/** The result of looking for ordinates. */
export interface Proposed {
  /** Null when none was found that keeps the fixed stations in place. */
  readonly proposal: Proposal | null
  /** Whether the search was complete: `bestLayout` says what that means; otherwise there may be better ones. */
  readonly isComplete: boolean
}

/**
 * The most work of looking for ordinates, in multiplications: about 0.12 seconds. Even curves of
 * 200 stations take less; it ends the search through readings that do not form a curve. By reach: a second one takes
 * its share and what the first left over.
 */
const MOST_WORK = 50e6
const FIRST_REACH = 0.7
/** Shares of the work reserved for later steps: choosing the bodies, limiting throws. */
const KEPT_BACK = { choosing: 0.35, limiting: 0.15 }

/** Each number of bodies may take this share of the work for choosing it, so that some is left for the next. */
const STEP = 0.4

const MOST_BODIES = 6
/** Each additional body must reduce the largest throw to a third. */
const WORTHWHILE = 3
/** A straight between curves that bend opposite ways is kept when it reduces the largest throw to this share. */
const SHOWN = 0.75
/** A body that may be straight within the resolution is one, unless that multiplies the largest throw by more than this and errors of reading do not explain it. */
const INDISTINCT = 1.5
/** Layouts tried without success before a search stops: a search from guesses, and one about a known layout. */
const PATIENCE = 80
const REFINING_PATIENCE = 20
/** How often the throws that are not decisive are reduced once more. */
const REFINEMENTS = 3

/**
 * The ordinates a curve should be lined to: straight, linear run-up, body of constant ordinate, linear run-off,
 * straight, with both ends kept in place and direction (Σ error = 0, Σ Σ error = 0), the fixed stations not moved, and
 * the largest throw as small as it can be. `bestLayout` says how sure that is.
 *
 * Bodies: as few as possible. One more is added only when it reduces the largest throw to a third, where
 * throws under four times the resolution (or a five-hundredth of the largest reading) count as that much, and only when
 * it differs from its neighbours by more than the resolution and the tolerance; or when fewer cannot keep the fixed
 * stations or the maximum throw.
 *
 * An end is kept straight when its last reading is 0 within the resolution; otherwise the curve is assumed to continue.
 */
export function propose(curve: LiningInput): Proposed {
  const { measuredMm, resolutionMm } = curve
  // A curve read in the opposite direction gets exactly the same figures, not others that are as good.
  if (sumOf(measuredMm) < 0) {
    const { proposal, isComplete } = propose({ ...curve, measuredMm: measuredMm.map((reading) => -reading) })
    return { proposal: proposal && mirrored(proposal), isComplete }
  }
  const stations = measuredMm.length
  const between: Reach = {
    from: Math.abs(measuredMm[0]!) <= resolutionMm ? 1 : 0,
    to: Math.abs(measuredMm.at(-1)!) <= resolutionMm ? stations - 1 : stations,
  }
  const effort: Effort = { left: FIRST_REACH * MOST_WORK }
  const first = proposeWithin(curve, between, effort)
  if (first.proposal) return first
  effort.left += (1 - FIRST_REACH) * MOST_WORK
  const second = proposeWithin(curve, { from: 0, to: stations }, effort)
  return { ...second, isComplete: first.isComplete && second.isComplete }
}

function mirrored(proposal: Proposal): Proposal {
  const { layout, unknowns, ordinatesMm, correctedMm } = proposal
  return {
    ...proposal,
    layout: { ...layout, signs: layout.signs.map((sign) => -sign) },
    unknowns: unknowns.map((value) => -value),
    ordinatesMm: ordinatesMm.map((ordinate) => -ordinate),
    correctedMm: correctedMm.map((reading) => -reading),
  }
}

function proposeWithin(curve: LiningInput, reach: Reach, effort: Effort): Proposed {
  const { measuredMm: measured, resolutionMm } = curve
  const stations = measured.length
  const survey: Survey = {
    measured,
    limits: measured.map((_, n) => (curve.fixed.includes(n) ? 0 : null)),
    doubted: curve.doubted,
  }
  const largestReading = Math.max(...measured.map(Math.abs))
  const slack = 1e-8 * stations * largestReading
  const kept = (lined: Lined | null): lined is Lined => lined !== null && lined.missed <= slack
  const keep = (share: number) => share * effort.left
  const reserves = {
    choosing: keep(KEPT_BACK.choosing),
    limiting: keep(KEPT_BACK.limiting),
  }
  /** Results of searches that ended early. */
  const unfinished = new Set<Lined | null>()
  const search = (guesses: readonly Layout[], reserve: number) => {
    const found = bestLayout(survey, guesses, { reach, patience: PATIENCE, effort, reserve })
    const lined = found?.lined ?? null
    if (found ? !found.isLocallyLeast : effort.left <= reserve) unfinished.add(lined)
    return lined
  }
  const line = (bodies: number, near: readonly Layout[], reserve: number) =>
    search([...near, ...guessesFor(withoutDoubted(measured, curve.doubted), bodies, reach)], reserve)
  const none = () => ({ proposal: null, isComplete: unfinished.size === 0 })

  const smallest = Math.max(2 * resolutionMm, largestReading / 1000)
  let chosen: { bodies: number; lined: Lined } | null = null
  let worth = Number.POSITIVE_INFINITY
  const straight = straightThroughout(survey)
  if (kept(straight)) {
    chosen = { bodies: 0, lined: straight }
    worth = Math.max(smallest, straight.largestHalfThrow) / WORTHWHILE
  }
  const withItsStraights = (plain: Lined, searched: (layout: Layout) => Lined | null): Lined => {
    let lined = plain
    const flat = straightened(plain.layout, plain.unknowns, resolutionMm)
    const held = flat && searched(flat)
    const allowed = (than: Lined) => Math.max(smallest, INDISTINCT * than.largestHalfThrow)
    const misread = flat ? misreadHalfThrow(flat, resolutionMm) : 0
    if (kept(held) && held.largestHalfThrow <= Math.max(misread, allowed(plain))) lined = held
    const { layout, unknowns, largestHalfThrow } = lined
    const parted = withStraightsBetween(layout, unknowns)
    if (!parted) return lined
    const between = searched(parted)
    if (kept(between) && between.largestHalfThrow <= SHOWN * largestHalfThrow) return between
    const shown = withStraightsBetween(layout, unknowns, showsStraight(measured, resolutionMm))
    const kind = shown && (keyOf(shown) === keyOf(parted) ? between : searched(shown))
    return kept(kind) && kind.largestHalfThrow <= allowed(lined) ? kind : lined
  }
  let nested: Layout[] = []
  // At best every other body is straight.
  for (let bodies = 1; bodies <= MOST_BODIES && smallest * WORTHWHILE ** ((bodies - 1) >> 1) < worth; bodies++) {
    const reserve = effort.left - STEP * (effort.left - reserves.choosing)
    const plain = line(bodies, nested, reserve)
    nested = plain ? withOneMoreBody(plain.layout) : []
    if (!kept(plain)) continue
    const lined = withItsStraights(plain, (layout) => search([layout], reserve))
    if (!areDifferent(lined, curve)) continue
    const here = Math.max(smallest, lined.largestHalfThrow) * WORTHWHILE ** (curvedBodiesOf(lined.layout) - 1)
    if (here >= worth) continue
    chosen = { bodies, lined }
    worth = here
  }
  if (!chosen) return none()

  let { bodies, lined } = chosen
  if (unfinished.has(lined)) lined = search([lined.layout], reserves.limiting) ?? lined
  if (curve.maximumThrowMm !== null)
    while (2 * lined.largestHalfThrow > curve.maximumThrowMm && bodies < MOST_BODIES) {
      const more = line(++bodies, withOneMoreBody(lined.layout), reserves.limiting)
      if (kept(more) && more.largestHalfThrow < lined.largestHalfThrow) lined = more
    }
  const isTooFar = curve.maximumThrowMm !== null && 2 * lined.largestHalfThrow > curve.maximumThrowMm
  const { layout, unknowns } = refined(survey, lined, { reach, patience: REFINING_PATIENCE, effort, reserve: 0 }, kept)
  return {
    proposal: {
      layout,
      reach,
      unknowns,
      ordinatesMm: ordinatesAt(layout, unknowns, stations),
      correctedMm: correctedReadings(survey, unknowns),
    },
    isComplete: !unfinished.has(lined) && !(isTooFar && unfinished.size > 0),
  }
}

/** The unknowns after those of the profile are how far each doubted reading is wrong. */
function correctedReadings({ measured, doubted }: Survey, unknowns: readonly number[]): number[] {
  return measured.map((reading, n) => {
    const index = doubted.indexOf(n)
    return index < 0 ? reading : reading - unknowns[unknowns.length - doubted.length + index]!
  })
}

/** Doubted readings replaced by the mean of their neighbours, for a first guess only. */
function withoutDoubted(measured: readonly number[], doubted: readonly number[]): number[] {
  return measured.map((reading, n) =>
    doubted.includes(n) ? ((measured[n - 1] ?? 0) + (measured[n + 1] ?? 0)) / 2 : reading,
  )
}

/** First guesses; a single body bends the way the readings add up to, or the end could not keep its direction. */
function guessesFor(measured: readonly number[], bodies: number, reach: Reach): Layout[] {
  const guesses = firstGuesses(measured, bodies, reach)
  if (bodies !== 1) return guesses
  const sign = sumOf(measured) < 0 ? -1 : 1
  return guesses.map(({ cuts }) => ({ cuts, signs: [sign, -sign] }))
}

function areDifferent({ layout, unknowns }: Lined, { resolutionMm, tolerancePct }: LiningInput): boolean {
  const levels = levelsOf(layout, unknowns)
  return levels.slice(1).every((level, n) => {
    const before = levels[n]!
    const larger = Math.max(Math.abs(level), Math.abs(before))
    return Math.abs(level - before) > Math.max(resolutionMm, (tolerancePct / 100) * larger)
  })
}

/** With the decisive stations held where they are, the largest of the other throws is made as small as it can be. */
function refined(survey: Survey, lined: Lined, search: Search, kept: (lined: Lined | null) => lined is Lined): Lined {
  if (bodiesOf(lined.layout) === 0) return lined
  let best = lined
  let limits = survey.limits
  for (let n = 0; n < REFINEMENTS; n++) {
    const { decisive, largestHalfThrow } = best
    limits = limits.map((limit, station) => (limit === null && decisive.includes(station) ? largestHalfThrow : limit))
    const next = bestLayout({ ...survey, limits }, [best.layout], search)?.lined ?? null
    if (!kept(next)) break
    best = next
  }
  return settled(survey, best)
}

function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0)
}
