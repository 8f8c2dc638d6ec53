import { type Hill, type HillPart, hillAlong } from '../hauling/hill.ts'
import { type Direction, slopesOf } from '../hauling/train.ts'
import { exceeds } from '../measure/counting.ts'
import { type Front, frontsOf } from './fronts.ts'
import { type HauledTrack, hillParts } from './hill-parts.ts'
import type { Network } from './network.ts'
import { tailsBehind } from './tails.ts'

/** A way of trains whose front is on one track, and whose rear may still be on others. */
export interface TrainWay {
  readonly hill: Hill
  readonly passed: readonly Passed[]
}

/** A part of a track on a way. */
interface Passed {
  readonly track: number
  readonly direction: Direction
  /** Along the way. */
  readonly fromMm: number
  readonly toMm: number
  /** Stations of the track there; of a leg of a turnout that no track runs along, both are that of the points. */
  readonly stationMm: number
  readonly endStationMm: number
}

/** Shorter trains are looked at on the same ways; beyond it on those of twice the length, and so on. */
const SHORTEST_TRAIN_MM = 1000

/** Runs on all ways of one length of train together; beyond them each front has one way, on its own track where it can. */
const MOST_RUNS = 20_000

interface WaysOfLength {
  readonly byTrack: ReadonlyMap<number, readonly TrainWay[]>
  readonly complete: boolean
}

/**
 * Where trains stand on a network: their front on each track, their rear on any way that leads there. What of a track no
 * train can come to but along it is taken once; what has several ways behind it once for each, as far as they reach.
 */
export class TrainWays {
  private readonly network: Network
  private readonly tracks: readonly HauledTrack[]
  private readonly parts: readonly HillPart[]
  private readonly fronts: readonly Front[]
  private readonly known = new Map<number, WaysOfLength>()

  constructor(network: Network, tracks: readonly HauledTrack[]) {
    this.network = network
    this.tracks = tracks
    this.parts = hillParts(network, tracks)
    this.fronts = frontsOf(network)
  }

  /** With the front on a track; none on one that is lifted. */
  ofTrack(track: number, trainMm: number): readonly TrainWay[] {
    return this.ofLength(trainMm).byTrack.get(track) ?? []
  }

  /** False where there are more ways than are looked at. */
  isComplete(trainMm: number): boolean {
    return this.ofLength(trainMm).complete
  }

  private ofLength(trainMm: number): WaysOfLength {
    const lengthMm = SHORTEST_TRAIN_MM * 2 ** Math.max(0, Math.ceil(Math.log2(trainMm / SHORTEST_TRAIN_MM)))
    const known = this.known.get(lengthMm)
    if (known) return known
    const byTrack = new Map<number, TrainWay[]>()
    let complete = true
    for (const front of this.fronts) {
      const { tails, complete: isWhole } = this.tailsOf(front, lengthMm)
      complete &&= isWhole
      const ways = byTrack.get(front.track) ?? []
      byTrack.set(front.track, ways)
      for (const [index, tail] of tails.entries()) ways.push(...this.wayOf(front, tail, index > 0 ? lengthMm : null))
    }
    const found = { byTrack, complete }
    this.known.set(lengthMm, found)
    return found
  }

  private tailsOf({ runs, isCircle }: Front, lengthMm: number) {
    if (isCircle) return { tails: [[]], complete: true }
    const most = Math.max(1, Math.floor(MOST_RUNS / this.fronts.length))
    return tailsBehind(runs[0]!, lengthMm, this.network, this.parts, most)
  }

  /** @param reachMm so far along its runs the tail matters; null: all of them are wanted */
  private wayOf(front: Front, tail: readonly number[], reachMm: number | null): TrainWay[] {
    if (tail.length === 0 && this.isWholeTrack(front)) return [this.wholeTrack(front)]
    const runs = [...tail, ...front.runs]
    let endMm = 0
    const passed = runs.map((run): Passed => {
      const fromMm = endMm
      endMm += this.parts[run]!.lengthMm
      return { ...this.placeOf(run), fromMm, toMm: endMm }
    })
    const frontFromMm = passed[tail.length]!.fromMm
    if (endMm === frontFromMm) return []
    const lengthMm = reachMm === null ? endMm : Math.min(endMm, frontFromMm + reachMm)
    const parts = runs.map((run) => this.parts[run]!)
    return [{ hill: hillAlong(parts, frontFromMm, lengthMm), passed }]
  }

  private isWholeTrack({ track, runs }: Front): boolean {
    const { stretches } = this.network
    const own = stretches.filter((each) => each.track === track && each.legOf === null)
    return runs.length === own.length && stretches[runs[0]! >> 1]!.legOf === null
  }

  /** One that is taken from end to end, as if it were alone. */
  private wholeTrack({ track, runs }: Front): TrainWay {
    const { lengthMm } = this.tracks[track]!
    const isForward = runs[0]! % 2 === 0
    const { hill, direction } = slopesOf(this.tracks[track]!)[isForward ? 0 : 1]!
    const [stationMm, endStationMm] = isForward ? [0, lengthMm] : [lengthMm, 0]
    return { hill, passed: [{ track, direction, fromMm: 0, toMm: lengthMm, stationMm, endStationMm }] }
  }

  private placeOf(run: number): Omit<Passed, 'fromMm' | 'toMm'> {
    const { track, fromMm, toMm, legOf } = this.network.stretches[run >> 1]!
    const ofLeg = this.tracks[track]!.turnouts.find(({ name }) => name === legOf)
    // A leg is numbered from the points on.
    const isForward = (run % 2 === 0) === (ofLeg ? ofLeg.enters === 'points' : true)
    const [stationMm, endStationMm] = run % 2 === 0 ? [fromMm, toMm] : [toMm, fromMm]
    return { track, direction: isForward ? 'forward' : 'backward', stationMm, endStationMm }
  }
}

/** Where on its track the front of a train is. */
export function frontAt(
  { passed }: TrainWay,
  frontMm: number,
): { readonly track: number; readonly direction: Direction; readonly atMm: number } {
  const { track, direction, fromMm, stationMm, endStationMm } =
    passed.findLast((each) => each.fromMm <= frontMm) ?? passed[0]!
  const alongMm = stationMm === endStationMm ? 0 : frontMm - fromMm
  return { track, direction, atMm: endStationMm < stationMm ? stationMm - alongMm : stationMm + alongMm }
}

/** A part of a track, from the lower station to the higher. */
export interface StoodOn {
  readonly track: number
  readonly fromMm: number
  readonly toMm: number
}

/** What a train stands on, from its front back, each track once; the track of its front if all of it is beyond the line. */
export function standsOn(way: TrainWay, frontMm: number, trainMm: number): StoodOn[] {
  const { passed } = way
  const byTrack = new Map<number, StoodOn>()
  for (const { track, fromMm, toMm, stationMm, endStationMm } of passed.toReversed()) {
    const [aheadMm, behindMm] = [Math.min(toMm, frontMm), Math.max(fromMm, frontMm - trainMm)]
    if (!exceeds(aheadMm, behindMm)) continue
    const sign = Math.sign(endStationMm - stationMm)
    const [a, b] = [stationMm + sign * (behindMm - fromMm), stationMm + sign * (aheadMm - fromMm)]
    const known = byTrack.get(track)
    byTrack.set(track, {
      track,
      fromMm: Math.min(a, b, known?.fromMm ?? a),
      toMm: Math.max(a, b, known?.toMm ?? a),
    })
  }
  if (byTrack.size > 0) return [...byTrack.values()]
  const { track, atMm } = frontAt(way, frontMm)
  return [{ track, fromMm: atMm, toMm: atMm }]
}
