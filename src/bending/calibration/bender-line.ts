import type { Metal } from '../metal.ts'
import { onePassDepthMm } from '../roller/model-for.ts'
import type { RollerBender } from '../roller/roller-bender.ts'
import type { SectionProperties } from '../section-properties.ts'

/**
 * What this bender does with this rail: depth = offset + scale × the starting estimate. The offset is play and an
 * uncertain first touch, the scale everything that the estimate leaves out.
 */
export interface BenderLine {
  readonly offsetMm: number
  readonly scale: number
  readonly passes: number
  /** Whether the passes are different enough to tell the scale; otherwise it is taken as 1. */
  readonly hasScale: boolean
  /** Root mean square of the passes' departures from the line; null with two passes or fewer, which it always meets. */
  readonly spreadMm: number | null
}

/** The rail and bender the estimates of a line are made with. */
export interface BenderWithRail {
  readonly section: SectionProperties
  readonly metal: Metal
  readonly bender: RollerBender
}

/** Estimated depths with a ratio below this do not separate scale and offset well enough. */
const LEAST_RATIO = 1.25

/**
 * The line through measured passes by least squares in the depth. With one pass, or passes that are too similar, only
 * one of the two can be told: the scale is taken as 1, because play, the flex of the frame under a nearly constant load
 * and an error in the yield all shift the depth. Null when the passes contradict each other: deeper ones that came out straighter.
 * Ordinary least squares; tests/bending/calibration/bender-line.test.ts.
 *
 * @param passes at least one; depth and resting radius > 0
 */
export function benderLine(
  rail: BenderWithRail,
  passes: readonly { readonly depthMm: number; readonly restingRadiusMm: number }[],
): BenderLine | null {
  const points = passes.map((pass) => ({ x: estimateMm(rail, pass.restingRadiusMm), y: pass.depthMm }))
  const xs = points.map(({ x }) => x)
  const apart = Math.max(...xs) >= LEAST_RATIO * Math.min(...xs)
  const { scale, offsetMm } = apart ? throughMeans(points) : shifted(points)
  if (!(scale > 0)) return null
  const squares = points.reduce((sum, { x, y }) => sum + (y - offsetMm - scale * x) ** 2, 0)
  return {
    offsetMm,
    scale,
    passes: passes.length,
    hasScale: apart,
    spreadMm: passes.length > 2 ? Math.sqrt(squares / passes.length) : null,
  }
}

/** Depth to set for a wanted resting radius. */
export function depthOnLineMm(line: BenderLine, rail: BenderWithRail, wantedRadiusMm: number): number {
  return line.offsetMm + line.scale * estimateMm(rail, wantedRadiusMm)
}

function estimateMm({ section, metal, bender }: BenderWithRail, restingRadiusMm: number): number {
  return onePassDepthMm(section, metal, bender, 1 / restingRadiusMm)
}

interface Point {
  readonly x: number
  readonly y: number
}

function shifted(points: readonly Point[]): { scale: number; offsetMm: number } {
  return { scale: 1, offsetMm: points.reduce((sum, { x, y }) => sum + y - x, 0) / points.length }
}

function throughMeans(points: readonly Point[]): { scale: number; offsetMm: number } {
  const meanX = points.reduce((sum, { x }) => sum + x, 0) / points.length
  const meanY = points.reduce((sum, { y }) => sum + y, 0) / points.length
  const xy = points.reduce((sum, { x, y }) => sum + (x - meanX) * (y - meanY), 0)
  const xx = points.reduce((sum, { x }) => sum + (x - meanX) ** 2, 0)
  const scale = xy / xx
  return { scale, offsetMm: meanY - scale * meanX }
}
