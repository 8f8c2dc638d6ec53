import { stretchesNear } from '../room/near.ts'
import { boxAround, type Outline } from '../room/outline.ts'
import type { Side } from '../room/swept-width.ts'
import { type Touch, touchesOf } from '../room/touching.ts'
import { LOOKED_AT_LENGTHS, type SweptLine } from './swept-lines.ts'
import type { TrackLine } from './track-lines.ts'

/** What stands beside the line. */
export interface PlacedObstacle {
  readonly name: string
  readonly outline: Outline
  /** Of its top; null: higher than all cars. */
  readonly topMm: number | null
}

/** A stretch of a track along which cars run into an obstacle. */
export interface Touched {
  readonly obstacle: PlacedObstacle
  readonly track: number
  readonly fromMm: number
  /** Less than fromMm where it goes over the start of a closed track. */
  readonly toMm: number
  /** Where a car reaches deepest. */
  readonly atMm: number
  readonly element: number
  readonly depthMm: number
  /** Seen along the track. */
  readonly side: Side
  readonly across: boolean
  /** Names of all cars that touch it, the one that reaches deepest first. */
  readonly cars: readonly string[]
}

/** Steps in which lines are looked at near obstacles: a tenth of the shortest car, within bounds. */
const STEPS_IN_CAR = 10
const [LEAST_STEP_MM, MOST_STEP_MM] = [10, 60]
/** Sides of obstacles compared with places of lines; a garden's plan takes some ten thousand. */
const MOST_WORK = 5_000_000
/** Stretches of two lines that run over the same track are one if they meet or are as close as this. */
const SAME_MM = 1

/**
 * Which obstacles cars touch on their way over all lines, by track and station.
 *
 * @param railAt height of the rails of a track at a station
 */
export function touchedOn(
  lines: readonly SweptLine[],
  obstacles: readonly PlacedObstacle[],
  railAt: (track: number, atMm: number) => number,
): { readonly touched: Touched[]; readonly complete: boolean } {
  const boxes = obstacles.map(({ outline }) => boxAround(outline))
  const found: Touched[] = []
  let workLeft = MOST_WORK
  for (const each of lines) {
    const { line, swept, fromMm, toMm } = each
    if (swept.length === 0) continue
    const lengths = swept.map(({ envelope }) => envelope.car.lengthMm)
    const aroundMm = LOOKED_AT_LENGTHS * Math.max(...lengths)
    const stepMm = Math.min(MOST_STEP_MM, Math.max(LEAST_STEP_MM, Math.min(...lengths) / STEPS_IN_CAR))
    const mostMm = Math.max(...swept.map((car) => car.mostMm))
    const [first, last] = [Math.max(0, fromMm - aroundMm), Math.min(line.lengthMm, toMm + aroundMm)]
    for (const [index, stretches] of stretchesNear(line, boxes, mostMm, stepMm, first, last).entries()) {
      const obstacle = obstacles[index]!
      const { outline, topMm } = obstacle
      const corners = 'corners' in outline ? outline.corners.length : 1
      workLeft -= stretches.length * swept.length * corners
      if (workLeft < 0) return { touched: merged(found, lines), complete: false }
      if (stretches.length === 0) continue
      const isFree = (atMm: number) => {
        if (topMm === null) return false
        const place = each.placeAt(atMm)
        return railAt(place.track, place.atMm) >= topMm
      }
      for (const { envelope, mostMm: ofCar } of swept)
        for (const touch of touchesOf(envelope, outline, stretches, ofCar, isFree))
          found.push(touchedAt(each, touch, obstacle, envelope.car.name))
    }
  }
  return { touched: merged(found, lines), complete: true }
}

function touchedAt(line: TrackLine, touch: Touch, obstacle: PlacedObstacle, car: string): Touched {
  const { track, atMm, element, reversed } = line.placeAt(touch.atMm)
  const ends = [touch.fromMm, touch.toMm].map((mm) => stationOn(line, track, touch.atMm, mm))
  const [fromMm, toMm] = reversed ? [ends[1]!, ends[0]!] : [ends[0]!, ends[1]!]
  const side = (reversed ? -touch.side : touch.side) as Side
  const { depthMm, across } = touch
  return { obstacle, track, fromMm, toMm, atMm, element, depthMm, side, across, cars: [car] }
}

const CLOSE_ENOUGH_MM = 0.01

/** The station of a place on a line; where another track is there, of the end of this one on the way to it. */
function stationOn({ placeAt }: TrackLine, track: number, insideMm: number, atMm: number): number {
  if (placeAt(atMm).track === track) return placeAt(atMm).atMm
  let [inside, outside] = [insideMm, atMm]
  while (Math.abs(outside - inside) > CLOSE_ENOUGH_MM) {
    const middle = (inside + outside) / 2
    if (placeAt(middle).track === track) inside = middle
    else outside = middle
  }
  return placeAt(inside).atMm
}

/** One for each stretch of a track along which an obstacle is in the way, whichever cars and lines found it. */
function merged(found: readonly Touched[], lines: readonly SweptLine[]): Touched[] {
  const groups = new Map<PlacedObstacle, Map<number, Touched[]>>()
  for (const each of found) {
    const ofObstacle = groups.get(each.obstacle) ?? new Map<number, Touched[]>()
    groups.set(each.obstacle, ofObstacle)
    ofObstacle.set(each.track, [...(ofObstacle.get(each.track) ?? []), each])
  }
  return [...groups.values()]
    .flatMap((ofObstacle) =>
      [...ofObstacle].flatMap(([track, group]) => {
        const own = lines.find((line) => line.track === track)!
        return aroundStart(joined(group), own)
      }),
    )
    .toSorted((a, b) => a.track - b.track || a.atMm - b.atMm)
}

function joined(group: readonly Touched[]): Touched[] {
  const stretches: Touched[] = []
  for (const each of group.toSorted((a, b) => a.fromMm - b.fromMm)) {
    const last = stretches.at(-1)
    if (last && each.fromMm <= last.toMm + SAME_MM) stretches[stretches.length - 1] = together(last, each)
    else stretches.push(each)
  }
  return stretches
}

function together(one: Touched, other: Touched): Touched {
  const [deep, less] = one.depthMm >= other.depthMm ? [one, other] : [other, one]
  return {
    ...deep,
    fromMm: Math.min(one.fromMm, other.fromMm),
    toMm: Math.max(one.toMm, other.toMm),
    across: one.across || other.across,
    cars: [...new Set([...deep.cars, ...less.cars])],
  }
}

/** On a closed track what ends at its end goes on at its start. */
function aroundStart(stretches: Touched[], { line }: TrackLine): Touched[] {
  const [first, last] = [stretches[0], stretches.at(-1)]
  if (!line.closed || !first || !last || first === last) return stretches
  if (first.fromMm > SAME_MM || last.toMm < line.lengthMm - SAME_MM) return stretches
  return [...stretches.slice(1, -1), { ...together(last, first), fromMm: last.fromMm, toMm: first.toMm }]
}
