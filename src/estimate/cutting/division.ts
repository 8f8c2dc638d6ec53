import type { JointRequirements } from '../../checking/joint-places.ts'
import { bareRun, type OpenedRun } from '../../laying/bare-runs.ts'
import { type BestCutPlan, bestCutPlan } from '../../laying/cutting/best-cut-plan.ts'
import type { CutRules } from '../../laying/cutting/cut-plan.ts'
import type { SearchEffort } from '../../laying/cutting/effort.ts'
import { NOWHERE, type Run, type Work } from '../../laying/cutting/problem.ts'
import { alongRails, dividedRail, type RunOfRail } from '../../laying/divided-rails.ts'
import { inOrder, type JointPlaces, sideBySide, squareStations, withJointPlaces } from '../../laying/joint-places.ts'
import { breaksAlong, distinctPlaces, SIDES } from '../../laying/joints.ts'
import { tiesUnder } from '../../laying/ties.ts'
import { exceeds } from '../../measure/counting.ts'
import { firstIndexWhere } from '../../measure/search.ts'
import { railDistanceAt } from '../../track/rails.ts'
import type { Plan } from '../plan.ts'
import type { Coverage, CoveredStretch } from '../ready-made/coverage.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import { runOf } from './runs.ts'
import type { SprungIn } from './sprung-in.ts'

/** The rails of a plan divided: the cut plan is by rail (left and right of the first track, of the second, …, then the rails of turnouts). */
export interface Division extends BestCutPlan {
  /** The requirements for joint places, by track. */
  readonly asked: readonly JointRequirements[]
}

export interface DividingOptions {
  /** The gaps along a run when it is laid; null where they do not depend on its pieces. */
  readonly opened: ((run: RunOfRail) => OpenedRun) | null
  /** What is not made of loose rail. */
  readonly covered: Coverage
  readonly effort: SearchEffort
  readonly work: Work
  /** What of the track needs no bender. */
  readonly sprungIn: SprungIn
  /** Rails beside those of the tracks, cut from the same sticks: their numbers come after them. */
  readonly others: readonly Run[]
  /** What sticks and joiners may cost at most, in the smallest unit of the currency. */
  readonly mostCents: number
}

/**
 * Divides the rails of all tracks into runs, between breaks or opposite each other, and those into pieces, with joints
 * where the plan allows them.
 *
 * @param fixedJoiners joiners that are needed however the rails are divided, less those that come with ready-made pieces
 */
export function divideRails(
  plan: Plan,
  laid: readonly LaidTrack[],
  rules: CutRules,
  fixedJoiners: number,
  { opened, covered, effort, work, sprungIn, others, mostCents }: DividingOptions,
): ({ readonly ok: true } & Division) | { readonly ok: false; readonly missingMm: number; readonly trimmed: boolean } {
  const { stagger: staggerMm, arrangement, betweenTies } = plan.joints
  const square = arrangement === 'square'
  const { length: joinerMm } = plan.supplies.joiners
  const longestMm = Math.max(...plan.supplies.sticks.map(({ length: lengthMm }) => lengthMm))
  const openedIn = (run: RunOfRail) => (opened ? bareRun(run, opened(run)) : run)
  const asked = laid.map(({ lengthMm, closed, keepOut }): JointRequirements => {
    const { tieSpacingMm } = tiesUnder(lengthMm, plan.supplies.ties.spacing, closed, 0)
    return { keepOut, tieSpacingMm: betweenTies ? tieSpacingMm : null, joinerMm, staggerMm, square }
  })
  const runs: RunOfRail[] = []
  let squareJoints = 0
  for (const [index, track] of laid.entries()) {
    const places = placesFor(asked[index]!)
    const readyMade = covered.stretches.filter((stretch) => stretch.track === index)
    const ends = readyMade.flatMap(({ fromMm, toMm }) => [fromMm, toMm])
    const opposite = square ? oppositeStations(track, readyMade, longestMm, places) : []
    squareJoints += 2 * opposite.length
    const [left, right] = SIDES.map((side, n) => {
      const line = track.rails[side]
      const on = (stations: readonly number[]) => stations.map((station) => railDistanceAt(line, station))
      const divided = distinctPlaces([
        ...breaksAlong(track, side).map(({ atMm }) => atMm),
        ...on(opposite),
        ...on(ends),
      ])
      const isTaken = inside(readyMade.map(({ fromMm, toMm }) => on([fromMm, toMm])))
      return dividedRail(2 * index + n, runOf(track, side, plan, sprungIn), divided)
        .filter(({ startMm, lengthMm }) => !isTaken(startMm + lengthMm / 2))
        .map((run) =>
          square && !exceeds(run.lengthMm, longestMm) ? undivided(run) : withJointPlaces(run, line, places),
        )
    })
    const apart = staggerMm !== null && staggerMm > 0 && left!.length === right!.length
    const ofTrack = apart ? sideBySide(left!, right!, track.rails, runs.length) : [...left!, ...right!]
    runs.push(...ofTrack.map(openedIn))
  }
  for (const [index, run] of others.entries()) {
    const alone = { ...run, rail: 2 * laid.length + index, startMm: 0 }
    runs.push(exceeds(run.lengthMm, longestMm) ? alone : undivided(alone))
  }
  if (runs.length === 0) return { ok: true, ...NOTHING_TO_CUT, asked }
  const otherJoints = fixedJoiners + squareJoints
  const best = bestCutPlan(runs, plan.supplies, rules, {
    otherJoints,
    effort,
    work,
    apartMm: staggerMm ?? undefined,
    cutting: plan.supplies.cutting,
    mostCents,
  })
  if (!best.ok) return { ...best, trimmed: runs.some(({ trim }) => trim) }
  return { ...best, asked, plan: alongRails(best.plan, runs, 2 * laid.length + others.length) }
}

const NOTHING_TO_CUT: BestCutPlan = {
  plan: { sticks: [], piecesPerRun: [], sticksLowerBound: 0, wasteMm: 0, reusableMm: 0, shortPieces: [] },
  cost: { cents: 0, leastCents: 0 },
  provenOptimal: true,
}

/** Whether a place is inside one of the stretches, which do not overlap. */
function inside(stretches: readonly (readonly number[])[]): (mm: number) => boolean {
  const sorted = stretches.toSorted(([a], [b]) => a! - b!)
  return (mm) => {
    const last = sorted[firstIndexWhere(sorted.length, (n) => sorted[n]![0]! >= mm) - 1]
    return last !== undefined && mm < last[1]!
  }
}

/** A joint stays half a joiner away from the stretches without joints. */
function placesFor({ keepOut, tieSpacingMm, joinerMm }: JointRequirements): JointPlaces {
  const wider = keepOut.map(({ from, to }) => ({ from: from - joinerMm / 2, to: to + joinerMm / 2 }))
  return { keepOut: inOrder(wider), tieSpacingMm }
}

/** A further joint would have none opposite, or divide a rail of a turnout. */
function undivided(run: RunOfRail): RunOfRail {
  return { ...run, jointBy: NOWHERE }
}

/** Where no stick is long enough for the required places, joints are opposite each other and ignore those places. */
function oppositeStations(
  track: LaidTrack,
  readyMade: readonly CoveredStretch[],
  longestMm: number,
  places: JointPlaces,
): number[] {
  const taken = readyMade.map(({ fromMm, toMm }) => [fromMm, toMm])
  const ends = distinctPlaces([...track.breaks.map(({ at: atMm }) => atMm), ...taken.flat()])
  const anywhere = { keepOut: [], tieSpacingMm: null }
  const stations =
    squareStations(track.rails, track.lengthMm, ends, longestMm, places) ??
    squareStations(track.rails, track.lengthMm, ends, longestMm, anywhere) ??
    []
  const isTaken = inside(taken)
  return stations.filter((mm) => !isTaken(mm))
}
