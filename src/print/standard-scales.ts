import type { LengthsIn } from '../page/show-length.ts'

/**
 * Scales that rulers have (common practice, no source; ISO 5455 has 1:10 to 1:10 000 by 1, 2 and 5): in feet those of so
 * many inches to the foot, then so many feet to the inch.
 */
const SCALES = {
  metric: [5, 10, 20, 25, 50, 100, 200, 500, 1000, 2000, 5000, 10_000],
  feet: [6, 12, 24, 48, 96, 192, 240, 480, 960, 1200, 2400, 6000, 12_000],
} as const

const PARTS: Readonly<Record<number, string>> = {
  6: '2 in',
  12: '1 in',
  24: '1/2 in',
  48: '1/4 in',
  96: '1/8 in',
  192: '1/16 in',
}

/** At this scale and smaller ones, rails can no longer be told apart: no page is saved by it unless there are too many. */
export const SMALLEST_CLEAR = 100

export function scalesIn(lengthsIn: LengthsIn): readonly number[] {
  return SCALES[lengthsIn === 'feet' ? 'feet' : 'metric']
}

/** `1:50`, or `1:48, 1/4 in to the foot`. */
export function scaleName(scale: number, lengthsIn: LengthsIn): string {
  const part = lengthsIn === 'feet' ? PARTS[scale] : undefined
  return part === undefined ? `1:${scale}` : `1:${scale}, ${part} to the foot`
}
