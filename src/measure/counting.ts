/**
 * Lengths that are meant to be equal differ in their last digits once they have been summed. Whatever is counted is
 * therefore counted with this slack: a millionth of a millimetre more or less is the same length.
 */
export const LENGTH_SLACK_MM = 1e-6

/** How many whole pieces of `eachMm` fit into `totalMm`: twelve 6-ft lengths fit into 72 ft, however it was summed. */
export function wholePiecesIn(totalMm: number, eachMm: number): number {
  return Math.max(0, Math.floor((totalMm + LENGTH_SLACK_MM) / eachMm))
}

/** How many pieces of `eachMm` it takes to make up `totalMm`: 72 ft take twelve 6-ft lengths, never thirteen. */
export function piecesToCover(totalMm: number, eachMm: number): number {
  return Math.max(0, Math.ceil((totalMm - LENGTH_SLACK_MM) / eachMm))
}

/** `a` is longer than `b` by more than the slack. */
export function exceeds(a: number, b: number): boolean {
  return a > b + LENGTH_SLACK_MM
}

/**
 * Counts worked out by percentages or divisions are whole within this slack, relative to the count and at most a
 * thousandth: 7 % of 100, which floats make a little over 7, is 7.
 */
export const COUNT_SLACK = 1e-9

/** Rounded up to a whole number, ignoring rounding errors. */
export function roundedUp(value: number): number {
  const nearest = Math.round(value)
  const slack = Math.min(1e-3, COUNT_SLACK * Math.max(1, Math.abs(value)))
  return Math.abs(value - nearest) <= slack ? nearest + 0 : Math.ceil(value)
}

/** Equal within the slack of lengths. */
export function sameLength(aMm: number, bMm: number): boolean {
  return !exceeds(Math.abs(aMm - bMm), 0)
}
