import { type Answer, component, flag, length, list, nullable, optional, text } from '../plan/fields/answer.ts'
import type { CoupledCar } from '../room/coupled-cars.ts'
import { CouplerOffsets } from './coupler-offsets.ts'
import { Curves } from './curves.ts'
import type { Network } from './network.ts'
import { reversalsAlong } from './reversals.ts'
import { type Way, waysThrough } from './ways.ts'

export const TRACK_OF_WAY = component('TrackOfWay', 'The part of a track that a way runs over, between two stations.', {
  track: text({ title: 'Track' }),
  fromMm: length({ title: 'From' }),
  toMm: length({ title: 'To' }),
  reversed: flag({ says: 'Whether the train runs from toMm to fromMm.', title: 'Reversed' }),
})

export const REVERSE_CURVE = component(
  'ReverseCurve',
  'Two curves of opposite turn with too short a straight between them.',
  {
    atTrack: text({ says: 'The track on which the second curve begins.', title: 'Track' }),
    atMm: length({
      says: 'Where it begins; for a leg of a turnout along which no track runs, the station of the points.',
      title: 'At',
    }),
    straightMm: length({ title: 'Straight between' }),
    couplerOffsetMm: optional(
      nullable(
        length({ title: 'Couplers off sideways' }),
        'Only if the plan lists cars: the most that the couplers of two coupled cars of one kind are off each other sideways; null if none of the cars fits these curves.',
      ),
    ),
  },
)

export const WAY = component('Way', 'A way that a train can take without reversing.', {
  loop: flag({
    says: 'Whether it joins its own beginning, so that a train can go round and round.',
    title: 'Loop',
  }),
  tracks: list(
    TRACK_OF_WAY,
    'In the order in which the train comes to them. A leg of a turnout along which no track runs is not listed.',
  ),
  reverseCurves: list(
    REVERSE_CURVE,
    'Where the straight between curves of opposite turn is shorter than standards.minimumTangentBetweenReverseCurves (without it: where there is none), unless both have easements.',
  ),
})

type WayAnswer = Answer<typeof WAY>
type TrackOfWay = Answer<typeof TRACK_OF_WAY>

export interface WaysAnswer {
  readonly ways: WayAnswer[]
  readonly complete: boolean
}

export const NO_WAYS: WaysAnswer = { ways: [], complete: true }

/** @param limitMm least straight between curves of opposite turn, where it is known */
export function waysAnswer(network: Network, limitMm: number | null, cars: readonly CoupledCar[] = []): WaysAnswer {
  const { ways, complete } = waysThrough(network.links)
  const curves = new Curves(network)
  const offsets = new CouplerOffsets(network, cars)
  const answer = (way: Way): WayAnswer => ({
    loop: way.loop,
    tracks: tracksOf(way.runs, network),
    reverseCurves: reversalsAlong(way, curves, limitMm).map((reversal) => ({
      atTrack: network.tracks[network.stretches[reversal.second.stretch]!.track]!.name,
      atMm: reversal.second.atMm,
      straightMm: reversal.straightMm,
      ...(cars.length > 0 && { couplerOffsetMm: offsets.of(reversal)?.offsetMm ?? null }),
    })),
  })
  return { ways: ways.map(answer), complete }
}

/** Runs over a track without a gap are one entry. */
function tracksOf(runs: readonly number[], { tracks, stretches }: Network): TrackOfWay[] {
  const found: TrackOfWay[] = []
  let open = null as TrackOfWay | null
  for (const run of runs) {
    const { track, fromMm, toMm, legOf } = stretches[run >> 1]!
    const reversed = run % 2 === 1
    const name = tracks[track]!.name
    if (legOf !== null) open = null
    else if (
      open?.track === name &&
      open.reversed === reversed &&
      (reversed ? open.fromMm === toMm : open.toMm === fromMm)
    ) {
      if (reversed) open.fromMm = fromMm
      else open.toMm = toMm
    } else {
      open = { track: name, fromMm, toMm, reversed }
      found.push(open)
    }
  }
  return found.filter(({ fromMm, toMm }) => toMm > fromMm)
}
