import type { CheckedPlace, CheckedTrain } from '../../checking/trains.ts'
import {
  blocksOf,
  carsTaken,
  type Directed,
  type Direction,
  haulOn,
  type Slope,
  slopesOf,
  WEATHER_SHARE,
} from '../../hauling/train.ts'
import { elementAt } from '../../track/place.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import { type TrainOfPlan, type TrainsOfPlan, trainsOfPlan } from './trains-of-plan.ts'

/** A place of a train on a track. */
export interface PlaceOfTrain extends Directed {
  readonly track: LaidTrack
  /** Station of its front, from the start of the track. */
  readonly atMm: number
}

/** A train on every track. */
export interface TrainHauls {
  readonly of: TrainOfPlan
  /** The hardest place of each track. */
  readonly climbing: readonly PlaceOfTrain[]
  /** The hardest of these. */
  readonly ruling: PlaceOfTrain
  /** Where it pushes hardest downhill: the least pull, below zero if it pushes. */
  readonly descending: PlaceOfTrain
  /** Cars it takes over each track in damp weather, and over all of them. */
  readonly takesOn: readonly (number | null)[]
  readonly takes: number | null
  readonly slopes: readonly Slope[]
}

export interface HaulsOfPlan extends TrainsOfPlan {
  readonly hauls: readonly TrainHauls[]
}

/** The rules, the answer and the feeders ask for the same. */
const KNOWN = new WeakMap<readonly LaidTrack[], HaulsOfPlan>()

/** What the trains of a plan ask for, each track by itself; lifted track aside. */
export function haulsOfPlan(drawn: readonly LaidTrack[], plan: Plan): HaulsOfPlan {
  const known = KNOWN.get(drawn)
  if (known) return known
  const of = trainsOfPlan(plan)
  const tracks = drawn.filter(({ state }) => state !== 'lifted')
  const slopes = of.trains.length === 0 ? [] : tracks.map((track) => ({ track, slopes: slopesOf(track) }))
  const found = { ...of, hauls: tracks.length === 0 ? [] : of.trains.map((train) => haulsOf(train, slopes)) }
  KNOWN.set(drawn, found)
  return found
}

interface SlopesOfTrack {
  readonly track: LaidTrack
  readonly slopes: readonly Slope[]
}

function haulsOf(of: TrainOfPlan, tracks: readonly SlopesOfTrack[]): TrainHauls {
  const blocks = blocksOf(of.hauled)
  const placed = ({ frontMm, direction, ...rest }: Directed, track: LaidTrack): PlaceOfTrain => {
    return { ...rest, frontMm, direction, track, atMm: stationOf(frontMm, direction, track) }
  }
  const each = tracks.map(({ track, slopes }) => {
    const { climbing, descending } = haulOn(slopes, blocks)
    return { climbing: placed(climbing, track), descending: placed(descending, track) }
  })
  const takesOn = tracks.map(({ slopes }) => carsTaken(slopes, of.hauled, WEATHER_SHARE * of.hauled.tractiveEffortN))
  return {
    of,
    climbing: each.map(({ climbing }) => climbing),
    ruling: each.map(({ climbing }) => climbing).reduce((a, b) => (b.pullN > a.pullN ? b : a)),
    descending: each.map(({ descending }) => descending).reduce((a, b) => (b.pullN < a.pullN ? b : a)),
    takesOn,
    takes: fewest(takesOn),
    slopes: tracks.flatMap(({ slopes }) => slopes),
  }
}

function stationOf(frontMm: number, direction: Direction, { lengthMm }: LaidTrack): number {
  return direction === 'forward' ? frontMm : lengthMm - frontMm
}

function fewest(counts: readonly (number | null)[]): number | null {
  const known = counts.filter((each) => each !== null)
  return known.length === 0 ? null : Math.min(...known)
}

/** A train as the rules see it. */
export function checkedTrain({ of, ruling, descending, takes }: TrainHauls): CheckedTrain {
  const { name, drive, cars, hauled } = of
  return {
    name,
    isSteam: drive === 'steam',
    tractiveEffortN: hauled.tractiveEffortN,
    holdingN: hauled.holdingN,
    cars,
    takes,
    climbing: checkedPlace(ruling),
    descending: checkedPlace(descending),
  }
}

function checkedPlace({ track, atMm, pullN, grade, curve }: PlaceOfTrain): CheckedPlace {
  return { track: track.name, element: elementAt(track.placed, atMm).index, atMm, pullN, grade, curve }
}
