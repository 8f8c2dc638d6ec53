import type { Point } from '../track/sample.ts'
import type { Pose } from '../track/types.ts'

/** The outline of something that stands beside the line, from above. */
export type Outline =
  | {
      readonly corners: readonly Point[]
      /** What lies outside of it is in the way, not what lies inside: the edge of a garden. */
      readonly isOutside?: boolean
    }
  | { readonly centre: Point; readonly radiusMm: number }

/** From one distance from the centre line to another, left positive. */
export interface Span {
  readonly fromMm: number
  readonly toMm: number
}

/** Ahead of a pose and to its left. */
export function inFrame({ xMm, yMm }: Point, here: Pose): readonly [number, number] {
  const [dx, dy] = [xMm - here.xMm, yMm - here.yMm]
  const [cos, sin] = [Math.cos(here.headingRad), Math.sin(here.headingRad)]
  return [dx * cos + dy * sin, dy * cos - dx * sin]
}

/**
 * Where the line square to the track at a pose runs inside an outline, from right to left. A line through a corner may
 * count as on either side of it, so it is asked for close beside corners.
 */
export function spansAcross(outline: Outline, here: Pose): Span[] {
  if ('centre' in outline) {
    const [ahead, left] = inFrame(outline.centre, here)
    const { radiusMm } = outline
    if (Math.abs(ahead) >= radiusMm) return []
    const half = Math.sqrt((radiusMm - ahead) * (radiusMm + ahead))
    return [{ fromMm: left - half, toMm: left + half }]
  }
  const { corners } = outline
  const crossed: number[] = []
  const [cos, sin] = [Math.cos(here.headingRad), Math.sin(here.headingRad)]
  const aheadOf = ({ xMm, yMm }: Point) => (xMm - here.xMm) * cos + (yMm - here.yMm) * sin
  const leftOf = ({ xMm, yMm }: Point) => (yMm - here.yMm) * cos - (xMm - here.xMm) * sin
  let before = corners.at(-1)!
  let ahead = aheadOf(before)
  for (const corner of corners) {
    const next = aheadOf(corner)
    if (ahead > 0 !== next > 0)
      crossed.push(leftOf(before) + ((leftOf(corner) - leftOf(before)) * ahead) / (ahead - next))
    before = corner
    ahead = next
  }
  crossed.sort((a, b) => a - b)
  if (outline.isOutside) {
    // No further than the furthest corner, beyond which all is the same.
    const farMm = Math.max(...corners.map(({ xMm, yMm }) => Math.hypot(xMm - here.xMm, yMm - here.yMm)))
    crossed.unshift(-farMm)
    crossed.push(farMm)
  }
  return Array.from({ length: crossed.length / 2 }, (_, index) => ({
    fromMm: crossed[2 * index]!,
    toMm: crossed[2 * index + 1]!,
  }))
}

const EVERYWHERE = Number.POSITIVE_INFINITY

/** The smallest rectangle around an outline with its sides along x and y. */
export function boxAround(outline: Outline) {
  if ('corners' in outline && outline.isOutside)
    return { minXMm: -EVERYWHERE, maxXMm: EVERYWHERE, minYMm: -EVERYWHERE, maxYMm: EVERYWHERE }
  if ('centre' in outline) {
    const { centre, radiusMm } = outline
    return {
      minXMm: centre.xMm - radiusMm,
      maxXMm: centre.xMm + radiusMm,
      minYMm: centre.yMm - radiusMm,
      maxYMm: centre.yMm + radiusMm,
    }
  }
  const [xs, ys] = [outline.corners.map(({ xMm }) => xMm), outline.corners.map(({ yMm }) => yMm)]
  return { minXMm: Math.min(...xs), maxXMm: Math.max(...xs), minYMm: Math.min(...ys), maxYMm: Math.max(...ys) }
}
