import { LENGTH_SLACK_MM } from '../measure/counting.ts'
import type { Point } from '../track/sample.ts'
import type { Envelope } from './envelope.ts'
import type { NearStretch } from './near.ts'
import { inFrame, type Outline, spansAcross } from './outline.ts'
import { peakBetween } from './peak.ts'
import type { Side } from './swept-width.ts'

/** A stretch of a line along which a car runs into something beside it. */
export interface Touch {
  readonly fromMm: number
  readonly toMm: number
  /** Where it reaches deepest, by how much, and on which side the obstacle is. */
  readonly atMm: number
  readonly depthMm: number
  readonly side: Side
  /** It stands across the centre line. */
  readonly across: boolean
}

interface Sample {
  readonly atMm: number
  /** How deep the car reaches into it; negative where it does not touch. */
  readonly depthMm: number
  readonly side: Side
  readonly across: boolean
}

/** Beside a corner, where the line square to the track meets one side or the other. */
const BESIDE_MM = 1e-5
const CLOSE_ENOUGH_MM = 0.02
/** How far the reach between two places may be from what is taken for it. */
const EXACT_MM = 0.02
/** Between places that touch, or nearly, by so much less than the deepest there is nothing deeper. */
const NEAR_MM = 3
const FAR: Omit<Sample, 'atMm'> = { depthMm: Number.NEGATIVE_INFINITY, side: 1, across: false }

/**
 * Where a car on a line reaches into an outline.
 *
 * At a station s the line square to the track meets the outline from o₁ to o₂ (left positive); the car reaches to h₁ on
 * the left and h₂ on the right, so it is in as deep as min(h₁ − o₁, h₂ + o₂): by so much the track has to move to the
 * other side, or the outline has to be cut back. On each stretch between the stations of its corners the depth is looked
 * at in three places, and its peak found by golden section where it may be the deepest or the first to touch. Ends of the
 * touching stretch by halving.
 * Checked against a car moved by fractions of a millimetre in tests/room/touching.test.ts.
 *
 * @param mostMm no car reaches further
 * @param stretches near the outline, in order
 * @param isFree where nothing can be touched, because the rails are higher than the outline
 */
export function touchesOf(
  envelope: Envelope,
  outline: Outline,
  stretches: readonly NearStretch[],
  mostMm: number,
  isFree: (atMm: number) => boolean,
): Touch[] {
  const { line } = envelope
  const depthAt = (atMm: number, reachAt = (side: Side) => envelope.about(atMm, side)): Sample => {
    let deepest: Sample = { ...FAR, atMm }
    if (isFree(atMm)) return deepest
    for (const { fromMm, toMm } of spansAcross(outline, line.poseAt(atMm))) {
      if (fromMm > mostMm || toMm < -mostMm) continue
      const across = fromMm < 0 && toMm > 0
      const left = toMm > 0 ? reachAt(1) - fromMm : Number.POSITIVE_INFINITY
      const right = fromMm < 0 ? reachAt(-1) + toMm : Number.POSITIVE_INFINITY
      const depthMm = Math.min(left, right)
      if (depthMm > deepest.depthMm) deepest = { atMm, depthMm, side: left <= right ? 1 : -1, across }
    }
    return deepest
  }
  const exactAt = (atMm: number) => depthAt(atMm, (side) => envelope.at(atMm, side))
  /** About where it is deepest; where that is not exact enough, it is looked for again exactly. */
  const deepestBetween = (fromMm: number, toMm: number): Sample => {
    const about = peakBetween((atMm) => depthAt(atMm).depthMm, fromMm, toMm, CLOSE_ENOUGH_MM)
    const there = exactAt(about.at)
    if (Math.abs(there.depthMm - about.value) < EXACT_MM) return there
    return exactAt(peakBetween((atMm) => exactAt(atMm).depthMm, fromMm, toMm, CLOSE_ENOUGH_MM).at)
  }
  const runs = runsOf(stretches)
  return runs.flatMap((run) => touchesAlong(samplesOf(run, line, outline, mostMm, depthAt, deepestBetween), depthAt))
}

/** Stretches that follow each other. */
function runsOf(stretches: readonly NearStretch[]): NearStretch[][] {
  const runs: NearStretch[][] = []
  for (const stretch of stretches) {
    const last = runs.at(-1)
    if (last && last.at(-1)!.toMm === stretch.fromMm) last.push(stretch)
    else runs.push([stretch])
  }
  return runs
}

type DepthAt = (atMm: number) => Sample

function samplesOf(
  run: readonly NearStretch[],
  line: Envelope['line'],
  outline: Outline,
  mostMm: number,
  depthAt: DepthAt,
  deepestBetween: (fromMm: number, toMm: number) => Sample,
): Sample[] {
  const places = run.flatMap(({ fromMm, toMm }) => [fromMm, ...cornersBetween(line, outline, fromMm, toMm, mostMm)])
  places.push(run.at(-1)!.toMm)
  const parts = places.slice(1).flatMap((toMm, index) => {
    const fromMm = places[index]!
    if (toMm - fromMm <= 4 * BESIDE_MM) return []
    const middleMm = (fromMm + toMm) / 2
    return [[depthAt(fromMm + BESIDE_MM), depthAt(middleMm), depthAt(toMm - BESIDE_MM)] as const]
  })
  const deepestMm = Math.max(...parts.flat().map(({ depthMm }) => depthMm))
  return parts.flatMap(([first, middle, last]) => {
    const most = Math.max(first.depthMm, middle.depthMm, last.depthMm)
    const matters = most > -NEAR_MM && (most <= 0 || most > deepestMm - NEAR_MM)
    if (!matters) return [first, middle, last]
    const [from, to] =
      most === middle.depthMm ? [first, last] : most === first.depthMm ? [first, middle] : [middle, last]
    return [first, middle, deepestBetween(from.atMm, to.atMm), last].sort((a, b) => a.atMm - b.atMm)
  })
}

/** The stations of corners near the line; of a circle, of its middle and its two ends along the line. */
function cornersBetween(
  line: Envelope['line'],
  outline: Outline,
  fromMm: number,
  toMm: number,
  mostMm: number,
): number[] {
  const [start, end] = [line.poseAt(fromMm), line.poseAt(toMm)]
  const wanted =
    'centre' in outline
      ? [-outline.radiusMm, 0, outline.radiusMm].map((pastMm) => ({ point: outline.centre, pastMm }))
      : outline.corners.map((point) => ({ point, pastMm: 0 }))
  const seen = wanted.map(({ point }) => inFrame(point, start))
  const nearMm = mostMm + ('centre' in outline ? outline.radiusMm : 0)
  const corners = wanted.flatMap(({ point, pastMm }, index) => {
    const [ahead, left] = seen[index]!
    if (Math.abs(left) > nearMm + toMm - fromMm || ahead < pastMm) return []
    const [behind] = inFrame(point, end)
    if (behind > pastMm) return []
    let atMm = fromMm
    let by = ahead - pastMm
    for (let step = 0; step < 12 && Math.abs(by) > 1e-7; step++) {
      atMm += by
      by = inFrame(point, line.poseAt(atMm))[0] - pastMm
    }
    return [atMm]
  })
  const sides = 'centre' in outline ? [] : sidesAcross(line, outline.corners, seen, fromMm, toMm)
  return [...corners, ...sides].filter((atMm) => atMm > fromMm && atMm < toMm).sort((a, b) => a - b)
}

/**
 * The stations where sides of a polygon cross the line. A wall square to the track may be thinner than what lies between
 * two places that are looked at, and its corners may be far away.
 *
 * @param seen its corners in the frame at `fromMm`
 */
function sidesAcross(
  line: Envelope['line'],
  corners: readonly Point[],
  seen: readonly (readonly [number, number])[],
  fromMm: number,
  toMm: number,
): number[] {
  return corners.flatMap((corner, index) => {
    const before = corners.at(index - 1)!
    let byMm = aheadWhereAcross(seen.at(index - 1)!, seen[index]!)
    if (byMm === null || Math.abs(byMm) > 2 * (toMm - fromMm)) return []
    let atMm = fromMm
    for (let step = 0; step < 12 && byMm !== null && Math.abs(byMm) > 1e-7; step++) {
      atMm += byMm
      const here = line.poseAt(atMm)
      byMm = aheadWhereAcross(inFrame(before, here), inFrame(corner, here))
    }
    return [atMm]
  })
}

/** How far ahead a side between two points crosses the line straight on; null where it does not. */
function aheadWhereAcross([a, left]: readonly [number, number], [b, other]: readonly [number, number]): number | null {
  return left > 0 === other > 0 ? null : a + ((b - a) * left) / (left - other)
}

function touchesAlong(samples: readonly Sample[], depthAt: DepthAt): Touch[] {
  const touches: Touch[] = []
  const isIn = ({ depthMm }: Sample) => depthMm > LENGTH_SLACK_MM
  let first = 0
  while (first < samples.length) {
    if (!isIn(samples[first]!)) {
      first++
      continue
    }
    let last = first
    while (last + 1 < samples.length && isIn(samples[last + 1]!)) last++
    const own = samples.slice(first, last + 1)
    const deepest = own.reduce((most, each) => (each.depthMm > most.depthMm ? each : most))
    const [before, after] = [samples[first - 1], samples[last + 1]]
    touches.push({
      fromMm: before ? edgeBetween(before.atMm, own[0]!.atMm, depthAt) : own[0]!.atMm,
      toMm: after ? edgeBetween(after.atMm, own.at(-1)!.atMm, depthAt) : own.at(-1)!.atMm,
      atMm: deepest.atMm,
      depthMm: deepest.depthMm,
      side: deepest.side,
      across: own.some(({ across }) => across),
    })
    first = last + 1
  }
  return touches
}

/** Where touching begins, between a place that is clear and one that is not. */
function edgeBetween(clearMm: number, touchingMm: number, depthAt: DepthAt): number {
  let [clear, touching] = [clearMm, touchingMm]
  while (Math.abs(touching - clear) > CLOSE_ENOUGH_MM) {
    const middle = (clear + touching) / 2
    if (depthAt(middle).depthMm > LENGTH_SLACK_MM) touching = middle
    else clear = middle
  }
  return touching
}
