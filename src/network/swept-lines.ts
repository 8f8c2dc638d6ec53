import type { CoupledCar } from '../room/coupled-cars.ts'
import { Envelope } from '../room/envelope.ts'
import { mostReachMm } from '../room/reach.ts'
import type { Side } from '../room/swept-width.ts'
import type { Network } from './network.ts'
import { type TrackLine, trackLines } from './track-lines.ts'

/** A track with the room that each kind of car takes along it. */
export interface SweptLine extends TrackLine {
  readonly swept: readonly SweptByCar[]
}

export interface SweptByCar {
  readonly envelope: Envelope<CoupledCar>
  /** It reaches no further anywhere. */
  readonly mostMm: number
}

/** So many lengths of the longest car before and behind a track may matter to a car that comes onto it. */
const BEYOND_LENGTHS = 3

export function sweptLines(network: Network, cars: readonly CoupledCar[]): SweptLine[] {
  const longestMm = Math.max(0, ...cars.map(({ lengthMm }) => lengthMm))
  return trackLines(network, BEYOND_LENGTHS * longestMm).map((each) => ({
    ...each,
    swept: cars.map((car) => ({ envelope: new Envelope(each.line, car), mostMm: mostReachMm(each.line, car) })),
  }))
}

/** So many lengths of the longest car before and behind a track it is looked at as a part of its line. */
export const LOOKED_AT_LENGTHS = 1.5

/** The room that the cars take at a place of a line, to one side; 0 without cars. */
export function reachOf({ swept }: SweptLine, atMm: number, side: Side): number {
  return swept.reduce((most, { envelope }) => Math.max(most, envelope.at(atMm, side)), 0)
}

/** Few places, as what is found there is looked at again exactly. */
const PLACES_IN_CAR = 8

/** The same about, quicker where many places are asked for. */
export function aboutReachOf({ swept }: SweptLine, atMm: number, side: Side): number {
  return swept.reduce((most, { envelope }) => Math.max(most, envelope.about(atMm, side, PLACES_IN_CAR)), 0)
}
