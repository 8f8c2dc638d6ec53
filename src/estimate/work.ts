import type { CutListProblem } from '../laying/cutting/cut-list.ts'
import { sum } from '../measure/sum.ts'
import { elementLengthMm } from '../plan/elements.ts'
import { mostSticks } from '../plan/reading/size.ts'
import type { PlanInput } from '../plan/rows/plan.ts'

/* Milliseconds, measured on one core of about 3 GHz with tests/benchmarks; somewhat more than what was measured. */
const FIXED = 0.5
/** Places, drawings, checks and remedies of one element. */
const PER_ELEMENT = 0.08
const PER_TRACK = 0.1
const PER_GRADE_POINT = 0.004
/** Cut and fill there, for each shift that is tried to balance them. */
const PER_GROUND_POINT = 0.06
/** A measured place of the ground beside all others, and where elements lie among them. */
const PER_PLACE = 0.0005
const PER_PLACE_AND_ELEMENT = 0.001
/** One stick cut, billed and answered; with rules for joints every run is laid several times. */
const PER_STICK = 0.03
const PER_STICK_WITH_RULES = 0.1
/** One run between two breaks, in each of the ways in which sticks are laid. */
const PER_RUN_WITH_RULES = 0.4
const PER_RUN = 0.3
/** Every further length of stick is tried for every stick. */
const PER_STICK_AND_LENGTH = 0.003
/** A stretch without joints is looked up for each joint. */
const PER_STICK_AND_KEEP_OUT = 0.0002
/** Bending of one size of curve, and ordinates of one curve on one chord. */
const PER_RADIUS = 0.5
const PER_CHORD = 0.05
/** Fouling points of a turnout, and couplers on a reverse curve, for each kind of car. */
const PER_TURNOUT_AND_CAR = 0.6
const PER_ELEMENT_AND_CAR = 0.2
/** An obstacle beside which each kind of car is moved, and each of its corners. */
const PER_OBSTACLE_AND_CAR = 0.4
const PER_CORNER_AND_CAR = 0.05
/** The outline of the garden beside each kind of car, and in each remedy that is tried, for a metre of track. */
const PER_OUTLINE_METRE_AND_CAR = 2
/** A station where grade or curve changes, for each entry of a train that is taken over it. */
const PER_STATION_AND_CARS = 0.006
/** A turnout over which each entry of a train may trail. */
const PER_TURNOUT_AND_CARS = 2
/** A place of an element, for each pair of pegs it may be marked from; and pegs measured from each other, by their cube. */
const PER_PLACE_AND_PAIR = 0.0001
const PER_TAPED_CUBED = 0.0004
/** Looking for better plans: at least, and for each run, and each length of stick. */
const SEARCHING = { quick: 10, thorough: 400 } as const
const PER_RUN_AND_LENGTH = { quick: 1, thorough: 40 } as const
const MOST_SEARCHING = { quick: 500, thorough: 8_000 } as const
/** How much more is looked at where joints have rules or ends are trimmed. */
const TIMES_WITH_RULES = 4
/** A rough plan for each mix with ready-made pieces. */
const PER_MIX = 4
const MOST_MIXES = { quick: 100, thorough: 1_000 } as const

/**
 * How long a plan takes to work out, roughly: estimated milliseconds, before any of it is done. Never less where anything
 * of the plan becomes more; O(size of the plan).
 *
 * @param plan a plan without faults
 */
export function workOf(plan: PlanInput): number {
  const { tracks, supplies, joints, bender, chords, effort = 'quick' } = plan
  const elements = sum(tracks.map((track) => track.elements.length))
  const gradePoints = sum(tracks.map((track) => track.gradeLine?.length ?? 0))
  const groundPoints = sum(tracks.map((track) => track.ground?.length ?? 0))
  const places = plan.ground?.length ?? 0
  const breaks = sum(tracks.map((track) => track.breaks?.length ?? 0))
  const keepOut = sum(tracks.map((track) => track.keepOut?.length ?? 0))
  const radii = new Set(
    tracks.flatMap((track) => track.elements.map((each) => (each.kind === 'arc' ? each.radius : 0))),
  )
  const lengths = supplies?.sticks?.length ?? 1
  const { sticks } = mostSticks(plan)
  const hasRules = (joints?.stagger ?? 0) > 0 || joints?.betweenTies === true || keepOut > 0 || bender?.ends === 'trim'
  const runs = 2 * (tracks.length + breaks)
  const cutting =
    sticks * (hasRules ? PER_STICK_WITH_RULES : PER_STICK) +
    sticks * (PER_STICK_AND_LENGTH * (lengths - 1) + PER_STICK_AND_KEEP_OUT * keepOut) +
    runs * (hasRules ? PER_RUN_WITH_RULES : PER_RUN)
  const looking = SEARCHING[effort] + PER_RUN_AND_LENGTH[effort] * runs * lengths
  const searching = Math.min(MOST_SEARCHING[effort], (hasRules ? TIMES_WITH_RULES : 1) * looking)
  const turnouts = sum(tracks.map((track) => track.elements.filter(({ kind }) => kind === 'turnout').length))
  const obstacles = plan.obstacles ?? []
  const corners = sum(obstacles.map(({ polygon }) => polygon?.length ?? 0))
  const ofObstacles =
    PER_OBSTACLE_AND_CAR * obstacles.length + PER_CORNER_AND_CAR * (corners + (plan.outline?.length ?? 0) * elements)
  const ofOutline = plan.outline ? (PER_OUTLINE_METRE_AND_CAR * trackMm(tracks)) / 1000 : 0
  const ofCars =
    (plan.cars?.length ?? 0) *
    (PER_TURNOUT_AND_CAR * turnouts + PER_ELEMENT_AND_CAR * elements + ofObstacles + ofOutline)
  const pegs = plan.pegs ?? []
  const taped = pegs.filter(({ first }) => first !== undefined).length
  const ofPegs = PER_PLACE_AND_PAIR * elements * pegs.length ** 2 + PER_TAPED_CUBED * taped ** 3
  const panels = supplies?.readyMade === 'never' ? 0 : (supplies?.panels?.length ?? 0)
  const mixes = panels === 0 ? 0 : Math.min(MOST_MIXES[effort], 2 ** Math.min(10, elements)) * Math.sqrt(panels)
  return (
    FIXED +
    PER_TRACK * tracks.length +
    PER_ELEMENT * elements +
    PER_GRADE_POINT * gradePoints +
    PER_GROUND_POINT * groundPoints +
    places * (PER_PLACE * places + PER_PLACE_AND_ELEMENT * elements) +
    radii.size * (PER_RADIUS + PER_CHORD * (chords?.length ?? 2)) +
    elements * PER_CHORD * (chords?.length ?? 2) +
    cutting +
    ofCars +
    carsWithWeight(plan) * (PER_STATION_AND_CARS * (elements + 2 * gradePoints) + PER_TURNOUT_AND_CARS * turnouts) +
    ofPegs +
    searching +
    mixes * (PER_MIX + cutting)
  )
}

/** The same of runs that are only to be cut. */
export function workOfCutList({ runs, sticks, effort }: CutListProblem): number {
  const shortestMm = Math.min(...sticks.map(({ lengthMm }) => lengthMm))
  const pieces = sum(runs.map(({ lengthMm }) => lengthMm / shortestMm))
  const looking = SEARCHING[effort] + PER_RUN_AND_LENGTH[effort] * runs.length * sticks.length
  return (
    FIXED +
    PER_RUN * runs.length +
    pieces * (PER_STICK + PER_STICK_AND_LENGTH * (sticks.length - 1)) +
    Math.min(MOST_SEARCHING[effort], looking)
  )
}

/** All tracks end to end, along the level. */
export function trackMm(tracks: PlanInput['tracks']): number {
  return sum(tracks.flatMap(({ elements }) => elements.map(elementLengthMm)))
}

/** Entries of trains, engines included, that can be taken up a grade. */
function carsWithWeight({ cars = [], trains = [] }: PlanInput): number {
  const engines = new Set(cars.flatMap(({ name, engine }) => (engine ? [name] : [])))
  return sum(trains.map((train) => (engines.has(train.engine) ? 1 + (train.cars?.length ?? 0) : 0)))
}
