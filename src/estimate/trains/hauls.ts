import type { CheckedPlace, CheckedTrain } from '../../checking/trains.ts'
import type { Pull } from '../../hauling/pull.ts'
import { blocksOf, carsTaken, type Direction, haulOn, type PullOn, WEATHER_SHARE } from '../../hauling/train.ts'
import { networkOf } from '../../network/network.ts'
import { frontAt, type StoodOn, standsOn, type TrainWay, TrainWays } from '../../network/train-ways.ts'
import { elementAt } from '../../track/place.ts'
import type { Plan } from '../plan.ts'
import type { LaidTrack } from '../track/laid-track.ts'
import { type TrainOfPlan, type TrainsOfPlan, trainsOfPlan } from './trains-of-plan.ts'

/** A place of a train, its front on a track. */
export interface PlaceOfTrain extends Pull {
  readonly direction: Direction
  readonly track: LaidTrack
  /** Station of its front, from the start of the track. */
  readonly atMm: number
  /** What it stands on, from its front back; tracks by their index. */
  readonly under: readonly StoodOn[]
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
  readonly takesWhenDry: number | null
  /** False where there are more ways than were followed. */
  readonly isComplete: boolean
}

export interface HaulsOfPlan extends TrainsOfPlan {
  readonly hauls: readonly TrainHauls[]
}

/** The rules, the answer and the feeders ask for the same. */
const KNOWN = new WeakMap<readonly LaidTrack[], HaulsOfPlan>()

/** What the trains of a plan ask for on every way of the network; lifted track aside. */
export function haulsOfPlan(drawn: readonly LaidTrack[], plan: Plan): HaulsOfPlan {
  const known = KNOWN.get(drawn)
  if (known) return known
  const of = trainsOfPlan(plan)
  const there = drawn.some(({ state }) => state !== 'lifted')
  const ways = of.trains.length > 0 && there ? waysOfTrains(drawn, plan) : null
  const found = { ...of, hauls: ways ? of.trains.map((train) => haulsOf(train, drawn, ways)) : [] }
  KNOWN.set(drawn, found)
  return found
}

/** Trains of different lengths, and grades averaged over them, are on the same ways. */
const WAYS = new WeakMap<readonly LaidTrack[], TrainWays>()

export function waysOfTrains(drawn: readonly LaidTrack[], { standards }: Pick<Plan, 'standards'>): TrainWays {
  const known = WAYS.get(drawn)
  if (known) return known
  const found = new TrainWays(networkOf(drawn, standards), drawn)
  WAYS.set(drawn, found)
  return found
}

function haulsOf(of: TrainOfPlan, drawn: readonly LaidTrack[], ways: TrainWays): TrainHauls {
  const blocks = blocksOf(of.hauled)
  const placed = ({ on, ...pull }: PullOn<TrainWay>): PlaceOfTrain => {
    const { track, direction, atMm } = frontAt(on, pull.frontMm)
    return { ...pull, direction, track: drawn[track]!, atMm, under: standsOn(on, pull.frontMm, of.lengthMm) }
  }
  const tracks = drawn.flatMap(({ state }, track) => (state === 'lifted' ? [] : [track]))
  const each = tracks.map((track) => {
    const { climbing, descending } = haulOn(ways.ofTrack(track, of.lengthMm), blocks)
    return { climbing: placed(climbing), descending: placed(descending) }
  })
  const taken = (pullN: number) =>
    tracks.map((track) => carsTaken((trainMm) => ways.ofTrack(track, trainMm), of.hauled, pullN))
  const takesOn = taken(WEATHER_SHARE * of.hauled.tractiveEffortN)
  return {
    of,
    climbing: each.map(({ climbing }) => climbing),
    ruling: each.map(({ climbing }) => climbing).reduce((a, b) => (b.pullN > a.pullN ? b : a)),
    descending: each.map(({ descending }) => descending).reduce((a, b) => (b.pullN < a.pullN ? b : a)),
    takesOn,
    takes: fewest(takesOn),
    takesWhenDry: fewest(taken(of.hauled.tractiveEffortN)),
    isComplete: ways.isComplete(of.lengthMm),
  }
}

function fewest(counts: readonly (number | null)[]): number | null {
  const known = counts.filter((each) => each !== null)
  return known.length === 0 ? null : Math.min(...known)
}

/** A train as the rules see it. */
export function checkedTrain(
  { of, ruling, descending, takes, isComplete }: TrainHauls,
  drawn: readonly LaidTrack[],
): CheckedTrain {
  const { name, drive, cars, hauled } = of
  return {
    name,
    isSteam: drive === 'steam',
    tractiveEffortN: hauled.tractiveEffortN,
    holdingN: hauled.holdingN,
    cars,
    takes,
    isComplete,
    climbing: checkedPlace(ruling, drawn),
    descending: checkedPlace(descending, drawn),
  }
}

function checkedPlace(
  { track, atMm, pullN, grade, curve, under }: PlaceOfTrain,
  drawn: readonly LaidTrack[],
): CheckedPlace {
  const behind = tracksOf(under, drawn).filter((name) => name !== track.name)
  return { track: track.name, element: elementAt(track.placed, atMm).index, atMm, pullN, grade, curve, behind }
}

/** Their names. */
export function tracksOf(under: readonly StoodOn[], drawn: readonly LaidTrack[]): string[] {
  return under.map(({ track }) => drawn[track]!.name)
}
