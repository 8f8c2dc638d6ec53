import { facingAt } from '../room/clearing.ts'
import { peakBetween } from '../room/peak.ts'
import type { Side } from '../room/swept-width.ts'
import { reachOf, type SweptLine } from './swept-lines.ts'

/** A stretch of a track along which cars on it and on another, or on another part of it, would touch. */
export interface TooClose {
  readonly track: number
  readonly element: number
  readonly fromMm: number
  readonly toMm: number
  /** Where most is missing, on either track. */
  readonly atMm: number
  readonly other: number
  readonly otherMm: number
  readonly apartMm: number
  readonly neededMm: number
  /** On which side of each the other lies, seen along the tracks. */
  readonly side: Side
  readonly otherSide: Side
  /** The cars that reach furthest there. */
  readonly cars: readonly [string, string]
}

/** How a line lies beside another at a station, and what is missing there for their cars to clear each other. */
export interface Sample {
  readonly atMm: number
  readonly otherMm: number
  readonly apartMm: number
  readonly missingMm: number
  readonly side: Side
}

/** Lines are looked at in steps no longer than this. */
export const MOST_STEP_MM = 150
/** Tracks as close as this meet or cross: turnouts and crossings have rules of their own. */
export const MEETING_MM = 20
/** What is missing where two cars just clear each other, by the fouling points. */
const SLACK_MM = 0.05
/** Where a stretch begins and ends, to so much. */
const EDGE_MM = 0.5

/** Nothing lies square to a place beyond the end of a line. */
function isAtEnd({ line }: SweptLine, atMm: number): boolean {
  return !line.closed && (atMm <= 0 || atMm >= line.lengthMm)
}

export function sampleAt(
  own: SweptLine,
  their: SweptLine,
  atMm: number,
  guessMm: number,
  reach: typeof reachOf,
): Sample {
  const { missingMm: apart, nearMm, side, otherSide } = facingAt(own.line, their.line, atMm, guessMm, 0, 0)
  const [ownMm, theirMm] = [reach(own, atMm, side), reach(their, nearMm, otherSide)]
  const { missingMm } = facingAt(own.line, their.line, atMm, nearMm, ownMm, theirMm)
  return { atMm, otherMm: nearMm, apartMm: Math.abs(apart), missingMm, side }
}

/**
 * What comes of places of a line that lie near each other and are too close, or nearly: where most is missing, exactly,
 * and from where to where any is. None where it is enough after all, or where the lines meet or cross.
 */
export function worstOf(stretch: readonly Sample[], own: SweptLine, their: SweptLine): TooClose[] {
  const index = stretch.reduce((worst, each, n) => (each.missingMm > stretch[worst]!.missingMm ? n : worst), 0)
  const about = stretch[index]!
  const exact = (atMm: number) => sampleAt(own, their, atMm, about.otherMm, reachOf)
  const isTooClose = (atMm: number) => {
    const { missingMm, otherMm } = exact(atMm)
    return missingMm > SLACK_MM && !isAtEnd(their, otherMm)
  }
  const edge = (insideMm: number, outsideMm: number) => {
    let [inside, outside] = [insideMm, Math.min(own.toMm, Math.max(own.fromMm, outsideMm))]
    if (isTooClose(outside)) return outside
    while (Math.abs(outside - inside) > EDGE_MM) {
      const middle = (inside + outside) / 2
      if (isTooClose(middle)) inside = middle
      else outside = middle
    }
    return inside
  }
  const [first, last] = [stretch[0]!.atMm, stretch.at(-1)!.atMm]
  const [fromMm, toMm] = [edge(first, first - MOST_STEP_MM), edge(last, last + MOST_STEP_MM)]
  const [before, after] = [stretch[index - 1]?.atMm ?? fromMm, stretch[index + 1]?.atMm ?? toMm]
  const { at } = peakBetween((atMm) => exact(atMm).missingMm, before, after, 0.1)
  const worst = exact(at)
  if (worst.missingMm <= SLACK_MM) return []
  const there = facingAt(own.line, their.line, at, worst.otherMm, 0, 0)
  const furthest = ({ swept }: SweptLine, atMm: number, side: Side) =>
    swept.reduce((most, each) => (each.envelope.at(atMm, side) > most.envelope.at(atMm, side) ? each : most)).envelope
      .car.name
  const [one, other] = [own.placeAt(at), their.placeAt(worst.otherMm)]
  const ends = [exact(fromMm), exact(toMm)]
  if (ends.some(({ apartMm, side }) => apartMm <= MEETING_MM || side !== worst.side)) return []
  return [
    {
      track: one.track,
      element: one.element,
      fromMm: own.placeAt(fromMm).atMm,
      toMm: own.placeAt(toMm).atMm,
      atMm: one.atMm,
      other: other.track,
      otherMm: other.atMm,
      apartMm: worst.apartMm,
      neededMm: worst.apartMm + worst.missingMm,
      side: (one.reversed ? -there.side : there.side) as Side,
      otherSide: (other.reversed ? -there.otherSide : there.otherSide) as Side,
      cars: [furthest(own, at, there.side), furthest(their, worst.otherMm, there.otherSide)],
    },
  ]
}
